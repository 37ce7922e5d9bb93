import type { GlucoseUnit } from '../../units/glucose'
import type { DayNumber } from '../../units/wallClock'
import { dayText, spanText } from './dates'
import { count, glucoseText, rangeText } from './numbers'
import type { Years } from '../../told/years'

export const DAYS_TITLE = 'From the first day to the last'
export const DISTRIBUTION_TITLE = 'How the readings spread'
export const REPEATS_TITLE = 'Repeat tests against one another'

export const TARGET_ENDS = { upper: 'upper end of target', lower: 'lower end of target' } as const
export const LOW = 'low'
export const VERY_LOW = 'very low'
export const THIN_CURVE = 'thin: running median'
export const NOT_TESTED = 'not tested'
export const HARDLY_TESTED = 'few tests'
export const FEW_DAYS = 'few days'
export const ownRepeatsText = (percent: number) => `${Math.round(percent)} %, own repeats`

export const DAYS_KEY =
  'Dots: readings. Squares: lows. Upright bar: median of ten readings or more. ‘?’: doubtful.'
/** After the key of the days. */
export const BRACKET_KEY =
  ' Bracket at the right: days with readings that one fault of strips or meter makes doubtful, without a ‘?’ at each.'
export const DISTRIBUTION_KEY = 'How many readings lie in each range of values, as logged; lows in black.'
export const REPEATS_KEY =
  'Across: mean of the first two tests of each set. Up: the second minus the first, in percent of their mean. ' +
  'Dashed lines: within these are 19 of 20 pairs of good tests by the meter standard; solid lines: 19 of 20 pairs of these repeats that agree. ' +
  'Larger dots: one of the two is doubtful. Squares: one of them is a low.'

/** A row of the picture of days. */
export interface DaysRow {
  readonly from: DayNumber
  readonly to: DayNumber
  readonly n: number
  /** mg/dL; null where too few. */
  readonly median: number | null
  readonly lows: number
}

/** '2 Mar', '2 Mar – 8 Mar'. */
export function rowText({ from, to }: DaysRow, day: (day: DayNumber) => string): string {
  return from === to ? day(from) : `${day(from)} – ${day(to)}`
}

export function daysPictureDescription(
  rows: readonly DaysRow[],
  inARow: number,
  { from, to }: { readonly from: DayNumber; readonly to: DayNumber },
  unit: GlucoseUnit,
  years: Years,
): string {
  const each = rows.map((row) => {
    const middle = row.median === null ? '' : `, median ${glucoseText(row.median, unit)}`
    const lows = row.lows === 0 ? '' : `, ${count(row.lows, 'low')}`
    return `from ${dayText(row.from, years)}: ${row.n}${middle}${lows}`
  })
  return `Readings ${spanText(from, to)} in ${unit}, ${count(inARow, 'day')} in a row. ${each.join('; ')}.`
}

export function distributionDescription(
  bars: readonly { readonly from: number; readonly to: number; readonly n: number }[],
  { lo, hi }: { readonly lo: number; readonly hi: number },
  unit: GlucoseUnit,
): string {
  const each = bars.map(
    ({ from, to, n }) => `${rangeText(glucoseText(from, unit), glucoseText(to, unit))}: ${n}`,
  )
  const markers = [lo > 0 ? `LO: ${lo}` : '', hi > 0 ? `HI: ${hi}` : ''].filter((part) => part !== '')
  return `Number of readings by value in ${unit}. ${[...each, ...markers].join('; ')}.`
}

export function repeatsDescription(pairs: number, beyond: number, ownPercent: number | null): string {
  const own =
    ownPercent === null ? '' : ` In sets that agree, 19 of 20 pairs are within ${Math.round(ownPercent)} %.`
  return `${count(pairs, 'pair')} of repeat tests; ${beyond} differ by more than two sound tests would by the meter standard.${own}`
}
