import { describe, expect, it } from 'vitest'
import { medianInterval, medianRank } from '../../../src-core/statistics/medianInterval'

/** Exact chance, in 2^-n, that at most `below` of n values lie below the median. */
function waysUpTo(below: number, n: number): bigint {
  let ways = 1n
  let sum = 0n
  for (let k = 0; k <= below; k++) {
    sum += ways
    ways = (ways * BigInt(n - k)) / BigInt(k + 1)
  }
  return sum
}

describe('the interval of a median', () => {
  // One rank inside the two-sided 5 % points of the sign test: Dixon and Mood, JASA 1946;41:557-566 (from memory:
  // 0, 0, 1, 2, 3, 5, 9, 17, 39).
  it.each([
    [6, 1, 6],
    [8, 1, 8],
    [10, 2, 9],
    [12, 3, 10],
    [15, 4, 12],
    [20, 6, 15],
    [30, 10, 21],
    [50, 18, 33],
    [100, 40, 61],
  ])('of %d values runs from the %d. to the %d.', (n, low, high) => {
    const values = Float64Array.from({ length: n }, (_, i) => i + 1)
    expect(medianInterval(values)).toEqual([low, high])
  })

  it('does not exist below six values', () => {
    for (let n = 0; n <= 5; n++) expect(medianInterval(new Float64Array(n))).toBeNull()
  })

  it('covers at least 95 %, and one rank nearer to the middle would not, for every count up to 400', () => {
    for (let n = 6; n <= 400; n++) {
      const rank = medianRank(n) ?? NaN
      const all = 1n << BigInt(n)
      // Outside: twice the chance of fewer than `rank` values below the median; 40 x chance <= 1 is 2.5 %.
      expect(40n * waysUpTo(rank - 1, n) <= all).toBe(true)
      expect(40n * waysUpTo(rank, n) > all).toBe(true)
    }
  })

  it.each([1_075, 3_001, 20_000])('is exact where 2^-n is too small for a number: %d values', (n) => {
    const rank = medianRank(n) ?? NaN
    expect(40n * waysUpTo(rank - 1, n) <= 1n << BigInt(n)).toBe(true)
    expect(40n * waysUpTo(rank, n) > 1n << BigInt(n)).toBe(true)
  })

  it('of equal values is that value', () => {
    expect(medianInterval(new Float64Array(9).fill(104))).toEqual([104, 104])
  })
})
