import { NOT_PROVEN_RIGHT } from '../../../src-core/wording/english/doubt'
import { describe, expect, it } from 'vitest'
import {
  DOUBT_MEANING,
  doubtfulIntroduction,
  doubtText,
  furtherDoubtfulTitle,
  lowAfterwardsSentence,
  outsidePeriodSentence,
  unlistedSentence,
} from '../../../src-core/wording/english/doubt'
import { doubtsOf, doubtTold, repeatDifferences } from '../../../src-core/told/doubts'
import type { Repeatability } from '../../../src-core/technique/technique'
import { plainText } from '../../../src-core/wording/phrases'
import {
  doubtfulSentence,
  repeatSentence,
  tooManyDoubtfulSentence,
  trustSentences,
} from '../../../src-core/wording/english/trust'
import { analysisOf } from '../../helpers/analysisFixture'

/** So many doubtful readings among so many. */
const doubts = (length: number, n = 440) => ({
  found: length === 0 ? ('none' as const) : ('some' as const),
  doubtful: { length },
  of: { n, belowRange: 0, aboveRange: 0 },
  ...{ manyMarkers: false, bracketed: 0, stretches: [] },
})

describe('a doubt in words', () => {
  const text = (doubt: number) => doubtText(doubtTold(doubt))

  it('is a chance out of a hundred', () => {
    expect(text(0.93)).toBe('Doubt 93 in 100')
    expect(text(0.505)).toBe('Doubt 51 in 100')
  })

  it('is never a certainty, neither way', () => {
    expect(text(0.99)).toBe('Doubt 99 in 100')
    expect(text(0.995)).toBe('Doubt above 99 in 100')
    expect(text(1)).toBe('Doubt above 99 in 100')
    expect(text(0.01)).toBe('Doubt 1 in 100')
    expect(text(0.004)).toBe('Doubt below 1 in 100')
    expect(text(0)).toBe('Doubt below 1 in 100')
  })

  it('says so where nothing was estimated', () => {
    expect(text(NaN)).toBe('Doubt not estimated')
  })

  it('comes with what it means', () => {
    expect(DOUBT_MEANING).toBe(
      'The doubt is the program’s estimate of the chance that a value is more than 30 % off. It is an estimate and can be wrong.',
    )
  })
})

describe('the list of doubtful readings', () => {
  it('is led by what doubt means, that nothing disappears and that the others are not proven right', () => {
    const text = doubtfulIntroduction(16, 440)
    expect(text).toMatch(/^16 of 440 readings, lows on top\. /)
    expect(text).toContain('None of them disappears from the log or from the lows.')
    expect(text).toContain(DOUBT_MEANING)
    expect(text).toContain('The others are not proven right.')
    expect(doubtfulIntroduction(1, 1)).toMatch(/^1 of 1 reading, /)
  })

  it('that is empty does not prove the readings right', () => {
    const text = plainText(doubtfulSentence(doubts(0)))
    expect(text).toContain('No reading was found doubtful. That does not prove them right')
    expect(text).toContain('a single wrong reading that nobody repeated is seldom found')
    expect(text).toContain('The best check is a second test at once')
  })

  it('tells how many had no room, and where those are', () => {
    expect(furtherDoubtfulTitle(1, true)).toBe('One more')
    expect(furtherDoubtfulTitle(12, true)).toBe('The 12 others, lows first, then the most doubtful')
    expect(furtherDoubtfulTitle(12, false)).toBe('The 12 others, the most doubtful first')
    expect(unlistedSentence(7)).toBe('and 7 more, listed in the table of all readings (--readings).')
    expect(outsidePeriodSentence(1)).toBe('1 doubtful reading outside the period is not shown.')
    expect(outsidePeriodSentence(2)).toBe('2 doubtful readings outside the period are not shown.')
  })

  it('asks to tell the team of a low that came after a doubtful high', () => {
    expect(lowAfterwardsSentence('58', '2 h 10 min')).toBe(
      'A low of 58 came 2 h 10 min later: tell the team if a dose was taken on this reading.',
    )
  })
})

