import type { NotCountedWhy } from '../../../src-core/day/lows'
import { nightsTold } from '../../../src-core/told/nights'
import { describe, expect, it } from 'vitest'
import {
  furtherLowsSentence,
  lowsHeadline,
  nearLowsSentence,
  nightsSentence,
  NO_LOW_SENTENCE,
  notCountedSentence,
  notFollowedSentence,
  PEN_LINE,
} from '../../../src-core/wording/english/lows'
import { plainText } from '../../../src-core/wording/phrases'
import type { GlucoseUnit } from '../../../src-core/units/glucose'

function headline(
  lows: { below70: number; below54?: number; days?: number; marked?: number; bracketed?: number },
  unit: GlucoseUnit = 'mg/dL',
): string {
  const { below70, below54 = 0, days = below70, marked = 0, bracketed = 0 } = lows
  return plainText(lowsHeadline({ below70, below54, days, marked, bracketed }, unit))
}

describe('the headline of the lows', () => {
  it('without a low says that this shows nothing about lows that nobody measured', () => {
    expect(headline({ below70: 0 })).toBe('No low was recorded. That does not show that there were none.')
    expect(NO_LOW_SENTENCE).toBe('No low was recorded. That does not show that there were none.')
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
      '7 readings below 70, on 4 days; 3 below 54. Every one counts as real, also the one marked ‘?’.',
    )
    expect(headline({ below70: 7, days: 4, marked: 3 })).toContain('also the three marked ‘?’')
    expect(headline({ below70: 7, days: 4, marked: 3, bracketed: 2 })).toContain(
      'also the three marked ‘?’ and the two within a bracket.',
    )
    expect(headline({ below70: 1, days: 1, marked: 1 })).toContain('It counts as real, also the one marked')
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

/** Nights of which the tested ones were tested in every hour. */
const nightsOf = (
  nightsTested: number,
  nights: number,
  nightsTestedByHour = Array<number>(6).fill(nightsTested),
) => ({
  nightsTested,
  nights,
  nightsTestedByHour,
})

describe('nights', () => {
  it('are told by the hours covered: thirty tests at 05:50 are not thirty nights tested', () => {
    expect(nightsSentence(nightsTold(nightsOf(30, 30, [0, 0, 0, 0, 0, 30])))).toBe(
      'Night (00–06) was tested on 30 of 30 nights, but 00–05 on none; lows then would not show.',
    )
    expect(nightsSentence(nightsTold(nightsOf(20, 90, [4, 1, 3, 5, 9, 12])))).toBe(
      'Night (00–06) was tested on 20 of 90 nights, but 01–02 on 1 at most; lows then and on the other nights would not show.',
    )
  })

  it('that were not tested are told with what they hide', () => {
    expect(nightsSentence(nightsTold(nightsOf(9, 90)))).toBe(
      'Night (00–06) was tested on 9 of 90 nights; lows on the others would not show.',
    )
    expect(nightsSentence(nightsTold(nightsOf(0, 90)))).toBe(
      'Night (00–06) was tested on none of 90 nights; lows there would not show.',
    )
    expect(nightsSentence(nightsTold(nightsOf(60, 90)))).toBe(
      'Night (00–06) was tested on 60 of 90 nights; lows on the others would not show.',
    )
    expect(nightsSentence(nightsTold(nightsOf(14, 14)))).toBe('Night (00–06) was tested on 14 of 14 nights.')
    expect(nightsSentence(nightsTold(nightsOf(0, 1)))).toBe(
      'The night (00–06) was not tested; lows there would not show.',
    )
  })

  it('of a log without times are unknown, not untested', () => {
    expect(nightsSentence(null)).toBe(
      'The log gives days without times: how many nights were tested is not known.',
    )
  })
})

describe('readings just above the limit', () => {
  it('are told with what the meter standard allows', () => {
    expect(nearLowsSentence(21, 7, 'mg/dL')).toBe(
      '21 further readings lie between 70 and 84: a meter within its standard (15 mg/dL) could show that ' +
        'with a true value below 70.',
    )
    expect(nearLowsSentence(1, 0, 'mg/dL')).toContain('1 reading lies between 70 and 84')
    // ISO 15197:2013, 6.3.3: 15 mg/dL or 0.83 mmol/L below 100 mg/dL.
    expect(nearLowsSentence(2, 1, 'mmol/L')).toContain(
      '2 further readings lie between 3.9 and 4.7: a meter within its standard (0.8 mmol/L)',
    )
    expect(nearLowsSentence(0, 7, 'mg/dL')).toBeNull()
  })
})

describe('lows that nothing followed', () => {
  it('are counted against all lows', () => {
    expect(notFollowedSentence(2, 9)).toBe('After 2 of 9 lows no test for three hours.')
    expect(notFollowedSentence(1, 1)).toBe('After the low no test for three hours.')
    expect(notFollowedSentence(0, 9)).toBeNull()
  })

  it('and do not fit on page 1 are pointed to', () => {
    expect(furtherLowsSentence(8, 40, 40)).toBe('The eight lowest stand here, all are listed behind.')
    expect(furtherLowsSentence(8, 120, 190)).toBe(
      'The eight lowest stand here, the 120 lowest of 190 are listed behind.',
    )
  })
})

describe('lows that are in no count', () => {
  const low = (line: number, why: NotCountedWhy = 'date', source = 0) => ({ source, line, why })

  it('are told with their reason and their lines', () => {
    expect(notCountedSentence([low(9)])).toBe(
      'Not counted, but possibly low: 1 without a usable date (log 1 line 9).',
    )
    expect(notCountedSentence([low(9), low(14), low(3, 'control', 1), low(20)])).toBe(
      'Not counted, but possibly low: 3 without a usable date (log 1 line 9, log 1 line 14 and log 1 line 20); ' +
        '1 tagged as control solution (log 2 line 3).',
    )
  })

  it('are counted where their lines would fill the page', () => {
    expect(notCountedSentence([1, 2, 3, 4].map((line) => low(line)))).toBe(
      'Not counted, but possibly low: 4 without a usable date.',
    )
    expect(notCountedSentence([])).toBeNull()
  })
})

describe('the line for the pen', () => {
  it('asks what no meter knows', () => {
    expect(PEN_LINE).toContain('lows that needed another person’s help since the last visit: ___')
    expect(PEN_LINE).toContain('I usually feel a low at: ___')
    expect(PEN_LINE).toContain('Glucagon at home: yes / no')
  })
})
