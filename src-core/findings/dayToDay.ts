import { isWeekend, medianOf, trendOf } from '../day/week'
import { countMarkers } from '../log/readings'
import { hasManyMarkers } from '../statistics/heldBack'
import { meanDifference } from '../statistics/dailyDifferences'
import { dayOf } from '../units/wallClock'
import { WORTH_SAYING_MG_DL } from './finding'
import type { Look, Question } from './look'
import { lowsBeside } from './lowsBeside'

/** Fewer weeks with both kinds of days tell nothing (design choice). */
const FEWEST_WEEKS = 4
/** Monday is the first day of a week, and 1 January 1970 was a Thursday. */
const weekOf = (day: number) => Math.floor((day + 3) / 7)

/** Whether the daily medians of weekends and weekdays differ: week by week, so that weeks may differ as they like. */
export function weekendsDiffer(look: Look): Question | null {
  if (areNoNumbers(look)) return null
  const weeks = new Map<number, { weekend: number[]; weekdays: number[] }>()
  for (const [day, values] of valuesByDay(look)) {
    const week = weeks.get(weekOf(day)) ?? { weekend: [], weekdays: [] }
    weeks.set(weekOf(day), week)
    week[isWeekend(day) ? 'weekend' : 'weekdays'].push(medianOf(values) ?? NaN)
  }
  const both = [...weeks].filter(([, { weekend, weekdays }]) => weekend.length > 0 && weekdays.length > 0)
  const found = meanDifference(
    both.map(([, { weekend, weekdays }]) => meanOf(weekend) - meanOf(weekdays)),
    both.map(([week]) => week),
    FEWEST_WEEKS,
  )
  if (found === null) return null
  return {
    ps: [found.p],
    answer: ([clear]) =>
      clear && Math.abs(found.mean) >= WORTH_SAYING_MG_DL
        ? {
            code: 'weekends-differ',
            evidence: { shiftMgDl: found.mean, ci95MgDl: found.ci95, weeks: both.length },
          }
        : null,
  }
}

function meanOf(values: readonly number[]): number {
  return values.reduce((sum, value) => sum + value, 0) / values.length
}

/** Whether the weekly medians rise or fall over the period, by enough to be worth saying from its first week to its last. */
export function trendOverPeriod(look: Look): Question | null {
  if (areNoNumbers(look)) return null
  const trend = trendOf(valuesByDay(look))
  if (trend === null) return null
  return {
    ps: [trend.p],
    answer: ([clear]) =>
      clear && Math.abs(trend.mgDlPerWeek) * trend.weeks >= WORTH_SAYING_MG_DL
        ? {
            code: 'trend',
            evidence: {
              perWeekMgDl: trend.mgDlPerWeek,
              ci95MgDl: trend.ci95,
              weeks: trend.weeks,
              fromMgDl: trend.fromMgDl,
              toMgDl: trend.toMgDl,
              since: trend.since,
              ...lowsBeside(look.readings, look.indexes),
            },
          }
        : null,
  }
}

/** A shift of medians cannot be told where too many readings are HI or LO. */
function areNoNumbers({ readings, indexes }: Look): boolean {
  return hasManyMarkers(countMarkers(readings, indexes))
}

function valuesByDay({ readings, indexes }: Look): ReadonlyMap<number, readonly number[]> {
  const byDay = new Map<number, number[]>()
  for (const index of indexes) {
    const day = dayOf(readings.at[index])
    const values = byDay.get(day)
    if (values) values.push(readings.mgDl[index])
    else byDay.set(day, [readings.mgDl[index]])
  }
  return byDay
}
