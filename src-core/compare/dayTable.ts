import type { Settings } from '../analysis/settings'
import { FLAG, type Readings } from '../log/readings'
import { BLOCK_HOURS, BLOCKS_PER_DAY } from '../reference/dayParts'
import { type DayTotals, dayTotals } from '../statistics/dayTotals'
import { dayOf, secondOfDay } from '../units/wallClock'

/** A period's readings by days, so that a resample of days costs a step for each day. */
export interface DayTable extends DayTotals {
  /** Counts and sums of values in mg/dL for each block of the day, by day; readings without a time are in none. */
  readonly blockN: readonly Float64Array[]
  readonly blockSums: readonly Float64Array[]
  /** All values in mg/dL, ascending, and the day of each. */
  readonly sorted: Float64Array
  readonly dayOfSorted: Uint32Array
}

/** Adds up the readings `[start, end)` without those that have a bit of `leaveOut`; at least one must be left. */
export function dayTable(
  readings: Readings,
  span: { readonly start: number; readonly end: number },
  leaveOut: number,
  settings: Pick<Settings, 'targetLow' | 'targetHigh'>,
): DayTable {
  const indexes: number[] = []
  for (let i = span.start; i < span.end; i++) if ((readings.flags[i] & leaveOut) === 0) indexes.push(i)
  const totals = dayTotals(readings, span, leaveOut, settings, readings.mgDl[indexes[0]])
  const columns = () => Array.from({ length: BLOCKS_PER_DAY }, () => new Float64Array(totals.days))
  const blockN = columns()
  const blockSums = columns()
  let day = -1
  let last = NaN
  const dayOfIndex = indexes.map((i) => {
    if (dayOf(readings.at[i]) !== last) day++
    last = dayOf(readings.at[i])
    if ((readings.flags[i] & FLAG.dayOnly) === 0) {
      const block = Math.floor(secondOfDay(readings.at[i]) / (BLOCK_HOURS * 3600))
      blockN[block][day]++
      blockSums[block][day] += readings.mgDl[i]
    }
    return day
  })
  const order = Uint32Array.from(indexes, (_, position) => position).sort(
    (a, b) => readings.mgDl[indexes[a]] - readings.mgDl[indexes[b]],
  )
  return {
    ...totals,
    blockN,
    blockSums,
    sorted: Float64Array.from(order, (position) => readings.mgDl[indexes[position]]),
    dayOfSorted: Uint32Array.from(order, (position) => dayOfIndex[position]),
  }
}
