import { describe, expect, it } from 'vitest'
import { drawnP } from '../../../src-core/statistics/drawnWays'

/** Reaches what was seen at every so manieth way. */
const every = (step: number) => {
  let way = 0
  return () => ++way % step === 0
}

describe('p by ways drawn', () => {
  it('is (b + 1) / (m + 1) of all of them', () => {
    expect(drawnP(999, every(100))).toBe(10 / 1000)
    expect(drawnP(999, () => false)).toBe(1 / 1000)
  })

  it('is b over the ways drawn where enough have reached it before the end', () => {
    // Besag and Clifford, Biometrika 1991;78:301: h reached at the l-th draw gives h / l.
    expect(drawnP(4_999, every(4), 30)).toBe(30 / 120)
    expect(drawnP(4_999, () => true, 30)).toBe(1)
  })

  it('is the same with and without an end for what is seldom reached', () => {
    expect(drawnP(4_999, every(500), 30)).toBe(drawnP(4_999, every(500)))
  })
})
