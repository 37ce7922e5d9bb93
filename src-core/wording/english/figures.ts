import { BLOCKS_PER_DAY } from '../../reference/dayParts'
import { LIMITS, type LimitPair } from '../../reference/limits'
import type { Settings } from '../../model/settings'
import type { PeriodA1c, ToldA1c } from '../../told/estimatedA1c'
import type { MarkersTold } from '../../told/markers'
import type { Hours } from '../../told/coverage'
import type { Held, KnownTo, Measure, MeasureKey, Naming, Point, Quantity } from '../../told/measures'
import { fromMgDl, glucoseDecimals, type GlucoseUnit } from '../../units/glucose'
import { fixed } from '../../units/rounding'
import { inTargetLabel } from './sensor'
import { A1C_IN_PREGNANCY } from './targets'
import { hourText } from './dates'
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

/** '06:00 and 08:00'. */
export function hourPairText([from, to]: Hours): string {
  return `${hourText(from)} and ${hourText(to)}`
}

/** In place of a figure that is held back: why. */
export function heldBackText(held: Held): string {
  switch (held.why) {
    case 'pregnancy':
      return `not shown: ${A1C_IN_PREGNANCY}`
    case 'few-hours':
      return `not shown: all tests between ${hourPairText(held.hours)}`
    case 'few-readings':
      return `not shown: fewer than ${held.fewest} readings`
    case 'few-block-days':
      return `not shown: readings of fewer than ${held.fewest} days`
    case 'few-days':
      return `not shown: fewer than ${held.fewest} days with readings in ${held.within} days`
    case 'markers': {
      const { n, belowRange, aboveRange } = held.of
      return `not shown: ${belowRange + aboveRange} of ${count(n, 'reading')} beyond the meter’s limits`
    }
  }
}

/** The name of a measure: on a line of its own, and above a narrow column of readings. */
interface Name {
  readonly label: string
  readonly column: string
}

const named = (label: string, column: string) => (): Name => ({ label, column })
const readingsThat =
  (lie: (of: Naming) => string) =>
  (of: Naming): Name => ({
    label: `Readings ${lie(of)}`,
    column: lie(of),
  })
const below = (limit: LimitPair) => readingsThat(({ unit }) => `below ${limitText(limit, unit)}`)
const above = (limit: LimitPair) => readingsThat(({ unit }) => `above ${limitText(limit, unit)}`)

const NAMES: Readonly<Record<MeasureKey, (of: Naming) => Name>> = {
  readingsBelow70: below(LIMITS.low),
  meanMgDl: named('Mean', 'mean'),
  balancedMeanMgDl: ({ balancedBlocks }) => ({
    label: `Mean balanced over the day (${balancedBlocks} of ${BLOCKS_PER_DAY} blocks)`,
    column: 'balanced mean',
  }),
  sdMgDl: named('SD', 'SD'),
  cvPercent: named('Coefficient of variation', 'CV'),
  medianMgDl: named('Median', 'median'),
  middleHalfMgDl: named('Half of the readings lie', 'middle half'),
  percentBelow54: below(LIMITS.veryLow),
  percentBelow70: below(LIMITS.low),
  percentInTarget: ({ kind, targetLow, targetHigh, unit }) => {
    const target = targetText(targetLow, targetHigh, unit)
    return { label: inTargetLabel(kind, target), column: target }
  },
  percentAbove180: above(LIMITS.high),
  percentAbove250: above(LIMITS.veryHigh),
}

export function measureLabel(key: MeasureKey, of: Naming): string {
  return NAMES[key](of).label
}

/** 'mean', 'CV, %', 'above 180, %': the unit of glucose stands beside the table. */
export function columnTitle(measure: Measure, of: Naming): string {
  const { column } = NAMES[measure.key](of)
  return measure.quantity === 'glucose' ? column : withUnit(column, unitText(measure, of.unit))
}

/** 'mg/dL', '%', or nothing: a count needs none. */
export function unitText(
  { quantity, counted }: Pick<Measure, 'quantity' | 'counted'>,
  unit: GlucoseUnit,
): string {
  if (quantity === 'glucose') return unit
  return quantity === 'count' || counted !== null ? '' : '%'
}

/** 'Mean, mg/dL'. */
export function withUnit(label: string, unit: string): string {
  return unit === '' ? label : `${label}, ${unit}`
}

