import type { DaySpan, Readings } from '../log/readings'
import { type DayNumber, dayOf } from '../units/wallClock'

/** Shorter stretches without readings are no news; of a sensor a day is (design choice). */
const FEWEST_GAP_DAYS = { 'finger-stick': 5, sensor: 1 } as const
const MOST_GAPS = 3
const DAYS_IN_A_YEAR = 365.25
/** From here on an age in days says nothing. */
const TOLD_IN_YEARS_FROM = 2

/** What is missing of a log. */
export interface GapsTold {
  /** How long before printing it ends; null where that is no day. */
  readonly ended: { readonly days: number } | { readonly moreThanYears: number } | null
  /** The longest stretches without readings, in order of time. */
  readonly longest: readonly DaySpan[]
  readonly further: number
}

/** Null where nothing is missing. */
export function gapsTold(
  readings: Readings,
  indexes: readonly number[],
  kind: keyof typeof FEWEST_GAP_DAYS,
  madeAt: DayNumber,
): GapsTold | null {
  const gaps = daysWithoutReadings(readings, indexes, FEWEST_GAP_DAYS[kind])
  const longest = [...gaps]
    .sort((a, b) => b.to - b.from - (a.to - a.from) || a.from - b.from)
    .slice(0, MOST_GAPS)
    .sort((a, b) => a.from - b.from)
  const days = readings.n > 0 ? madeAt - dayOf(readings.at[readings.n - 1]) : 0
  const years = Math.floor(days / DAYS_IN_A_YEAR)
  if (days <= 0 && gaps.length === 0) return null
  return {
    ended: days <= 0 ? null : years < TOLD_IN_YEARS_FROM ? { days } : { moreThanYears: years },
    longest,
    further: gaps.length - longest.length,
  }
}

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
