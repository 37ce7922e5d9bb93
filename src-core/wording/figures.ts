import { limitIn, type LimitPair } from '../reference/limits'
import type { Summary } from '../statistics/summary'
import type { GlucoseUnit } from '../units/glucose'
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

/** Below this many readings the page holds SD, CV and the estimated A1C back. */
export const FEWEST_READINGS = 15

export const HELD_BACK = `not shown below ${FEWEST_READINGS} readings`

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
export function a1cCentreText(summary: Summary): string | null {
  if (summary.estimatedA1cPercent === null || summary.estimatedA1cMmolMol === null) return null
  return `centre ${a1cText(summary.estimatedA1cPercent)} (${a1cMmolMolText(summary.estimatedA1cMmolMol)} mmol/mol)`
}

/** 'nights hardly tested (10 of 440)', or null where they were. */
export function nightsNote(nightReadings: number, n: number): string | null {
  const HARDLY_TESTED_SHARE = 0.05
  return nightReadings < HARDLY_TESTED_SHARE * n ? `nights hardly tested (${nightReadings} of ${n})` : null
}

export interface Markers {
  readonly aboveRange: number
  readonly belowRange: number
  /** The limits that the markers stand for, as printed, each once. */
  readonly upperLimits: readonly string[]
  readonly lowerLimits: readonly string[]
  /** When the HI were, as printed; the LO stand among the lows. */
  readonly aboveAt: readonly string[]
}

/** More HI than this are counted, not dated. */
const MOST_MOMENTS = 3

/** How HI and LO were counted, and the figures without them; null where there are none. */
export function markersSentence(markers: Markers, without: Summary | null, unit: GlucoseUnit): string | null {
  if (markers.aboveRange + markers.belowRange === 0) return null
  const kinds: string[] = []
  if (markers.aboveRange > 0) {
    const when = markers.aboveAt.length <= MOST_MOMENTS ? ` (${listed(markers.aboveAt)})` : ''
    kinds.push(`${count(markers.aboveRange, 'reading')} HI${when}, counted at ${listed(markers.upperLimits)}`)
  }
  if (markers.belowRange > 0) {
    kinds.push(`${count(markers.belowRange, 'reading')} LO, counted at ${listed(markers.lowerLimits)}`)
  }
  return `Beyond the meter’s limits: ${kinds.join('; ')} ${unit} in every figure. ${withoutMarkers(without, unit)}`
}

function withoutMarkers(without: Summary | null, unit: GlucoseUnit): string {
  if (without === null || without.n === 0) return 'There are no other readings.'
  const parts = [`mean ${glucoseOrNone(without.mean, unit)}`]
  if (without.n >= FEWEST_READINGS) {
    parts.push(`SD ${glucoseOrNone(without.sd, unit)}`)
    parts.push(`estimated A1C ${a1cRangeText(without.estimatedA1cRangePercent, a1cText)} %`)
  }
  return `Without them: ${parts.join(', ')}.`
}

/** Whether a value in mg/dL is a limit's, to the unit's own number. */
export function sameLimit(a: LimitPair, b: LimitPair, unit: GlucoseUnit): boolean {
  return limitIn(a, unit) === limitIn(b, unit)
}
