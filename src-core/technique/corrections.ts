import { FLAG, hasClockTime, type Readings } from '../log/readings'
import { isTyped } from '../log/typedByHand'
import { SECONDS_PER_MINUTE } from '../units/wallClock'

/** A log's own readings that the person left out and typed anew for the same minute, among those left out. */
export function correctedReadings(readings: Readings, leftOut: readonly number[]): readonly number[] {
  const minuteOf = (index: number) => Math.floor(readings.at[index] / SECONDS_PER_MINUTE)
  const asked = leftOut.filter((index) => hasClockTime(readings, index) && !isTyped(readings, index))
  if (asked.length === 0) return []
  const typed = new Set<number>()
  for (let i = 0; i < readings.n; i++) if (isTyped(readings, i)) typed.add(minuteOf(i))
  return asked.filter((index) => typed.has(minuteOf(index)))
}

/** The readings with the corrected ones marked: no repeats of what corrects them. The same object where there are none. */
export function withCorrections(readings: Readings, corrected: readonly number[]): Readings {
  if (corrected.length === 0) return readings
  const flags = Uint16Array.from({ length: readings.n }, (_, i) => readings.flags[i])
  for (const index of corrected) flags[index] |= FLAG.corrected
  return { ...readings, flags }
}
