import { describe, expect, it } from 'vitest'
import { readingsToSee } from '../../../src-core/statistics/sampleSize'
import { nextMonth } from '../../../src-core/told/week'
import { nextMonthText } from '../../../src-core/wording/english/week'

const told = (...of: Parameters<typeof nextMonth>) => nextMonthText(nextMonth(...of))

describe('the tests needed to see a change', () => {
  it('are within 2 % of the published short form, 16 (SD / difference)^2', () => {
    // Lehr, Stat Med 1992;11:1099-1102.
    for (const [difference, sd] of [
      [10, 25],
      [15, 25],
      [20, 40],
    ]) {
      const short = 16 * (sd / difference) ** 2
      expect(Math.abs(readingsToSee(difference, sd) / short - 1)).toBeLessThan(0.02)
    }
  })

  it('are 62.8 for half an SD', () => {
    // 2 (1.959964 + 0.841621)^2 / 0.25 by hand; tables of the normal approximation give 63 after rounding up.
    expect(readingsToSee(0.5, 1)).toBeCloseTo(62.79, 2)
  })

  it('are told from the person’s own fasting SD', () => {
    expect(told({ sdMgDl: 25.2, mornings: 88, basis: 'tags' }, 'mg/dL')).toBe(
      // In three months: 2.801585 x 25 x sqrt(2 / 90) = 10.4.
      'With a fasting SD of 25 mg/dL (88 mornings), a change of 20 needs about 25 fasting tests a month, to be seen in 4 of 5 cases. Changes of 10 and 15 ' +
        'cannot be shown in a month of 30 mornings; in three months a change of 11 can, in 4 of 5 cases. No low on 30 tested nights still allows lows on one night in nine. Discuss with the team.',
    )
    expect(told({ sdMgDl: 25.2, mornings: 88, basis: 'hours' }, 'mmol/L')).toMatch(
      /fasting SD of 1\.4 mmol\/L \(the first tests between 04:00 and 10:00 on 88 mornings\), a change of 1\.1/,
    )
    // 2 (2.801585 x 40 / 15)^2 = 111.6 and 62.8 for 20; for 10 it would be 251.
    expect(told({ sdMgDl: 40, mornings: 30, basis: 'tags' }, 'mg/dL')).toContain(
      // 2.801585 x 40 x sqrt(2 / 90) = 16.7.
      '(30 mornings). Changes of 10, 15 and 20 cannot be shown in a month of 30 mornings; in three months a change of 17 can',
    )
    expect(told({ sdMgDl: 80, mornings: 30, basis: 'tags' }, 'mg/dL')).toContain(
      '(30 mornings). Changes of 10, 15 and 20 cannot be shown in a month of 30 mornings; in three months a change of 34 can',
    )
    expect(told(null, 'mg/dL')).toMatch(/^No low on 30 tested nights/)
  })
})
