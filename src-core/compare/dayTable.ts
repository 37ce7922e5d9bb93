import type { Settings } from '../analysis/settings'
import { mealMoments } from '../log/mealWords'
import { FLAG, type Readings } from '../log/readings'
import { BLOCK_HOURS, BLOCKS_PER_DAY } from '../reference/dayParts'
import type { CellTotals } from '../statistics/dayEstimates'
import { type DayTotals, dayTotals } from '../statistics/dayTotals'
import { dayOf, secondOfDay } from '../units/wallClock'
import { momentKind, MOMENTS } from './testingHabit'

/** A period's readings by days. Readings without a time are in no cell. */
export interface DayTable extends DayTotals {
  /** A cell for each block of the day. */
  readonly byBlock: CellTotals
  /** A cell for each block and each of `MOMENTS`: `MOMENTS.length` x block + moment. */
  readonly byBlockAndMoment: CellTotals
  /** All values in mg/dL, ascending, and the calendar day of each. */
  readonly sorted: Float64Array
  readonly dayOfSorted: Float64Array
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
  const columns = (cells: number) => Array.from({ length: cells }, () => new Float64Array(totals.days))
  const { dayNumbers } = totals
  const byBlock = { dayNumbers, n: columns(BLOCKS_PER_DAY), sums: columns(BLOCKS_PER_DAY) }
  const cells = BLOCKS_PER_DAY * MOMENTS.length
  const byBlockAndMoment = { dayNumbers, n: columns(cells), sums: columns(cells) }
  const momentOf = mealMoments()
  let day = -1
  for (const i of indexes) {
    if (day === -1 || dayOf(readings.at[i]) !== dayNumbers[day]) day++
    if (readings.flags[i] & FLAG.dayOnly) continue
    const block = Math.floor(secondOfDay(readings.at[i]) / (BLOCK_HOURS * 3600))
    const cell = MOMENTS.length * block + MOMENTS.indexOf(momentKind(momentOf(readings.meal(i))))
    byBlock.n[block][day]++
    byBlock.sums[block][day] += readings.mgDl[i]
    byBlockAndMoment.n[cell][day]++
    byBlockAndMoment.sums[cell][day] += readings.mgDl[i]
  }
  indexes.sort((a, b) => readings.mgDl[a] - readings.mgDl[b])
  return {
    ...totals,
    byBlock,
    byBlockAndMoment,
    sorted: Float64Array.from(indexes, (i) => readings.mgDl[i]),
    dayOfSorted: Float64Array.from(indexes, (i) => dayOf(readings.at[i])),
  }
}
