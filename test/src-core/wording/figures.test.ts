import { describe, expect, it } from 'vitest'
import type { LatestA1c } from '../../../src-core/statistics/latestA1c'
import { DEFAULT_SETTINGS } from '../../../src-core/model/settings'
import { LIMITS } from '../../../src-core/reference/limits'
import { toldA1c } from '../../../src-core/told/estimatedA1c'
import type { MarkersTold } from '../../../src-core/told/markers'
import {
  knownTo,
  type Measure,
  measureOf,
  type MeasureKey,
  type Naming,
} from '../../../src-core/told/measures'
import {
  a1cCentreText,
  a1cDaysText,
  a1cRangeText,
  columnTitle,
  heldBackText,
  knownToText,
  limitsOfText,
  markersSentence,
  measureLabel,
  nightsNote,
  targetText,
  unitText,
  valueText,
  valueWithPercent,
} from '../../../src-core/wording/english/figures'

const NO_MARKERS = { belowRange: 0, aboveRange: 0 }

/** A mean, a coefficient or a share of 100 readings, with its interval. */
function measure(
  key: 'meanMgDl' | 'cvPercent' | 'percentInTarget',
  value: number | null,
  interval: readonly [number, number] | null = null,
): Measure {
  return measureOf(key, { n: 100, ...NO_MARKERS, [key]: value }, { interval })
}

describe('how well a figure is known', () => {
  const known = (of: Measure, unit: 'mg/dL' | 'mmol/L') => {
    const to = knownTo(of, unit)
    return to && knownToText(to)
  }
  const mean = (low: number, high: number, unit: 'mg/dL' | 'mmol/L') =>
    known(measure('meanMgDl', 146, [low, high]), unit)

  it('is said of a mean as its farther limit, in the printed unit, so that nobody takes it for a spread', () => {
    expect(mean(141, 152, 'mg/dL')).toBe('known to about ±6')
    expect(mean(139, 151, 'mg/dL')).toBe('known to about ±7')
    // 9 mg/dL are 0.4996 mmol/L.
    expect(mean(137, 150, 'mmol/L')).toBe('known to about ±0.5')
  })

  it('is never said to be exact', () => {
    expect(mean(145.9, 146.1, 'mg/dL')).toBe('known to about ±1')
    expect(mean(145.9, 146.1, 'mmol/L')).toBe('known to about ±0.1')
    expect(known(measure('cvPercent', 30, [30, 30]), 'mg/dL')).toBe('known to about ±1')
  })

  it('is said of a share as its limits in percent, and of nothing without an interval', () => {
    const share = measure('percentInTarget', 85, [81.6, 88.5])
    expect(known(share, 'mmol/L')).toBe('could be 82 to 89 %')
    expect(limitsOfText(share, 'mmol/L')).toBe('82–89')
    expect(known(measure('meanMgDl', 146), 'mg/dL')).toBeNull()
    expect(limitsOfText(measure('meanMgDl', 146), 'mg/dL')).toBe('–')
  })
})

describe('a figure in words', () => {
  const naming: Naming = {
    unit: 'mmol/L',
    targetLow: LIMITS.low,
    targetHigh: LIMITS.high,
    kind: 'finger-stick',
    balancedBlocks: 6,
  }

  it('has one name, and a short one above a narrow column', () => {
    expect(measureLabel('percentInTarget', naming)).toBe('Readings 3.9 to 10.0')
    expect(measureLabel('percentInTarget', { ...naming, kind: 'sensor' })).toBe('Time in range 3.9 to 10.0')
    expect(measureLabel('percentAbove180', naming)).toBe('Readings above 10.0')
    expect(measureLabel('balancedMeanMgDl', naming)).toBe('Mean balanced over the day (6 of 8 blocks)')
    expect(columnTitle(measure('cvPercent', 30), naming)).toBe('CV, %')
    expect(columnTitle(measure('meanMgDl', 30), naming)).toBe('mean')
  })

  it('stands in the printed unit; a share of few readings is a count', () => {
    expect(valueText(measure('meanMgDl', 144), 'mmol/L')).toBe('8.0')
    expect(valueWithPercent(measure('cvPercent', 31.6), 'mmol/L')).toBe('32 %')
    const few = measureOf('percentInTarget', { n: 12, ...NO_MARKERS, percentInTarget: 75 })
    expect(valueWithPercent(few, 'mg/dL')).toBe('9 of 12')
    expect(unitText(few, 'mg/dL')).toBe('')
  })

  it('that is missing is a dash, never a zero', () => {
    expect(valueText(measure('meanMgDl', null), 'mg/dL')).toBe('–')
    expect(valueWithPercent(measure('cvPercent', null), 'mg/dL')).toBe('–')
    expect(valueText(measure('meanMgDl', 0), 'mg/dL')).toBe('0')
    expect(valueWithPercent(measure('percentInTarget', 0), 'mg/dL')).toBe('0 %')
  })

  it('that is held back says why', () => {
    expect(heldBackText({ why: 'few-readings', fewest: 15 })).toBe('not shown: fewer than 15 readings')
    expect(heldBackText({ why: 'few-days', fewest: 14, within: 90 })).toBe(
      'not shown: fewer than 14 days with readings in 90 days',
    )
    expect(heldBackText({ why: 'markers', of: { n: 24, belowRange: 4, aboveRange: 1 } })).toBe(
      'not shown: 5 of 24 readings beyond the meter’s limits',
    )
  })
})

