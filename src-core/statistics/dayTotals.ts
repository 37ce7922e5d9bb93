import type { Settings } from '../analysis/settings'
import { isAbove, isBelow, type Readings } from '../log/readings'
import { LIMITS } from '../reference/limits'
import { dayOf } from '../units/wallClock'

/** What the days with readings add to the figures of a period; one place in each column for each day. */
export interface DayTotals {
  readonly days: number
  /** Subtracted from each value before it is summed, so that long sums keep their digits; mg/dL. */
  readonly pilot: number
  readonly n: Float64Array
  /** Of value - pilot. */
  readonly sum: Float64Array
  /** Of (value - pilot) squared. */
  readonly squares: Float64Array
  readonly below70: Float64Array
  readonly inTarget: Float64Array
  readonly above180: Float64Array
}

/**
 * Totals of the days on which the readings `[start, end)` hold one without a bit of `leaveOut`. The days come
 * in the order of their totals, not of the calendar: which day was which does not matter to a resample.
 */
export function dayTotals(
  readings: Readings,
  start: number,
  end: number,
  { targetLow, targetHigh }: Pick<Settings, 'targetLow' | 'targetHigh'>,
  pilot: number,
  leaveOut = 0,
): DayTotals {
  const rows: number[][] = []
  let row: number[] = []
  let last = NaN
  for (let i = start; i < end; i++) {
    if (readings.flags[i] & leaveOut) continue
    const day = dayOf(readings.at[i])
    if (day !== last) rows.push((row = [0, 0, 0, 0, 0, 0]))
    last = day
    const excess = readings.mgDl[i] - pilot
    row[0]++
    row[1] += excess
    row[2] += excess * excess
    if (isBelow(readings, i, LIMITS.low)) row[3]++
    if (!isBelow(readings, i, targetLow) && !isAbove(readings, i, targetHigh)) row[4]++
    if (isAbove(readings, i, LIMITS.high)) row[5]++
  }
  rows.sort(compareRows)
  const column = (place: number) => Float64Array.from(rows, (values) => values[place])
  return {
    days: rows.length,
    pilot,
    n: column(0),
    sum: column(1),
    squares: column(2),
    below70: column(3),
    inTarget: column(4),
    above180: column(5),
  }
}

function compareRows(a: readonly number[], b: readonly number[]): number {
  const place = a.findIndex((value, i) => value !== b[i])
  return place === -1 ? 0 : a[place] - b[place]
}
