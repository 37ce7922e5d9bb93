import { describe, expect, it } from 'vitest'
import { randomSource } from '../../../src-core/statistics/randomSource'
import { rankSumShift } from '../../../src-core/statistics/rankSum'
import { signFlipTest } from '../../../src-core/statistics/signFlipTest'

describe('the rank-sum shift', () => {
  // Permeability of membranes at term and earlier: Hollander and Wolfe, Nonparametric Statistical Methods, 1973,
  // table 4.1; exact two-sided p is twice the 0.1272 printed there, the shift 0.305.
  const term = [0.8, 0.83, 1.89, 1.04, 1.45, 1.38, 1.91, 1.64, 0.73, 1.46]
  const earlier = [1.15, 0.88, 0.9, 0.74, 1.21]

  it('and its p are those of the textbook', () => {
    const found = rankSumShift(term, earlier, randomSource(1))
    expect(found?.p).toBeCloseTo(0.254412, 6)
    expect(found?.shift).toBeCloseTo(0.305, 12)
    // The exact interval, 9th smallest and 9th largest difference.
    expect(found?.ci95[0]).toBeCloseTo(-0.15, 12)
    expect(found?.ci95[1]).toBeCloseTo(0.76, 12)
  })

  it('is none without values in both groups', () => {
    expect(rankSumShift([], earlier, randomSource(1))).toBeNull()
    expect(rankSumShift(term, [], randomSource(1))).toBeNull()
  })
})

describe('the sign-flip test', () => {
  // Heights of cross- and self-fertilised maize, eighths of an inch: Darwin's pairs in Fisher, The Design of
  // Experiments, 1935, section 21: of 32,768 ways 863 give a sum of 314 or more.
  const maize = [49, -67, 8, 16, 6, 23, 28, 41, 14, 29, 56, 24, 75, 60, -48]

  it('comes close to Fisher’s 863 of 32,768 on Darwin’s maize', () => {
    expect(signFlipTest(maize, randomSource(1))).toBeCloseTo(863 / 32768, 2)
  })

  it('tries all signs of few differences, and knows the other side', () => {
    expect(signFlipTest([1, 2, 3], randomSource(1))).toBe(1 / 8)
    expect(signFlipTest([-1, -2, -3], randomSource(1))).toBe(1)
    expect(signFlipTest([0, 0], randomSource(1))).toBe(1)
  })

  it('takes the normal limit of many: 400 ones of 700 lie 3.78 SD out', () => {
    const many = Array.from({ length: 700 }, (_, i) => (i < 400 ? 1 : -1))
    expect(signFlipTest(many, randomSource(1))).toBeCloseTo(0.0000784, 6)
  })
})