/**
 * A figure as printed, without its unit: '144', '32', '119–161', 'LO', '9 of 12', or a dash where it is held back or there
 * is none. `more` decimals show a small difference.
 */
export function valueText(measure: Measure, unit: GlucoseUnit, more = 0): string {
  const { counted, heldBack, points, quantity } = measure
  if (heldBack !== null || points.every((point) => point === null)) return NO_NUMBER
  if (counted !== null) return `${counted.count} of ${counted.n}`
  const texts = points.map((point) => pointText(point, quantity, unit, more))
  return texts.length === 1 ? texts[0] : rangeText(texts[0], texts[1])
}

/** The same with '%' where it has it: '32 %', but '144'. */
export function valueWithPercent(measure: Measure, unit: GlucoseUnit): string {
  const text = valueText(measure, unit)
  return text !== NO_NUMBER && unitText(measure, unit) === '%' ? `${text} %` : text
}

function pointText(point: Point, quantity: Quantity, unit: GlucoseUnit, more: number): string {
  if (typeof point !== 'number') return point ?? NO_NUMBER
  return fixed(inUnit(point, quantity, unit), quantity === 'count' ? 0 : decimalsOf(quantity, unit) + more)
}

/** A value in mg/dL, percent or a count as it is printed in `unit`, without rounding. */
export function inUnit(value: number, quantity: Quantity, unit: GlucoseUnit): number {
  return quantity === 'glucose' ? fromMgDl(value, unit) : value
}

export function decimalsOf(quantity: Quantity, unit: GlucoseUnit): number {
  return quantity === 'glucose' ? glucoseDecimals(unit) : 0
}

/** 'known to about ±5'; of a share 'could be 82 to 89 %'. */
export function knownToText(known: KnownTo): string {
  return 'plusMinus' in known ? `known to about ${knownToAmount(known)}` : `could be ${knownToAmount(known)}`
}

/** '±5'; of a share '82 to 89 %'. */
export function knownToAmount(known: KnownTo): string {
  if ('plusMinus' in known) return `±${fixed(known.plusMinus, known.decimals)}`
  const [low, high] = known.limits.map(percentText)
  return `${low} to ${high} %`
}

/** '139–151': the limits between which it is known; a dash where they are not. */
export function limitsOfText({ quantity, interval }: Measure, unit: GlucoseUnit): string {
  if (interval === null) return NO_NUMBER
  const [low, high] = interval.map((limit) => pointText(limit, quantity, unit, 0))
  return rangeText(low, high)
}

/** In place of 'known to about ±5'. */
export function tooFewDaysText(fewestDays: number): string {
  return `too few days (fewer than ${fewestDays}) to say how well it is known`
}

/** '70 to 180'. */
export function targetText(low: LimitPair, high: LimitPair, unit: GlucoseUnit): string {
  return `${limitText(low, unit)} to ${limitText(high, unit)}`
}

export function glucoseOrNone(mgDl: number | null, unit: GlucoseUnit): string {
  return mgDl === null ? NO_NUMBER : glucoseText(mgDl, unit)
}

export const NUMBERS_TITLE = 'The numbers'
export const HOW_WELL_KNOWN_TITLE = 'How well the figures are known'
export const HOW_WELL_KNOWN_COLUMNS = ['figure, as logged', 'value', 'known to about'] as const
export const HOW_WELL_KNOWN_NOTE =
  'The range left open by the choice of days, 95 in 100. It says nothing of how widely the readings spread or how far a meter may be off.'

// What stands in small print under the large figures.

export const CV_EXPLAINED = 'SD in percent of the mean'
export const NOT_OF_TIME = 'of readings, not of time'
export const halfLieText = (range: string) => `half of the readings ${range}`
export const medianNote = (median: string) => `median ${median}`
export const extremesText = (lowest: string, highest: string) => `lowest ${lowest}, highest ${highest}`
export const countedText = (counted: number, n: number, sensor: boolean) =>
  `${counted} of ${n}${sensor ? ' sensor readings' : ''}`
export const balancedNote = (mgDl: number, unit: GlucoseUnit) =>
  `balanced over the day ${glucoseText(mgDl, unit)}`
