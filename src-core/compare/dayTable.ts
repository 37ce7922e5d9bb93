import type { Settings } from '../model/settings'
import { mealMoments } from '../log/mealWords'
import { FLAG, type Readings } from '../log/readings'
import { BLOCK_HOURS, BLOCKS_PER_DAY } from '../reference/dayParts'
import { type CellTotals, cellTotals } from '../statistics/dayEstimates'
import { type DayTotals, dayTotals } from '../statistics/dayTotals'
import { dayOf, secondOfDay } from '../units/wallClock'
import { momentKind, MOMENTS } from './testingHabit'

/** A period's readings by days. Readings without a time are in no cell. */
export interface DayTable extends DayTotals {
  /** A cell for each block of the day. */
  readonly byBlock: CellTotals
  /** A cell for each block and each of `MOMENTS`: `MOMENTS.length` x block + moment. */
  readonly byBlockAndMoment: CellTotals
  /** All values in mg/dL, and the calendar day of each. */
  readonly values: Float64Array
  readonly dayOfValues: Float64Array
}

/** Adds up the readings `[start, end)` without those that have a bit of `leaveOut`; at least one must be left. */
export function dayTable(
  readings: Readings,
  span: { readonly start: number; readonly end: number },
  leaveOut: number,
  settings: Pick<Settings, 'targetLow' | 'targetHigh'>,
  mean: number,
): DayTable {
  const indexes: number[] = []
  for (let i = span.start; i < span.end; i++) if ((readings.flags[i] & leaveOut) === 0) indexes.push(i)
  const totals = dayTotals(readings, span, leaveOut, settings, mean)
  const { dayNumbers } = totals
  const blockOf = (i: number) =>
    readings.flags[i] & FLAG.dayOnly ? null : Math.floor(secondOfDay(readings.at[i]) / (BLOCK_HOURS * 3600))
  const momentOf = mealMoments()
  const blockAndMomentOf = (i: number) => {
    const block = blockOf(i)
    if (block === null) return null
    return MOMENTS.length * block + MOMENTS.indexOf(momentKind(momentOf(readings.meal(i))))
  }
  const byCell = (cells: number, cellOf: (index: number) => number | null) =>
    cellTotals(readings, span, leaveOut, dayNumbers, cells, cellOf)
  return {
    ...totals,
    byBlock: byCell(BLOCKS_PER_DAY, blockOf),
    byBlockAndMoment: byCell(BLOCKS_PER_DAY * MOMENTS.length, blockAndMomentOf),
    values: Float64Array.from(indexes, (i) => readings.mgDl[i]),
    dayOfValues: Float64Array.from(indexes, (i) => dayOf(readings.at[i])),
  }
}
