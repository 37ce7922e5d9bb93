import { describe, expect, it } from 'vitest'
import { fromMgDl, mgDlToMmol, mmolToMgDl, toMgDl } from '../../../src-core/units/glucose'
import { fixed } from '../../../src-core/units/rounding'

// Molar mass of glucose C6H12O6 from the IUPAC conventional atomic weights: 6 x 12.011 + 12 x 1.008 + 6 x 15.999.
const MOLAR_MASS = 6 * 12.011 + 12 * 1.008 + 6 * 15.999

describe('conversion between mg/dL and mmol/L', () => {
  it('uses the molar mass of glucose', () => {
    expect(mmolToMgDl(10)).toBeCloseTo(MOLAR_MASS, 10)
  })

  // Unrounded values by the molar mass, worked out apart from the program.
  it.each([
    [40, 2.2203, '2.2'],
    [54, 2.9974, '3.0'],
    [63, 3.497, '3.5'],
    [69, 3.83, '3.8'],
    [70, 3.8855, '3.9'],
    [80, 4.4406, '4.4'],
    [100, 5.5507, '5.6'],
    [126, 6.9939, '7.0'],
    [130, 7.216, '7.2'],
    [140, 7.771, '7.8'],
    [154, 8.5481, '8.5'],
    [180, 9.9913, '10.0'],
    [181, 10.0468, '10.0'],
    [200, 11.1015, '11.1'],
    [250, 13.8769, '13.9'],
    [400, 22.203, '22.2'],
    [600, 33.3045, '33.3'],
  ])('turns %d mg/dL into %d mmol/L, printed %s', (mgDl, mmol, printed) => {
    expect(mgDlToMmol(mgDl)).toBeCloseTo(mmol, 4)
    expect(fixed(fromMgDl(mgDl, 'mmol/L'), 1)).toBe(printed)
  })

  it.each([
    [1.1, 19.817, '20'],
    [3.0, 54.047, '54'],
    [3.9, 70.261, '70'],
    [5.6, 100.887, '101'],
    [7.0, 126.109, '126'],
    [7.8, 140.522, '141'],
    [10.0, 180.156, '180'],
    [11.1, 199.973, '200'],
    [13.9, 250.417, '250'],
    [27.8, 500.834, '501'],
    [33.3, 599.919, '600'],
  ])('turns %d mmol/L into %d mg/dL, printed %s', (mmol, mgDl, printed) => {
    expect(toMgDl(mmol, 'mmol/L')).toBeCloseTo(mgDl, 3)
    expect(fixed(mmolToMgDl(mmol))).toBe(printed)
  })

  it('prints every tenth of a mmol/L from 1.1 to 33.3 unchanged after a way through whole mg/dL', () => {
    for (let tenths = 11; tenths <= 333; tenths++) {
      const printed = Number(fixed(mmolToMgDl(tenths / 10)))
      expect(fixed(mgDlToMmol(printed), 1)).toBe((tenths / 10).toFixed(1))
    }
  })

  it('loses 1 mg/dL for 258 of the whole numbers from 20 to 600 when they pass through one decimal', () => {
    let lost = 0
    for (let mgDl = 20; mgDl <= 600; mgDl++) {
      const printed = Number(fixed(mgDlToMmol(mgDl), 1))
      if (Number(fixed(mmolToMgDl(printed))) !== mgDl) lost++
    }
    expect(lost).toBe(258)
  })
})
