import type { Settings } from '../model/settings'
import { isAbove, isBelow, type Readings } from '../log/readings'
import { LIMITS } from '../reference/limits'
import { dayOf } from '../units/wallClock'

/** The shares of readings that are counted, in the order of their counts in the totals. */
export const SHARES = [
  'percentBelow54',
  'percentBelow70',
  'percentInTarget',
  'percentAbove180',
  'percentAbove250',
] as const

/** A period's readings added up by days with readings; one place in each column for each day, in order of time. */
export interface DayTotals {
  readonly days: number
  /** Which calendar day each is. */
  readonly dayNumbers: Float64Array
  /** Subtracted from each value before it is summed, so that long sums keep their digits; mg/dL. */
  readonly centre: number
  readonly n: Float64Array
  /** Sums of deviations from the centre, and of their squares. */
  readonly sums: Float64Array
  readonly squares: Float64Array
  /** Counts of readings for each of `SHARES`. */
  readonly counts: readonly Float64Array[]
}

/** Adds up the readings `[start, end)` without those that have a bit of `leaveOut`. */
export function dayTotals(
  readings: Readings,
  { start, end }: { readonly start: number; readonly end: number },
  leaveOut: number,
  { targetLow, targetHigh }: Pick<Settings, 'targetLow' | 'targetHigh'>,
  centre: number,
): DayTotals {
  const rows: number[][] = []
  const dayNumbers: number[] = []
  let row: number[] = []
  let last = NaN
  for (let i = start; i < end; i++) {
    if (readings.flags[i] & leaveOut) continue
    const day = dayOf(readings.at[i])
    if (day !== last) {
      rows.push((row = [0, 0, 0, 0, 0, 0, 0, 0]))
      dayNumbers.push(day)
    }
    last = day
    const deviation = readings.mgDl[i] - centre
    row[0]++
    row[1] += deviation
    row[2] += deviation * deviation
    if (isBelow(readings, i, LIMITS.veryLow)) row[3]++
    if (isBelow(readings, i, LIMITS.low)) row[4]++
    if (!isBelow(readings, i, targetLow) && !isAbove(readings, i, targetHigh)) row[5]++
    if (isAbove(readings, i, LIMITS.high)) row[6]++
    if (isAbove(readings, i, LIMITS.veryHigh)) row[7]++
  }
  const column = (place: number) => Float64Array.from(rows, (values) => values[place])
  return {
    days: rows.length,
    dayNumbers: Float64Array.from(dayNumbers),
    centre,
    n: column(0),
    sums: column(1),
    squares: column(2),
    counts: SHARES.map((_, share) => column(3 + share)),
  }
}

export function total(column: Float64Array): number {
  return column.reduce((sum, value) => sum + value, 0)
}
