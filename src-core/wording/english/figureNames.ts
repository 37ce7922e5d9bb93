import type { Counted } from '../../model/counted'
import type { DaySpan } from '../../log/readings'
import { LIMITS } from '../../reference/limits'
import type { HeldBack } from '../../statistics/heldBack'
import type { LatestA1c } from '../../statistics/latestA1c'
import type { GlucoseUnit } from '../../units/glucose'
import { a1cDaysText, a1cHeldBackText, heldBackText } from './figures'
import { limitText } from './numbers'

// What figures are called in the tables of the window, and what is said beside them.

export const MEAN = 'Mean'
export const SD = 'SD'
export const CV = 'CV'
export const MEDIAN = 'Median'
export const MIDDLE_HALF = 'Half of the readings lie'
export const ESTIMATED_A1C = 'Estimated A1C'

export const lowReadingsName = (unit: GlucoseUnit) => `Readings below ${limitText(LIMITS.low, unit)}`
export const highReadingsName = (unit: GlucoseUnit) => `Readings above ${limitText(LIMITS.high, unit)}, %`
/** `target`: '70 to 180'. */
export const inTargetName = (target: string) => `In target ${target}`
/** `limit`: '180'. */
export const aboveName = (limit: string) => `Above ${limit}`
/** `unit`: as printed, 'mg/dL' or '%'. */
export const nameWithUnit = (name: string, unit: string) => `${name}, ${unit}`

export const SHARE_OF_TIME = '% of time'
export const SHARE_OF_READINGS = '% of readings'

/** Behind the estimated A1C: which days it speaks of. */
export function a1cUnit(latest: LatestA1c, period: DaySpan, unit: GlucoseUnit): string {
  return `%, ${a1cDaysText(latest, period, unit)}, not a laboratory A1C`
}

export const REPEATS_COUNT_ONCE =
  'In the second column repeats of one moment count once, except where one of them is a low.'

/** That figures are held back, and why. */
export function heldBackSentence(why: HeldBack, of: Counted): string {
  const names = why === 'markers' ? 'Mean, SD, CV' : 'SD, CV'
  return `${names} and estimated A1C are ${heldBackText(why, of)}.`
}

export const a1cHeldBackSentence = (latest: LatestA1c) => `The estimated A1C is ${a1cHeldBackText(latest)}.`