describe('the target', () => {
  it('is written in the printed unit', () => {
    expect(targetText(LIMITS.low, LIMITS.high, 'mg/dL')).toBe('70 to 180')
    expect(targetText(LIMITS.low, LIMITS.high, 'mmol/L')).toBe('3.9 to 10.0')
    expect(targetText(LIMITS.pregnancyLow, LIMITS.pregnancyHigh, 'mmol/L')).toBe('3.5 to 7.8')
  })
})

const LATEST: LatestA1c = {
  ...{ from: 20_000, to: 20_089, n: 300, ...NO_MARKERS, daysWithReadings: 84, meanMgDl: 154 },
  estimate: { percent: 6.993, mmolMol: 52.9, rangePercent: [5.9, 7.6] },
  heldBack: null,
}
const A1C = toldA1c(LATEST)

describe('the estimated A1C', () => {
  it('says which days it speaks of', () => {
    expect(a1cDaysText({ ...A1C, ofAllDays: false }, 'mg/dL')).toBe(
      'over the latest 90 days, 84 with readings, mean 154',
    )
    expect(a1cDaysText({ ...A1C, ofAllDays: true }, 'mg/dL')).toBe('over 90 days, 84 with readings')
  })

  it('is a range with one decimal; an end that the published table does not hold is not guessed', () => {
    expect(a1cRangeText([6.15, 8.52])).toBe('6.2–8.5')
    expect(a1cRangeText([null, 6.1])).toBe('up to 6.1')
    expect(a1cRangeText([11.2, null])).toBe('from 11.2')
    expect(a1cRangeText([null, null])).toBe('–')
  })

  it('has a centre with one decimal in percent and none in mmol/mol', () => {
    // Mean 154: (154 + 46.7) / 28.7 = 6.993 (Diabetes Care 2008;31:1473); (6.993 - 2.152) / 0.09148 = 52.9.
    expect(a1cCentreText(A1C)).toBe('centre 7.0 (53 mmol/mol)')
    expect(a1cCentreText({ estimate: null })).toBeNull()
  })

  it('says so where nights were hardly tested', () => {
    expect(nightsNote({ atNight: 10, n: 440 })).toBe('nights hardly tested (10 of 440 readings)')
  })
})

describe('HI and LO', () => {
  const without = { n: 97, ...NO_MARKERS, meanMgDl: 143.6, sdMgDl: 38.2 }
  const markers: MarkersTold = {
    ...{ aboveRange: 1, belowRange: 2, upperLimits: [600], lowerLimits: [20], many: false },
    without: { mean: measureOf('meanMgDl', without), sd: measureOf('sdMgDl', without), a1c: A1C },
  }

  it('are told with the limits at which they were counted and the figures without them', () => {
    expect(markersSentence(markers, DEFAULT_SETTINGS)).toBe(
      'Beyond the meter’s limits: 1 reading HI, counted as 600; 2 readings LO, counted as 20 mg/dL in every ' +
        'figure. Without them: mean 144, SD 38, estimated A1C 5.9–7.6 %.',
    )
  })

  it('name each limit where meters had several', () => {
    const text = markersSentence({ ...markers, belowRange: 0, upperLimits: [500, 600] }, DEFAULT_SETTINGS)
    expect(text).toContain('1 reading HI, counted as 500 and 600 mg/dL in every figure.')
    expect(text).not.toContain('LO')
  })

  it('leave out what is held back, and say where nothing is left', () => {
    const left = { mean: measureOf('meanMgDl', without), sd: null, a1c: null }
    expect(markersSentence({ ...markers, without: left }, DEFAULT_SETTINGS)).toMatch(
      /Without them: mean 144\.$/,
    )
    expect(markersSentence({ ...markers, without: null }, DEFAULT_SETTINGS)).toContain(
      'There are no other readings.',
    )
  })

  it('that are many take the mean of all and any estimate away', () => {
    const { mean, sd } = markers.without ?? { mean: measure('meanMgDl', 1), sd: measure('meanMgDl', 1) }
    expect(
      markersSentence({ ...markers, many: true, without: { mean, sd, a1c: null } }, DEFAULT_SETTINGS),
    ).toMatch(
      /: more than one in ten\. .*no mean, SD or estimated A1C is given for all readings.*Without them: mean \d+, SD \d+\. That is not a fair picture/,
    )
  })

  it('stand themselves where a median or quartile would be their limit', () => {
    const text = (key: MeasureKey, n: number, belowRange: number, aboveRange: number) =>
      valueText(
        measureOf(key, { n, belowRange, aboveRange, q1MgDl: 20, medianMgDl: 310, q3MgDl: 600 }),
        'mg/dL',
      )
    expect(text('medianMgDl', 24, 0, 24)).toBe('HI')
    expect(text('medianMgDl', 24, 24, 0)).toBe('LO')
    expect(text('medianMgDl', 24, 12, 12)).toBe('–')
    expect(text('medianMgDl', 24, 3, 3)).toBe('310')
    // Of five the third is the median, the second and the fourth the quartiles.
    expect(text('middleHalfMgDl', 5, 2, 2)).toBe('LO–HI')
    expect(text('middleHalfMgDl', 5, 1, 1)).toBe('20–600')
  })
})
