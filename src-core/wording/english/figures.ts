import type { Counted } from '../../model/counted'
import type { Settings } from '../../model/settings'
import type { DaySpan } from '../../log/readings'
import { BLOCKS_PER_DAY } from '../../reference/dayParts'
import { limitIn, type LimitPair } from '../../reference/limits'
import { FEWEST_DAYS } from '../../statistics/errorByDays'
import { FEWEST_READINGS, hasManyMarkers, type HeldBack, heldBack, standsAt } from '../../statistics/heldBack'
import { A1C_DAYS, FEWEST_A1C_DAYS, type LatestA1c } from '../../statistics/latestA1c'
import type { Summary } from '../../statistics/summary'
import type { Interval } from '../../statistics/wilson'
import { fromMgDl, glucoseDecimals, type GlucoseUnit } from '../../units/glucose'
import { fixed, roundHalfAway } from '../../units/rounding'
import { A1C_IN_PREGNANCY } from './targets'
import {
  a1cMmolMolText,
  a1cText,
  count,
  glucoseText,
  limitText,
  listed,
  NO_NUMBER,
  percentText,
  rangeText,
} from './numbers'

export const HELD_BACK = `not shown below ${FEWEST_READINGS} readings`

/** In place of a figure that is held back: why. */
export function heldBackText(why: HeldBack, of: Counted): string {
  if (why === 'pregnancy') return `not shown: ${A1C_IN_PREGNANCY}`
  if (why === 'few-readings') return HELD_BACK
  return `not shown: ${of.belowRange + of.aboveRange} of ${count(of.n, 'reading')} beyond the meter’s limits`
}

/** A quantile as printed; 'LO' or 'HI' where one stands there, whose limit is no value. */
export function quantileText(mgDl: number | null, quantile: number, of: Counted, unit: GlucoseUnit): string {
  if (mgDl === null) return NO_NUMBER
  const at = standsAt(quantile, of)
  return at === 'number' ? glucoseText(mgDl, unit) : at === 'between' ? NO_NUMBER : at
}

/** Quartiles and median of readings, mg/dL. */
export interface Middle extends Counted {
  readonly q1: number | null
  readonly median: number | null
  readonly q3: number | null
}

/** The median as printed. */
export function medianText(of: Pick<Middle, 'median' | keyof Counted>, unit: GlucoseUnit): string {
  return quantileText(of.median, 0.5, of, unit)
}

/** ' (known to about 112–140)'; nothing where that is not known, or a marker stands for the median. */
export function medianKnownTo(
  of: Pick<Middle, 'median' | keyof Counted> & { readonly medianCi95: Interval | null },
  unit: GlucoseUnit,
): string {
  const range = medianRange(of, unit)
  return range === NO_NUMBER ? '' : ` (known to about ${range})`
}

/** '112–140': the 95 % limits of a median. */
export function medianRange(
  of: Pick<Middle, 'median' | keyof Counted> & { readonly medianCi95: Interval | null },
  unit: GlucoseUnit,
): string {
  if (of.medianCi95 === null || standsAt(0.5, of) !== 'number') return NO_NUMBER
  const [low, high] = of.medianCi95
  return rangeText(glucoseText(low, unit), glucoseText(high, unit))
}

/** '119–161': half of the readings. */
export function middleHalfText(of: Middle, unit: GlucoseUnit): string {
  return rangeText(quantileText(of.q1, 0.25, of, unit), quantileText(of.q3, 0.75, of, unit))
}

export function glucoseOrNone(mgDl: number | null, unit: GlucoseUnit): string {
  return mgDl === null ? NO_NUMBER : glucoseText(mgDl, unit)
}

export function percentOrNone(percent: number | null): string {
  return percent === null ? NO_NUMBER : percentText(percent)
}

/** '70 to 180'. */
export function targetText(low: LimitPair, high: LimitPair, unit: GlucoseUnit): string {
  return `${limitText(low, unit)} to ${limitText(high, unit)}`
}

/** '5.7–7.9', 'up to 6.1', 'from 11.2'; what the published table does not hold is not guessed. */
export function a1cRangeText(
  range: Summary['estimatedA1cRangePercent'],
  text: (percent: number) => string,
): string {
  if (range === null) return NO_NUMBER
  const [low, high] = range
  if (low !== null && high !== null) return rangeText(text(low), text(high))
  if (high !== null) return `up to ${text(high)}`
  if (low !== null) return `from ${text(low)}`
  return NO_NUMBER
}

/** 'centre 6.6 (49 mmol/mol)', or null without an estimate. */
export function a1cCentreText({ estimate }: LatestA1c): string | null {
  if (estimate === null) return null
  return `centre ${a1cText(estimate.percent)} (${a1cMmolMolText(estimate.mmolMol)} mmol/mol)`
}

/** In the place of a range of which the published table holds neither limit. */
export const A1C_OUTSIDE_TABLE = 'outside the published table, which ends at 5 and 12 %'

/** The range of the estimate as printed, in percent. */
export function latestA1cText({ estimate }: LatestA1c): string {
  return estimate === null ? NO_NUMBER : a1cRangeText(estimate.rangePercent, a1cText)
}

/** Which days the estimate speaks of: 'by 31 days with readings of 31', 'by the latest 90 days, 84 with readings, mean 140'. */
export function a1cDaysText(
  { from, to, daysWithReadings, mean }: LatestA1c,
  period: DaySpan,
  unit: GlucoseUnit,
): string {
  const days = to - from + 1
  if (from === period.from) return `by ${daysWithReadings} days with readings of ${days}`
  return `by the latest ${days} days, ${daysWithReadings} with readings, mean ${glucoseOrNone(mean, unit)}`
}