export const nightsNote = ({ atNight, n }: { readonly atNight: number; readonly n: number }) =>
  `nights hardly tested (${atNight} of ${n} readings)`

// The estimated A1C.

export const A1C_LABEL = 'Estimated A1C'
export const A1C_RANGE_LABEL = 'Estimated A1C, range'
/** In the place of a range of which the published table holds neither limit. */
export const A1C_OUTSIDE_TABLE = 'outside the published table, which runs from 5 to 12 %'

/** '5.7–7.9', 'up to 6.1', 'from 11.2'; what the published table does not hold is not guessed. */
export function a1cRangeText(
  [low, high]: readonly [number | null, number | null],
  text: (percent: number) => string = a1cText,
): string {
  if (low !== null && high !== null) return rangeText(text(low), text(high))
  if (high !== null) return `up to ${text(high)}`
  return low !== null ? `from ${text(low)}` : NO_NUMBER
}

/** The range of the estimate as printed, in percent. */
export function a1cValueText({ estimate }: Pick<ToldA1c, 'estimate'>): string {
  return estimate === null ? NO_NUMBER : a1cRangeText(estimate.rangePercent)
}

/** 'centre 6.6 (49 mmol/mol)', or null without an estimate. */
export function a1cCentreText({ estimate }: Pick<ToldA1c, 'estimate'>): string | null {
  if (estimate === null) return null
  return `centre ${a1cText(estimate.percent)} (${a1cMmolMolText(estimate.mmolMol)} mmol/mol)`
}

/** Which days the estimate speaks of: 'over 31 days, 31 with readings', 'over the latest 90 days, 84 with readings, mean 140'. */
export function a1cDaysText(
  { from, to, daysWithReadings, meanMgDl, ofAllDays }: PeriodA1c,
  unit: GlucoseUnit,
): string {
  const days = to - from + 1
  if (ofAllDays) return `over ${days} days, ${daysWithReadings} with readings`
  return `over the latest ${days} days, ${daysWithReadings} with readings, mean ${glucoseOrNone(meanMgDl, unit)}`
}

export function notLaboratoryText(kind: 'finger-stick' | 'sensor'): string {
  return `from ${kind === 'sensor' ? 'sensor readings' : 'finger-sticks'}, not a laboratory A1C`
}

/** How HI and LO were counted, and the figures without them. */
export function markersSentence(
  { aboveRange, belowRange, upperLimits, lowerLimits, many, without }: MarkersTold,
  { unit }: Pick<Settings, 'unit'>,
): string {
  const kind = (n: number, name: string, limits: readonly number[]) =>
    n === 0
      ? []
      : [
          `${count(n, 'reading')} ${name}, counted as ${listed(limits.map((limit) => fixed(limit, glucoseDecimals(unit))))}`,
        ]
  const kinds = [...kind(aboveRange, 'HI', upperLimits), ...kind(belowRange, 'LO', lowerLimits)]
  const counted = `Beyond the meter’s limits: ${kinds.join('; ')} ${unit}`
  const rest = withoutMarkersText(without, unit)
  if (!many) return `${counted} in every figure. ${rest}`
  return (
    `${counted}: more than one in ten. They have no number, so no mean, SD or estimated A1C is given for all readings. ` +
    `${rest}${without === null ? '' : ' That is not a fair picture of the whole.'}`
  )
}

export function withoutMarkersText(without: MarkersTold['without'], unit: GlucoseUnit): string {
  if (without === null) return 'There are no other readings.'
  const { mean, sd, a1c } = without
  const parts = [
    `mean ${valueText(mean, unit)}`,
    ...(sd === null ? [] : [`SD ${valueText(sd, unit)}`]),
    ...(a1c === null ? [] : [`estimated A1C ${a1cValueText(a1c)} %`]),
  ]
  return `Without them: ${parts.join(', ')}.`
}

// The window's table of figures.

export const REPEATS_COUNT_ONCE =
  'In the second column, repeats of one moment count once, except where one of them is a low.'
export function figuresHeldSentence(held: Held, meanToo: boolean): string {
  return `${meanToo ? 'Mean, SD, CV' : 'SD, CV'} and estimated A1C are ${heldBackText(held)}.`
}
export const a1cHeldSentence = (held: Held) => `The estimated A1C is ${heldBackText(held)}.`
