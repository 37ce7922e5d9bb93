import type { DaySpan, Readings } from '../log/readings'
import { dayOf } from '../units/wallClock'

/** Stretches of at least `fewestDays` days without a reading, between the readings `indexes`. */
export function daysWithoutReadings(
  readings: Readings,
  indexes: readonly number[],
  fewestDays: number,
): readonly DaySpan[] {
  const gaps: DaySpan[] = []
  for (let i = 1; i < indexes.length; i++) {
    const from = dayOf(readings.at[indexes[i - 1]]) + 1
    const to = dayOf(readings.at[indexes[i]]) - 1
    if (to - from + 1 >= fewestDays) gaps.push({ from, to })
  }
  return gaps
}
