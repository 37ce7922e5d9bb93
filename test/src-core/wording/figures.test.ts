import { describe, expect, it } from 'vitest'
import type { LatestA1c } from '../../../src-core/statistics/latestA1c'
import { FEWEST_READINGS } from '../../../src-core/statistics/heldBack'
import { DEFAULT_SETTINGS } from '../../../src-core/model/settings'
import { LIMITS } from '../../../src-core/reference/limits'
import {
  a1cCentreText,
  a1cDaysText,
  a1cHeldBackText,
  a1cRangeText,
  balancedNote,
  glucoseKnownTo,
  glucoseOrNone,
  HELD_BACK,
  markersSentence,
  medianText,
  middleHalfText,
  nightsNote,
  percentKnownTo,
  percentOrNone,
  shareKnownTo,
  sameLimit,
  targetText,
} from '../../../src-core/wording/english/figures'
import { a1cText } from '../../../src-core/wording/english/numbers'
import { analysisOf } from '../../helpers/analysisFixture'

/** The figures of `n` readings between 80 and 199 mg/dL, one an hour. */
function summaryOf(n: number) {
  const rows = Array.from({ length: n }, (_, i) => ({
    at: `2026-03-${String(2 + Math.floor(i / 24)).padStart(2, '0')} ${String(i % 24).padStart(2, '0')}:00`,
    value: 80 + ((i * 37) % 120),
  }))
  return analysisOf(rows).periods[0].asLogged
}

describe('how well a figure is known', () => {
  it('is said of a mean as its farther limit, in the printed unit, so that nobody takes it for a spread', () => {
    expect(glucoseKnownTo(146, [141, 152], 'mg/dL')).toBe('known to about ±6')
    expect(glucoseKnownTo(146, [139, 151], 'mg/dL')).toBe('known to about ±7')
    // 9 mg/dL are 0.4996 mmol/L.
    expect(glucoseKnownTo(146, [137, 150], 'mmol/L')).toBe('known to about ±0.5')
  })

  it('is never said to be exact', () => {
    expect(glucoseKnownTo(146, [145.9, 146.1], 'mg/dL')).toBe('known to about ±1')
    expect(glucoseKnownTo(146, [145.9, 146.1], 'mmol/L')).toBe('known to about ±0.1')
    expect(percentKnownTo(30, [30, 30])).toBe('known to about ±1')
  })

  it('is said of a share as its limits in percent', () => {
    expect(shareKnownTo([81.6, 88.5])).toBe('known to about 82 to 89 %')
  })
})

describe('the mean balanced over the day', () => {
  const note = (mean: number, balancedMean: number | null, balancedBlocks: number) =>
    balancedNote({ ...summaryOf(48), mean, balancedMean, balancedBlocks }, 'mg/dL')

  it('stands beside the mean where the hours of testing moved that by more than 5 %', () => {
    expect(note(160, 151.9, 6)).toBe('balanced over the day 152')
    expect(note(160, 168.1, 6)).toBe('balanced over the day 168')
    expect(note(160, 152, 6)).toBeNull()
    expect(note(160, 168, 6)).toBeNull()
  })

  it('stands for no day of which less than half was tested', () => {
    expect(note(160, 120, 4)).toBe('balanced over the day 120')
    expect(note(160, 120, 3)).toBeNull()
    expect(note(160, null, 0)).toBeNull()
  })
})

describe('figures that may be missing', () => {
  it('show a dash, never a zero', () => {
    expect(glucoseOrNone(null, 'mg/dL')).toBe('–')
    expect(percentOrNone(null)).toBe('–')
    expect(glucoseOrNone(0, 'mg/dL')).toBe('0')
    expect(percentOrNone(0)).toBe('0')
  })

  it('are held back below 15 readings', () => {
    expect(FEWEST_READINGS).toBe(15)
    expect(HELD_BACK).toBe('not shown below 15 readings')
  })
})

describe('the target', () => {
  it('is written in the printed unit', () => {
    expect(targetText(LIMITS.low, LIMITS.high, 'mg/dL')).toBe('70 to 180')
    expect(targetText(LIMITS.low, LIMITS.high, 'mmol/L')).toBe('3.9 to 10.0')
    expect(targetText(LIMITS.pregnancyLow, LIMITS.pregnancyHigh, 'mmol/L')).toBe('3.5 to 7.8')
  })

  it('is compared in the unit’s own numbers', () => {
    expect(sameLimit({ mgDl: 70, mmol: 3.9 }, { mgDl: 71, mmol: 3.9 }, 'mmol/L')).toBe(true)
    expect(sameLimit({ mgDl: 70, mmol: 3.9 }, { mgDl: 71, mmol: 3.9 }, 'mg/dL')).toBe(false)
  })
})

const A1C: LatestA1c = {
  ...{ from: 20_000, to: 20_089, n: 300, belowRange: 0, aboveRange: 0, daysWithReadings: 84, mean: 154 },
  estimate: { percent: 6.993, mmolMol: 52.9, rangePercent: [5.9, 7.6] },
  heldBack: null,
}

