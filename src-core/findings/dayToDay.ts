import { isWeekend, medianOf, trendOf } from '../day/week'
import { countMarkers } from '../log/readings'
import { hasManyMarkers } from '../statistics/heldBack'
import { rankSumShift } from '../statistics/rankSum'
import { dayOf } from '../units/wallClock'
import { WORTH_SAYING_MG_DL } from './finding'
import type { Look, Question } from './look'
import { lowsBeside } from './lowsBeside'

const FEWEST_DAYS_OF_A_KIND = 4
/** Medians of more days are years on end: the week is no news then. */
const MOST_DAYS = 800

/** Whether the daily medians of weekends and weekdays differ. */
export function weekendsDiffer(look: Look): Question | null {
  if (areNoNumbers(look)) return null
  const days = [...valuesByDay(look)].map(([day, values]) => ({ day, median: medianOf(values) ?? NaN }))
  const of = (weekend: boolean) =>
    days.filter(({ day }) => isWeekend(day) === weekend).map(({ median }) => median)
  const [weekend, weekdays] = [of(true), of(false)]
  if (Math.min(weekend.length, weekdays.length) < FEWEST_DAYS_OF_A_KIND || days.length > MOST_DAYS)
    return null
  const found = rankSumShift(weekend, weekdays, look.random)
  if (found === null) return null
  return {
    ps: [found.p],
    answer: ([clear]) =>
      clear && Math.abs(found.shift) >= WORTH_SAYING_MG_DL
        ? {
            code: 'weekends-differ',
            evidence: {
              shiftMgDl: found.shift,
              ci95MgDl: found.ci95,
              weekendDays: weekend.length,
              weekdays: weekdays.length,
            },
          }
        : null,
  }
}

/** Whether the daily medians rise or fall over the period, by enough to be worth saying from its first day to its last. */
export function trendOverPeriod(look: Look): Question | null {
  if (areNoNumbers(look)) return null
  const byDay = valuesByDay(look)
  const trend = trendOf(byDay)
  if (trend === null) return null
  const days = [...byDay.keys()]
  const weeks = (days[days.length - 1] - days[0]) / 7
  return {
    ps: [trend.p],
    answer: ([clear]) =>
      clear && Math.abs(trend.perWeek) * weeks >= WORTH_SAYING_MG_DL
        ? {
            code: 'trend',
            evidence: {
              perWeekMgDl: trend.perWeek,
              ci95MgDl: trend.ci95,
              days: days.length,
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
