import { describe, expect, it } from 'vitest'
import type { LowRemark } from '../../../src-core/told/lows'
import { nightsTold } from '../../../src-core/told/nights'
import { lowRemarkSentence, lowsHeadline, PEN_LINE } from '../../../src-core/wording/english/lows'
import type { GlucoseUnit } from '../../../src-core/units/glucose'

function headline(
  lows: {
    below70: number
    below54?: number
    days?: number
    marked?: number
    bracketed?: number
    confirmed?: number
  },
  unit: GlucoseUnit = 'mg/dL',
): string {
  const { below70, below54 = 0, days = below70, marked = 0, bracketed = 0, confirmed = 0 } = lows
  return lowsHeadline({ below70, below54, days, marked, bracketed, confirmed }, unit)
}

describe('the headline of the lows', () => {
  it('without a low says that this shows nothing about lows that nobody measured', () => {
    expect(headline({ below70: 0 })).toBe('No low was recorded. That does not show that there were none.')
  })

  it('agrees with one low and with several', () => {
    expect(headline({ below70: 1, days: 1 })).toBe(
      '1 reading below 70, on 1 day; none below 54. It counts as real.',
    )
    expect(headline({ below70: 7, below54: 3, days: 4 })).toBe(
      '7 readings below 70, on 4 days; 3 below 54. Every one counts as real.',
    )
  })

  it('counts the doubtful ones and says so', () => {
    expect(headline({ below70: 7, below54: 3, days: 4, marked: 1 })).toBe(
      '7 readings below 70, on 4 days; 3 below 54. Every one counts as real. One is marked ‘?’.',
    )
    expect(headline({ below70: 7, days: 4, marked: 3 })).toContain('Three are marked ‘?’.')
    expect(headline({ below70: 7, days: 4, marked: 3, bracketed: 2 })).toContain(
      'Three are marked ‘?’. Two lie within a bracket.',
    )
    expect(headline({ below70: 1, days: 1, marked: 1 })).toContain('It counts as real. One is marked ‘?’.')
  })

  it('says of doubtful ones beside another low that only how low is in doubt', () => {
    expect(headline({ below70: 7, days: 4, marked: 1, confirmed: 1 })).toMatch(
      /One is marked ‘\?’\. One of the doubtful ones stands beside another low: low either way, and only how low is in doubt\.$/,
    )
    expect(headline({ below70: 7, days: 4, marked: 3, confirmed: 2 })).toMatch(
      /Two of the doubtful ones stand/,
    )
  })

  it('names the limits of the printed unit', () => {
    expect(headline({ below70: 2, below54: 1 }, 'mmol/L')).toBe(
      '2 readings below 3.9, on 2 days; 1 below 3.0. Every one counts as real.',
    )
  })

  it('holds no percentage: a share of finger-sticks gets compared with a yardstick made for time', () => {
    for (const below70 of [0, 1, 7, 40]) expect(headline({ below70, below54: 1 })).not.toContain('%')
  })
})

const remark = (told: LowRemark, unit: GlucoseUnit = 'mg/dL') => lowRemarkSentence(told, unit)

describe('what the list of lows cannot show', () => {
  const nights = (nightsTested: number, nights: number, byHour = Array<number>(6).fill(nightsTested)) =>
    remark(nightsTold({ nightsTested, nights, nightsTestedByHour: byHour }, 0))

  it.each([
    [
      nights(30, 30, [0, 0, 0, 0, 0, 30]),
      'Night (00–06) was tested on 30 of 30 nights. Tested less often: 00–05 on none. Lows then would not show.',
    ],
    [
      nights(20, 90, [4, 1, 3, 5, 9, 12]),
      'Night (00–06) was tested on 20 of 90 nights. Tested less often: 01–02 on 1 at most. Lows then and on the other nights would not show.',
    ],
    [nights(9, 90), 'Night (00–06) was tested on 9 of 90 nights. Lows on the others would not show.'],
    [nights(0, 90), 'Night (00–06) was tested on none of 90 nights. Lows in those hours would not show.'],
    [nights(14, 14), 'Night (00–06) was tested on 14 of 14 nights.'],
    [nights(0, 1), 'The night (00–06) was not tested. Lows in those hours would not show.'],
    [
      remark({ code: 'no-times' }),
      'Many readings have a date but no time: how many nights were tested is not known.',
    ],
  ])('of nights: %s', (text, expected) => {
    expect(text).toBe(expected)
  })

  it('of readings just above the limit is told with what the meter standard allows', () => {
    expect(remark({ code: 'near', n: 21, further: true })).toBe(
      '21 further readings lie between 70 and 84: a meter within its standard (±15 mg/dL) could show that ' +
        'when the true value is below 70.',
    )
    expect(remark({ code: 'near', n: 1, further: false })).toContain('1 reading lies between 70 and 84')
    // ISO 15197:2013, 6.3.3: 15 mg/dL or 0.83 mmol/L below 100 mg/dL.
    expect(remark({ code: 'near', n: 2, further: true }, 'mmol/L')).toContain(
      '2 further readings lie between 3.9 and 4.7: a meter within its standard (±0.8 mmol/L)',
    )
  })

  it('counts lows that nothing followed against all lows, and points to those that have no room', () => {
    expect(remark({ code: 'not-followed', n: 2, of: 9 })).toBe(
      'After 2 of 9 lows there was no test for three hours.',
    )
    expect(remark({ code: 'not-followed', n: 1, of: 1 })).toBe(
      'After the low there was no test for three hours.',
    )
    expect(remark({ code: 'further', shown: 8, behind: 40, of: 40 })).toBe(
      'The eight lowest are shown here; all are listed on a later page.',
    )
    expect(remark({ code: 'further', shown: 8, behind: 120, of: 190 })).toBe(
      'The eight lowest are shown here; the 120 lowest of 190 are listed on a later page.',
    )
  })

  it('names what is in no count with its reason and its lines', () => {
    const at = (line: number, source = 0) => ({ source, line })
    expect(
      remark({
        code: 'not-counted',
        groups: [
          { why: 'date', n: 3, lines: [at(9), at(14), at(20)] },
          { why: 'control', n: 1, lines: [{ ...at(3, 1), row: '2026-05-03,07:40,61,control' }] },
          { why: 'cells', n: 4, lines: [] },
        ],
      }),
    ).toBe(
      'Not counted, but possibly low: 3 without a usable date (log 1 line 9, log 1 line 14 and log 1 line 20); ' +
        '1 tagged as control solution (log 2 line 3: ‘2026-05-03,07:40,61,control’); 4 in a row with too few or too many cells.',
    )
  })
})

describe('the line for the pen', () => {
  it('asks what no meter knows', () => {
    expect(PEN_LINE).toContain('lows that needed another person’s help since the last visit: ___')
    expect(PEN_LINE).toContain('I usually feel a low at: ___')
    expect(PEN_LINE).toContain('Glucagon at home: yes / no')
  })
})
