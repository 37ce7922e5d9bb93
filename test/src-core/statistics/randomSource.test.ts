import { describe, expect, it } from 'vitest'
import { randomSource } from '../../helpers/randomSource'

const many = <T>(n: number, draw: () => T): readonly T[] => Array.from({ length: n }, draw)

describe('the numbers drawn by chance', () => {
  // First round of the demonstration program that comes with the author's PCG32 library, seed 42, sequence 54
  // (pcg-random.org; from memory).
  it('are those of the published generator: numbers, coins and rolls of its demonstration', () => {
    const random = randomSource(42, 54)
    expect(many(6, () => random.next())).toEqual([
      0xa15c02b7, 0x7b47f409, 0xba1d3330, 0x83d2f293, 0xbfa4784b, 0xcbed606e,
    ])
    expect(many(65, () => 'TH'[random.nextBelow(2)]).join('')).toBe(
      'HHTTTHTHHHTHTTTHHHHHTTTHHHTHTHTHTTHTTTHHHHHHTTTTHHTTTTTHTTTTTTTHT',
    )
    expect(many(33, () => random.nextBelow(6) + 1).join(' ')).toBe(
      '3 4 1 1 2 2 3 2 4 3 2 4 3 3 5 2 3 1 3 1 5 1 4 1 5 6 4 6 6 2 6 3 3',
    )
  })

  it('follow the 64-bit arithmetic of the definition, here written with big whole numbers', () => {
    const mask = (1n << 64n) - 1n
    const increment = (7n << 1n) | 1n
    let state = 0n
    const step = () => (state = (state * 6364136223846793005n + increment) & mask)
    step()
    state = (state + 123456789012n) & mask
    step()
    const random = randomSource(123456789012, 7)
    for (let i = 0; i < 500; i++) {
      const shifted = (((state >> 18n) ^ state) >> 27n) & 0xffffffffn
      const rotation = state >> 59n
      const wanted = ((shifted >> rotation) | (shifted << (-rotation & 31n))) & 0xffffffffn
      step()
      expect(random.next()).toBe(Number(wanted))
    }
  })

  it('are the same for the same seed, and others for another seed or stream', () => {
    const drawn = (seed: number, stream: number) => {
      const random = randomSource(seed, stream)
      return many(8, () => random.next()).join(' ')
    }
    expect(drawn(1, 1)).toBe(drawn(1, 1))
    expect(new Set([drawn(1, 1), drawn(2, 1), drawn(1, 2)]).size).toBe(3)
  })

  it('below a bound reach every number about equally often', () => {
    const random = randomSource(3)
    const counts = new Array<number>(7).fill(0)
    for (let i = 0; i < 70_000; i++) counts[random.nextBelow(7)]++
    // The 99.9 % point of chi-square with 6 degrees of freedom is 22.46.
    expect(counts.reduce((sum, count) => sum + (count - 10_000) ** 2 / 10_000, 0)).toBeLessThan(22.46)
    expect(many(5, () => random.nextBelow(1))).toEqual([0, 0, 0, 0, 0])
  })
})
