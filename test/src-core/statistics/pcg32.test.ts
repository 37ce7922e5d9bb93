import { describe, expect, it } from 'vitest'
import { randomSource } from '../../helpers/randomSource'

/** The stream of the author's demonstration, which the draws of days use. */
const pcg32 = (seed: number, stream = 54) => randomSource(seed, stream).next

describe('the generator', () => {
  it('gives the numbers of the published demonstration: seed 42, stream 54', () => {
    // O'Neill, the minimal C implementation 0.9, expected output of its demonstration, round 1 (from memory).
    const next = pcg32(42, 54)
    const numbers = Array.from({ length: 6 }, next)
    expect(numbers).toEqual([0xa15c02b7, 0x7b47f409, 0xba1d3330, 0x83d2f293, 0xbfa4784b, 0xcbed606e])
  })

  it.each([0, 1, 2 ** 32 - 1, 2 ** 32, 2 ** 40 + 7])(
    'does the arithmetic of 64 bits for the seed %d',
    (seed) => {
      const next = pcg32(seed)
      const reference = wholeNumbers(BigInt(seed), 54n)
      for (let i = 0; i < 2_000; i++) expect(next()).toBe(reference())
    },
  )

  it('gives other numbers for another seed and for another stream', () => {
    const first = (seed: number, stream?: number) => Array.from({ length: 4 }, pcg32(seed, stream))
    expect(first(1)).toEqual(first(1))
    expect(first(1)).not.toEqual(first(2))
    expect(first(1, 3)).not.toEqual(first(1, 5))
  })
})

/** The same generator written down word for word from the report, with whole numbers of any length. */
function wholeNumbers(seed: bigint, stream: bigint): () => number {
  const MASK = (1n << 64n) - 1n
  const step = (stream << 1n) | 1n
  let state = 0n
  const advance = () => (state = (state * 6364136223846793005n + step) & MASK)
  advance()
  state = (state + seed) & MASK
  advance()
  return () => {
    const old = state
    advance()
    const word = (((old >> 18n) ^ old) >> 27n) & 0xffffffffn
    const turn = old >> 59n
    return Number(((word >> turn) | (word << (-turn & 31n))) & 0xffffffffn)
  }
}
