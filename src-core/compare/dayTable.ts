import type { Settings } from '../analysis/settings'
import { FLAG, isAbove, isBelow, type Readings } from '../log/readings'
import { BLOCK_HOURS, BLOCKS_PER_DAY } from '../reference/dayParts'
import { LIMITS } from '../reference/limits'
import { dayOf, secondOfDay } from '../units/wallClock'

/** The shares that are compared, in the order of their counts in a day table. */
export const SHARES = [
  'percentBelow54',
  'percentBelow70',
  'percentInTarget',
  'percentAbove180',
  'percentAbove250',
] as const

/**
 * A period's readings added up by days, so that a resample of days costs a step for each day. Everything but the
 * values is indexed by day, 0 to `days` - 1.
 */
export interface DayTable {
  /** Days with readings. */
  readonly days: number
  readonly n: Float64Array
  /** What `sums` and `squares` are taken from, mg/dL. */
  readonly centre: number
  /** Sums of deviations from the centre, and of their squares. */
  readonly sums: Float64Array
  readonly squares: Float64Array
  /** Counts of readings for each of `SHARES`. */
  readonly counts: readonly Float64Array[]
  /** Counts and sums of values in mg/dL for each block of the day; readings without a time are in none. */
  readonly blockN: readonly Float64Array[]
  readonly blockSums: readonly Float64Array[]
  /** All values in mg/dL, ascending, and the day of each. */
  readonly sorted: Float64Array
  readonly dayOfSorted: Uint32Array
}

/** Adds up the readings `[start, end)` without those that have a bit of `leaveOut`; at least one must be left. */
export function dayTable(
  readings: Readings,
  { start, end }: { readonly start: number; readonly end: number },
  leaveOut: number,
  settings: Pick<Settings, 'targetLow' | 'targetHigh'>,
): DayTable {
  const indexes: number[] = []
  const dayOfIndex: number[] = []
  let days = 0
  let last = NaN
  for (let i = start; i < end; i++) {
    if (readings.flags[i] & leaveOut) continue
    const day = dayOf(readings.at[i])
    if (day !== last) days++
    last = day
    indexes.push(i)
    dayOfIndex.push(days - 1)
  }
  const column = () => new Float64Array(days)
  const centre = readings.mgDl[indexes[0]]
  const n = column()
  const sums = column()
  const squares = column()
  const counts = SHARES.map(column)
  const blockN = Array.from({ length: BLOCKS_PER_DAY }, column)
  const blockSums = Array.from({ length: BLOCKS_PER_DAY }, column)
  indexes.forEach((i, position) => {
    const day = dayOfIndex[position]
    const deviation = readings.mgDl[i] - centre
    n[day]++
    sums[day] += deviation
    squares[day] += deviation * deviation
    membership(readings, i, settings).forEach((counted, share) => {
      if (counted) counts[share][day]++
    })
    if (readings.flags[i] & FLAG.dayOnly) return
    const block = Math.floor(secondOfDay(readings.at[i]) / (BLOCK_HOURS * 3600))
    blockN[block][day]++
    blockSums[block][day] += readings.mgDl[i]
  })
  const order = Uint32Array.from(indexes, (_, position) => position).sort(
    (a, b) => readings.mgDl[indexes[a]] - readings.mgDl[indexes[b]],
  )
  return {
    days,
    n,
    centre,
    sums,
    squares,
    counts,
    blockN,
    blockSums,
    sorted: Float64Array.from(order, (position) => readings.mgDl[indexes[position]]),
    dayOfSorted: Uint32Array.from(order, (position) => dayOfIndex[position]),
  }
}

/** In which of `SHARES` a reading counts, held against the limits in the unit it was logged in. */
function membership(
  readings: Readings,
  index: number,
  { targetLow, targetHigh }: Pick<Settings, 'targetLow' | 'targetHigh'>,
): readonly boolean[] {
  return [
    isBelow(readings, index, LIMITS.veryLow),
    isBelow(readings, index, LIMITS.low),
    !isBelow(readings, index, targetLow) && !isAbove(readings, index, targetHigh),
    isAbove(readings, index, LIMITS.high),
    isAbove(readings, index, LIMITS.veryHigh),
  ]
}

export function total(column: Float64Array): number {
  return column.reduce((sum, value) => sum + value, 0)
}
