import { describe, expect, it } from 'vitest'
import { theilSenSlope } from '../../../src-core/statistics/theilSen'

// Expected values: scipy.stats.theilslopes of SciPy 1.17, an independent tool.
describe('the Theil-Sen slope', () => {
  it('and its interval are those of an independent tool', () => {
    const x = [0, 1, 2, 3, 5, 6, 8, 9, 11, 12, 13, 15]
    const y = [150, 147, 152, 149, 141, 155, 140, 143, 138, 146, 137, 135]
    const found = theilSenSlope(x, y)
    expect(found?.slope).toBeCloseTo(-0.95, 12)
    expect(found?.ci95[0]).toBeCloseTo(-1.5, 12)
    expect(found?.ci95[1]).toBeCloseTo(-1 / 3, 12)
    // Kendall's S, counted by another program, is -38 of 66 pairs; variance 12 x 11 x 29 / 18, continuity correction 1.
    expect(found?.p).toBeCloseTo(0.011175, 5)
  })

  it('allows for ties', () => {
    const x = [0, 0, 1, 2, 2, 3, 4, 5, 6, 6, 7, 8]
    const y = [120, 130, 130, 128, 140, 120, 135, 140, 133, 150, 140, 138]
    const found = theilSenSlope(x, y)
    expect(found?.slope).toBeCloseTo(5 / 3, 12)
    expect(found?.ci95).toEqual([0, 4])
  })

  it('does not follow one wild value, and is null without two different x', () => {
    const x = Array.from({ length: 20 }, (_, i) => i)
    expect(
      theilSenSlope(
        x,
        x.map((value) => (value === 7 ? 9000 : 2 * value)),
      )?.slope,
    ).toBe(2)
    expect(theilSenSlope([3, 3], [1, 2])).toBeNull()
  })
})
