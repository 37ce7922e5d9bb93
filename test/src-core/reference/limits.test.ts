import { describe, expect, it } from 'vitest'
import { LIMITS, limitIn } from '../../../src-core/reference/limits'

describe('limits of glucose', () => {
  // Battelino et al., Diabetes Care 2019;42:1593-1603; American Diabetes Association, Standards of Care 2024,
  // sections 6 and 15.
  it.each([
    ['veryLow', 54, 3.0],
    ['pregnancyLow', 63, 3.5],
    ['low', 70, 3.9],
    ['beforeMealLow', 80, 4.4],
    ['beforeMealHigh', 130, 7.2],
    ['pregnancyHigh', 140, 7.8],
    ['high', 180, 10.0],
    ['veryHigh', 250, 13.9],
  ] as const)('%s stand as the published pair %d mg/dL and %d mmol/L', (name, mgDl, mmol) => {
    expect(limitIn(LIMITS[name], 'mg/dL')).toBe(mgDl)
    expect(limitIn(LIMITS[name], 'mmol/L')).toBe(mmol)
  })
})
