import { FLAG, hasFlag, type Readings } from '../log/readings'
import { SECONDS_PER_MINUTE } from '../units/wallClock'

/**
 * Seconds from one reading to another: between the instants where the log gives the offset of both, else
 * between the wall-clock times.
 */
export function secondsBetween(readings: Readings, first: number, second: number): number {
  const wall = readings.at[second] - readings.at[first]
  if (!hasFlag(readings, first, FLAG.offset) || !hasFlag(readings, second, FLAG.offset)) return wall
  return wall - (readings.offsetMinutes[second] - readings.offsetMinutes[first]) * SECONDS_PER_MINUTE
}

/** `secondsBetween` in minutes. */
export function minutesBetween(readings: Readings, first: number, second: number): number {
  return secondsBetween(readings, first, second) / SECONDS_PER_MINUTE
}

/**
 * Indexes of all readings in the order in which they were taken. That is the logbook's own order, except
 * where the clock was set back between readings whose offsets are known.
 */
export function chronologicalOrder(readings: Readings): Uint32Array {
  const { n } = readings
  const order = new Uint32Array(n)
  for (let i = 0; i < n; i++) order[i] = i
  for (let start = 0; start < n;) {
    let end = start + 1
    let sorted = true
    if (hasFlag(readings, start, FLAG.offset)) {
      for (; end < n && hasFlag(readings, end, FLAG.offset); end++) {
        if (secondsBetween(readings, end - 1, end) < 0) sorted = false
      }
    }
    if (!sorted) order.subarray(start, end).sort((a, b) => secondsBetween(readings, b, a) || a - b)
    start = end
  }
  return order
}