/** In place of an estimate that is held back: why. */
export function a1cHeldBackText(latest: LatestA1c): string {
  if (latest.heldBack === 'few-days') {
    return `not shown below ${FEWEST_A1C_DAYS} days with readings within ${A1C_DAYS} days`
  }
  return latest.heldBack === null ? '' : heldBackText(latest.heldBack, latest)
}

/** In place of 'known to about ±5'. */
export const TOO_FEW_DAYS = `too few days (below ${FEWEST_DAYS}) to say how well it is known`

/** 'known to about ±5': the farther limit of an interval in mg/dL, printed in `unit`; one step at least. */
export function glucoseKnownTo(figure: number, interval: Interval, unit: GlucoseUnit): string {
  const inUnit = (mgDl: number) => fromMgDl(mgDl, unit)
  return knownTo(inUnit(figure), [inUnit(interval[0]), inUnit(interval[1])], glucoseDecimals(unit))
}

/** The same of a figure in percent. */
export function percentKnownTo(figure: number, interval: Interval): string {
  return knownTo(figure, interval, 0)
}

/** 'known to about 82 to 89 %'. A share near 0 or 100 is not known equally well to both sides. */
export function shareKnownTo([low, high]: Interval): string {
  return `known to about ${percentText(low)} to ${percentText(high)} %`
}

function knownTo(figure: number, [low, high]: Interval, decimals: number): string {
  const farther = Math.max(figure - low, high - figure)
  return `known to about ±${fixed(Math.max(roundHalfAway(farther, decimals), 10 ** -decimals), decimals)}`
}

/** From this many three-hour blocks on the balanced mean stands for the day: half of it (design choice). */
const FEWEST_BALANCED_BLOCKS = 4
/** Farther from the mean than this share of it, the balanced mean is shown beside it (design choice). */
export const LOPSIDED_PERCENT = 5

/** 'balanced over the day 152' where the hours of testing moved the mean, else null. */
export function balancedNote(
  { mean, balancedMean, balancedBlocks }: Summary,
  unit: GlucoseUnit,
): string | null {
  if (mean === null || balancedMean === null || balancedBlocks < FEWEST_BALANCED_BLOCKS) return null
  if (100 * Math.abs(balancedMean - mean) <= LOPSIDED_PERCENT * mean) return null
  return `balanced over the day ${glucoseText(balancedMean, unit)}`
}

/** The balanced mean's name behind page 1. */
export function balancedLabel(blocks: number, unit: GlucoseUnit): string {
  return `Mean balanced over the day (${blocks} of ${BLOCKS_PER_DAY} blocks), ${unit}`
}

/** 'nights hardly tested (10 of 440)', or null where they were. */
export function nightsNote(nightReadings: number, n: number): string | null {
  const HARDLY_TESTED_SHARE = 0.05
  return nightReadings < HARDLY_TESTED_SHARE * n ? `nights hardly tested (${nightReadings} of ${n})` : null
}

export interface Markers extends Counted {
  /** The limits that the markers stand for, as printed, each once. */
  readonly upperLimits: readonly string[]
  readonly lowerLimits: readonly string[]
}

/** How HI and LO were counted, and the figures without them; null where there are none. */
export function markersSentence(
  markers: Markers,
  without: Summary | null,
  a1cWithout: LatestA1c | null,
  settings: Pick<Settings, 'unit' | 'targetPreset'>,
): string | null {
  if (markers.aboveRange + markers.belowRange === 0) return null
  const kinds: string[] = []
  if (markers.aboveRange > 0) {
    kinds.push(`${count(markers.aboveRange, 'reading')} HI, counted at ${listed(markers.upperLimits)}`)
  }
  if (markers.belowRange > 0) {
    kinds.push(`${count(markers.belowRange, 'reading')} LO, counted at ${listed(markers.lowerLimits)}`)
  }
  const counted = `Beyond the meter’s limits: ${kinds.join('; ')} ${settings.unit}`
  if (!hasManyMarkers(markers))
    return `${counted} in every figure. ${withoutMarkers(without, a1cWithout, settings)}`
  return (
    `${counted}: more than one in ten. They have no number, so no mean, SD or estimated A1C of all readings is given. ` +
    (without === null || without.n === 0
      ? withoutMarkers(without, null, settings)
      : `${withoutMarkers(without, null, settings)} That is no fair picture of the whole.`)
  )
}

function withoutMarkers(
  without: Summary | null,
  /** Of a log in which the highest or lowest are missing no A1C is estimated: null. */
  a1cWithout: LatestA1c | null,
  settings: Pick<Settings, 'unit' | 'targetPreset'>,
): string {
  if (without === null || without.n === 0) return 'There are no other readings.'
  const { unit } = settings
  const parts = [`mean ${glucoseOrNone(without.mean, unit)}`]
  if (heldBack('spread', without, settings) === null) parts.push(`SD ${glucoseOrNone(without.sd, unit)}`)
  if (a1cWithout !== null && a1cWithout.estimate !== null) {
    parts.push(`estimated A1C ${latestA1cText(a1cWithout)} %`)
  }
  return `Without them: ${parts.join(', ')}.`
}

/** Whether a value in mg/dL is a limit's, to the unit's own number. */
export function sameLimit(a: LimitPair, b: LimitPair, unit: GlucoseUnit): boolean {
  return limitIn(a, unit) === limitIn(b, unit)
}
