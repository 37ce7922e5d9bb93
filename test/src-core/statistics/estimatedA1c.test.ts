import { describe, expect, it } from 'vitest'
import {
  a1cMmolMolToPercent,
  a1cPercentToMmolMol,
  estimatedA1cPercent,
  estimatedA1cRange,
  glucoseManagementIndicator,
} from '../../../src-core/statistics/estimatedA1c'
import { fixed } from '../../../src-core/units/rounding'

describe('A1C estimated from a mean', () => {
  // Regression of Nathan et al., Diabetes Care 2008;31:1473-1478, solved for A1C by hand.
  it.each([
    [70, 4.0662, '4.1'],
    [97, 5.007, '5.0'],
    [100, 5.1115, '5.1'],
    [126, 6.0174, '6.0'],
    [140, 6.5052, '6.5'],
    [154, 6.993, '7.0'],
    [180, 7.899, '7.9'],
    [183, 8.0035, '8.0'],
    [200, 8.5958, '8.6'],
    [212, 9.0139, '9.0'],
    [240, 9.9895, '10.0'],
    [250, 10.338, '10.3'],
    [298, 12.0105, '12.0'],
    [300, 12.0801, '12.1'],
  ])('of %d mg/dL is %d %%, printed %s', (mgDl, percent, printed) => {
    expect(estimatedA1cPercent(mgDl)).toBeCloseTo(percent, 4)
    expect(fixed(estimatedA1cPercent(mgDl), 1)).toBe(printed)
  })
})

describe('A1C in mmol/mol', () => {
  // Whole numbers of the UK consensus (Barth et al., Ann Clin Biochem 2008;45:343-344) and of the IFCC
  // network's equation (Hoelzel et al., Clin Chem 2004;50:166-174). At 7.5 % both equations give 58.
  it.each([
    [4.0, 20],
    [5.0, 31],
    [5.5, 37],
    [6.0, 42],
    [6.5, 48],
    [7.0, 53],
    [7.5, 58],
    [8.0, 64],
    [9.0, 75],
    [10.0, 86],
    [11.0, 97],
    [12.0, 108],
    [13.0, 119],
    [14.0, 130],
    [15.0, 140],
  ])('of %d %% prints as %d', (percent, mmolMol) => {
    expect(fixed(a1cPercentToMmolMol(percent))).toBe(String(mmolMol))
  })

  it.each([
    [39, 5.7197],
    [42, 5.9942],
    [48, 6.543],
    [53, 7.0004],
    [64, 8.0067],
    [86, 10.0193],
  ])('%d comes back as %d %%', (mmolMol, percent) => {
    expect(a1cMmolMolToPercent(mmolMol)).toBeCloseTo(percent, 4)
  })
})

describe('the published range of A1C that holds a mean', () => {
  it('ends at the rows of the table where the mean is one of their limits', () => {
    // Nathan et al. 2008: 100 to 152 mg/dL at 6 %, 123 to 185 at 7 %, 147 to 217 at 8 %.
    expect(estimatedA1cRange(152)[0]).toBe(6)
    expect(estimatedA1cRange(123)[1]).toBe(7)
    expect(estimatedA1cRange(217)).toEqual([8, 11])
  })

  it('is interpolated between the rows', () => {
    // 144: from 120 at 5 % to 152 at 6 % is 24/32 of the way; from 123 at 7 % to 147 at 8 % is 21/24.
    const [lowest, highest] = estimatedA1cRange(144)
    expect(lowest).toBeCloseTo(5.75, 12)
    expect(highest).toBeCloseTo(7.875, 12)
  })

  it('has no limit where that falls outside the table', () => {
    expect(estimatedA1cRange(119)[0]).toBeNull()
    expect(estimatedA1cRange(120)[0]).toBe(5)
    expect(estimatedA1cRange(75)).toEqual([null, null])
    expect(estimatedA1cRange(76)).toEqual([null, 5])
    expect(estimatedA1cRange(240)[1]).toBe(12)
    expect(estimatedA1cRange(241)[1]).toBeNull()
    expect(estimatedA1cRange(347)).toEqual([12, null])
    expect(estimatedA1cRange(348)).toEqual([null, null])
  })
})

describe('glucose management indicator', () => {
  // Bergenstal et al., Diabetes Care 2018;41:2275-2280, table.
  it.each([
    [100, '5.7'],
    [125, '6.3'],
    [150, '6.9'],
    [175, '7.5'],
    [200, '8.1'],
    [225, '8.7'],
    [250, '9.3'],
    [275, '9.9'],
    [300, '10.5'],
    [350, '11.7'],
  ])('of %d mg/dL prints as %s', (mgDl, printed) => {
    expect(fixed(glucoseManagementIndicator(mgDl), 1)).toBe(printed)
  })
})
