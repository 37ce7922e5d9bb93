import { describe, expect, it } from 'vitest'
import { ADAG_TABLE, publishedAverageGlucose } from '../../../src-core/reference/averageGlucose'

describe('average glucose at an A1C', () => {
  // Nathan et al., Diabetes Care 2008;31:1473-1478, table of estimated average glucose with its 95 % range.
  it.each([
    [5, 97, 76, 120],
    [6, 126, 100, 152],
    [7, 154, 123, 185],
    [8, 183, 147, 217],
    [9, 212, 170, 249],
    [10, 240, 193, 282],
    [11, 269, 217, 314],
    [12, 298, 240, 347],
  ])('of %d %% is the published %d (%d to %d) mg/dL', (a1cPercent, mgDl, lowest, highest) => {
    expect(publishedAverageGlucose(a1cPercent)).toBe(mgDl)
    expect(ADAG_TABLE.find((tableRow) => tableRow.a1cPercent === a1cPercent)).toEqual({
      a1cPercent,
      mgDl,
      lowest,
      highest,
    })
  })

  it('is the published 126 at 6 %, where binary arithmetic alone falls below the half', () => {
    expect(Math.round(28.7 * 6 - 46.7)).toBe(125)
    expect(publishedAverageGlucose(6)).toBe(126)
  })

  // Half steps of the list that the American Diabetes Association circulates with the same regression.
  it.each([
    [6.5, 140],
    [7.5, 169],
    [8.5, 197],
    [9.5, 226],
  ])('of %d %% is %d mg/dL', (a1cPercent, mgDl) => {
    expect(publishedAverageGlucose(a1cPercent)).toBe(mgDl)
  })
})
