import type { Analysis, PeriodFigures } from '../analysis/analysis'
import { periodReadings } from '../analysis/periodReadings'
import { hasClockTime } from '../log/readings'
import { isTyped } from '../log/typedByHand'

/** Of more meters one line asks for all (design choice). */
const MOST_ASKED = 3

/**
 * The meters, by index, whose clocks are asked about in ink, for the kit tells of none: those that gave the period's
 * readings with a time; null stands for one line without a name. Empty where nothing is asked.
 */
export function clocksAsked(analysis: Analysis, period: PeriodFigures): readonly (number | null)[] {
  const { kit, readings } = analysis
  if (kit.clocks?.length) return []
  const meters = new Set<number>()
  for (const index of periodReadings(analysis, period)) {
    if (hasClockTime(readings, index) && !isTyped(readings, index)) meters.add(readings.meter[index])
  }
  if (meters.size === 0) return []
  return meters.size === 1 || meters.size > MOST_ASKED ? [null] : [...meters].sort((a, b) => a - b)
}