describe('how many readings are doubtful', () => {
  it('is told with the reminder that the others are not proven right', () => {
    expect(plainText(doubtfulSentence(doubts(1)))).toBe(`1 reading is doubtful (‘?’). ${NOT_PROVEN_RIGHT}`)
    expect(plainText(doubtfulSentence(doubts(16)))).toBe(
      `16 readings are doubtful (‘?’). ${NOT_PROVEN_RIGHT}`,
    )
    expect(NOT_PROVEN_RIGHT).toContain('about one in three at best, in simulated logs')
  })

  it('is not judged for a sensor', () => {
    const SENSOR = analysisOf([{ at: '2026-03-02 07:00', value: 120, sensor: true }])
    expect(trustSentences(doubtsOf(SENSOR, SENSOR.periods[0])).map(plainText).join(' ')).toContain(
      'Sensor readings are not judged',
    )
  })

  it('above a tenth leaves no second column, and the sentence names the numbers', () => {
    expect(tooManyDoubtfulSentence(doubts(51))).toMatch(
      /^51 of 440 readings are doubtful, more than 10 %\..*no second column.*Look for one cause/,
    )
  })
})

describe('how well repeats agree', () => {
  const repeatability = (cv: number | null) => ({
    sets: 24,
    readings: 48,
    withinSdMgDl: cv === null ? null : 7,
    withinCvPercent: cv,
    withinCvCi95: cv === null ? null : ([4, 6] as const),
    unsurprising: null,
  })

  const told = (
    counts: { readonly sets: number; readonly agreeing: number; readonly wholeLogbook: boolean },
    of: Repeatability,
  ) => plainText(repeatSentence({ ...counts, ...repeatDifferences(of) }))

  it('is told as the usual and the largest difference of two tests', () => {
    // For normal errors: median |difference| = 0.6745 sqrt(2) CV, and 1.96 sqrt(2) CV holds 95 %
    // (Bland and Altman, BMJ 1996;313:744). At a CV of 5.1 %: 4.86 % and 14.1 %.
    const { differences } = repeatDifferences(repeatability(5.1))
    expect(differences?.typicalPercent).toBeCloseTo(4.865, 3)
    expect(differences?.usualLimitPercent).toBeCloseTo(14.1365, 3)
    const text = told({ sets: 31, agreeing: 24, wholeLogbook: false }, repeatability(5.1))
    expect(text).toBe(
      'Repeat tests: 24 of 31 sets agree. In those, two tests typically differ by 5 %, ' +
        '19 of 20 pairs by less than 14 %.',
    )
  })

  it('and beside it what repeats of unsurprising values show, where that is another figure', () => {
    const text = (withinCvPercent: number, sets: number) =>
      told(
        { sets: 31, agreeing: 24, wholeLogbook: false },
        { ...repeatability(5.1), unsurprising: { sets, degreesOfFreedom: sets + 1, withinCvPercent } },
      )
    expect(text(3.1, 9)).toMatch(
      /by less than 14 %\. Where the first value was no surprise \(9 sets\) they differ by 3 %: most repeats follow a surprise/,
    )
    expect(text(5, 9)).toMatch(/by less than 14 %\.$/)
    expect(text(3.1, 4)).toMatch(/by less than 14 %\.$/)
  })

  it('is not compared with the meter standard, which sets no limit for repeatability', () => {
    const text = told({ sets: 3, agreeing: 2, wholeLogbook: true }, repeatability(9))
    expect(text).toContain('2 of 3 sets agree (in the whole logbook)')
    expect(text).not.toMatch(/standard|15 %|ISO/)
  })

  it('is unknown without repeats, and agrees with a single set', () => {
    const none = told({ sets: 0, agreeing: 0, wholeLogbook: false }, repeatability(null))
    expect(none).toBe('No test was repeated within ten minutes: how well repeat tests agree is not known.')
    const one = (agreeing: number) => told({ sets: 1, agreeing, wholeLogbook: false }, repeatability(null))
    expect(one(1)).toBe('Repeat tests: the one set agrees.')
    expect(one(0)).toBe('Repeat tests: the one set does not agree.')
  })
})