describe('the estimated A1C', () => {
  it('says which days it speaks of, and why there is none', () => {
    expect(a1cDaysText(A1C, { from: 19_000, to: 20_089 }, 'mg/dL')).toBe(
      'by the latest 90 days, 84 with readings, mean 154',
    )
    expect(a1cDaysText(A1C, { from: 20_000, to: 20_089 }, 'mg/dL')).toBe('by 84 days with readings of 90')
    expect(a1cHeldBackText({ ...A1C, estimate: null, heldBack: 'few-days' })).toBe(
      'not shown below 14 days with readings within 90 days',
    )
  })

  it('is a range with one decimal; an end that the published table does not hold is not guessed', () => {
    expect(a1cRangeText([6.15, 8.52], a1cText)).toBe('6.2–8.5')
    expect(a1cRangeText([null, 6.1], a1cText)).toBe('up to 6.1')
    expect(a1cRangeText([11.2, null], a1cText)).toBe('from 11.2')
    expect(a1cRangeText([null, null], a1cText)).toBe('–')
    expect(a1cRangeText(null, a1cText)).toBe('–')
  })

  it('has a centre with one decimal in percent and none in mmol/mol', () => {
    // Mean 154: (154 + 46.7) / 28.7 = 6.993 (Diabetes Care 2008;31:1473); (6.993 - 2.152) / 0.09148 = 52.9.
    expect(a1cCentreText(A1C)).toBe('centre 7.0 (53 mmol/mol)')
    expect(a1cCentreText({ ...A1C, estimate: null, heldBack: 'few-days' })).toBeNull()
  })

  it('says so where nights were hardly tested', () => {
    expect(nightsNote(10, 440)).toBe('nights hardly tested (10 of 440)')
    expect(nightsNote(22, 440)).toBeNull()
  })
})

describe('HI and LO', () => {
  const markers = {
    n: 100,
    aboveRange: 1,
    belowRange: 2,
    upperLimits: ['600'],
    lowerLimits: ['20'],
  }

  it('are told with the limits at which they were counted and the figures without them', () => {
    const without = { ...summaryOf(20), mean: 143.6, sd: 38.2 }
    expect(markersSentence(markers, without, A1C, DEFAULT_SETTINGS)).toBe(
      'Beyond the meter’s limits: 1 reading HI, counted at 600; 2 readings LO, counted at 20 mg/dL in every ' +
        'figure. Without them: mean 144, SD 38, estimated A1C 5.9–7.6 %.',
    )
  })

  it('name each limit where meters had several', () => {
    const text = markersSentence(
      { ...markers, belowRange: 0, upperLimits: ['500', '600'] },
      summaryOf(20),
      null,
      DEFAULT_SETTINGS,
    )
    expect(text).toContain('1 reading HI, counted at 500 and 600 mg/dL in every figure.')
    expect(text).not.toContain('LO')
  })

  it('leave SD and estimate out below 15 readings, and say where nothing is left', () => {
    const few = markersSentence(markers, summaryOf(14), null, DEFAULT_SETTINGS)
    expect(few).toMatch(/Without them: mean \d+\.$/)
    expect(markersSentence(markers, summaryOf(15), A1C, DEFAULT_SETTINGS)).toMatch(/SD \d+, estimated A1C/)
    expect(markersSentence(markers, null, null, DEFAULT_SETTINGS)).toContain('There are no other readings.')
  })

  it('above a tenth of the readings take the mean of all and any estimate away', () => {
    const many = markersSentence({ ...markers, n: 29 }, summaryOf(26), A1C, DEFAULT_SETTINGS)
    expect(many).toMatch(
      /: more than one in ten\. .*no mean, SD or estimated A1C of all readings.*Without them: mean \d+, SD \d+\. That is no fair picture/,
    )
    expect(markersSentence({ ...markers, n: 30 }, summaryOf(27), A1C, DEFAULT_SETTINGS)).toContain(
      'in every figure',
    )
  })

  it('stand themselves where a median or quartile would be their limit', () => {
    const of = (n: number, belowRange: number, aboveRange: number) => ({
      ...{ n, belowRange, aboveRange },
      ...{ q1: 20, median: 310, q3: 600 },
    })
    expect(medianText(of(24, 0, 24), 'mg/dL')).toBe('HI')
    expect(medianText(of(24, 24, 0), 'mg/dL')).toBe('LO')
    expect(medianText(of(24, 12, 12), 'mg/dL')).toBe('–')
    expect(medianText(of(24, 3, 3), 'mg/dL')).toBe('310')
    // Of five the third is the median, the second and the fourth the quartiles.
    expect(middleHalfText(of(5, 2, 2), 'mg/dL')).toBe('LO–HI')
    expect(middleHalfText(of(5, 1, 1), 'mg/dL')).toBe('20–600')
  })

  it('are not mentioned where there are none', () => {
    expect(
      markersSentence({ ...markers, aboveRange: 0, belowRange: 0 }, null, null, DEFAULT_SETTINGS),
    ).toBeNull()
  })
})
