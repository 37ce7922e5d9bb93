import { describe, expect, it } from 'vitest'
import { riskIndices, symmetrisedGlucose } from '../../../src-core/statistics/riskIndices'

describe('the risk function of Kovatchev et al., Diabetes Care 1997;20:1655-1658', () => {
  it('meets the conditions it was built for', () => {
    // f(20 mg/dL) = -f(600 mg/dL) = -sqrt(10) and f(70) = -f(180), as printed in the paper's appendix.
    expect(Math.abs(symmetrisedGlucose(20) + Math.sqrt(10))).toBeLessThan(0.001)
    expect(Math.abs(symmetrisedGlucose(600) - Math.sqrt(10))).toBeLessThan(0.001)
    expect(Math.abs(symmetrisedGlucose(70) + symmetrisedGlucose(180))).toBeLessThan(0.002)
  })

  // Worked out with numpy from the published constants.
  it.each([
    [40, -1.9083, 36.4175],
    [54, -1.3587, 18.4614],
    [70, -0.8806, 7.7552],
    [100, -0.2196, 0.4821],
    [140, 0.408, 1.665],
    [180, 0.8792, 7.7293],
    [250, 1.4979, 22.4362],
    [400, 2.3884, 57.0461],
  ])('is %d mg/dL: f %d, risk %d', (mgDl, f, risk) => {
    expect(symmetrisedGlucose(mgDl)).toBeCloseTo(f, 4)
    const indices = riskIndices(Float64Array.of(mgDl))
    expect(f < 0 ? indices?.lbgi : indices?.hbgi).toBeCloseTo(risk, 3)
    expect(f < 0 ? indices?.hbgi : indices?.lbgi).toBe(0)
  })

  it('crosses zero at 112.5174 mg/dL', () => {
    expect(symmetrisedGlucose(112.517)).toBeLessThan(0)
    expect(symmetrisedGlucose(112.518)).toBeGreaterThan(0)
  })

  it('averages over all readings, those on the other side included', () => {
    const indices = riskIndices(Float64Array.of(54, 180))
    expect(indices?.lbgi).toBeCloseTo(18.4614 / 2, 3)
    expect(indices?.hbgi).toBeCloseTo(7.7293 / 2, 3)
  })

  it('does not exist without readings', () => {
    expect(riskIndices(new Float64Array(0))).toBeNull()
  })
})
