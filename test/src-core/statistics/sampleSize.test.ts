import { describe, expect, it } from 'vitest'
import { readingsToSee } from '../../../src-core/statistics/sampleSize'
import { nextMonthText } from '../../../src-core/wording/week'

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
    expect(nextMonthText({ sd: 25.2, mornings: 88, basis: 'tags' }, 'mg/dL')).toBe(
      'With a fasting SD of 25 mg/dL (88 mornings), a change of 10 needs about 98 fasting tests a month, 15 about 44, ' +
        '20 about 25 (80 % power); no low on 30 tested nights still allows lows on one night in nine. Discuss with the team.',
    )
    expect(nextMonthText({ sd: 25.2, mornings: 88, basis: 'hours' }, 'mmol/L')).toMatch(
      /fasting SD of 1\.4 mmol\/L \(the first tests between 4 and 10 o’clock of 88 mornings\), a change of 0\.8/,
    )
    // 2 (2.801585 x 40 / 15)^2 = 111.6 and 62.8 for 20; for 10 it would be 251.
    expect(nextMonthText({ sd: 40, mornings: 30, basis: 'tags' }, 'mg/dL')).toContain(
      'a change of 15 needs about 112 fasting tests a month, 20 about 63, ' +
        'a change of 10 would take over 120 a month, more than can be tested (80 % power)',
    )
    expect(nextMonthText({ sd: 80, mornings: 30, basis: 'tags' }, 'mg/dL')).toContain(
      '(30 mornings), changes of 10, 15 and 20 would take over 120 a month, more than can be tested (80 % power)',
    )
    expect(nextMonthText(null, 'mg/dL')).toMatch(/^No low on 30 tested nights/)
  })
})
