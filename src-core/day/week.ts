import type { Counted } from '../model/counted'
import { countMarkers, FLAG, type Readings } from '../log/readings'
import { HOURS_PER_DAY } from '../reference/dayParts'
import { ofDaysApart } from '../statistics/errorByDays'
import { medianIntervalOf } from '../statistics/intervals'
import { quantileR7 } from '../statistics/quantile'
import { theilSenSlope } from '../statistics/theilSen'
import type { Interval } from '../statistics/wilson'
import { dayOf, secondOfDay, weekday } from '../units/wallClock'

/** A day with fewer readings says little of itself (common practice: three tests a day). */
export const ENOUGH_READINGS_A_DAY = 3
/** Fewer weeks make no trend, and a week with fewer days with readings is none of them (design choices). */
export const TREND_LEAST_WEEKS = 6
export const WEEK_LEAST_DAYS = 3

const DAYS_OF_A_WEEK = 7

export interface DayKindFigures extends Counted {
  /** mg/dL; null without readings. */
  readonly medianMgDl: number | null
  /** 95 % interval of the median by days; null on too few days. */
  readonly medianCi95MgDl: Interval | null
}

/** The days of a period against one another. */
export interface Week {
  readonly weekdays: DayKindFigures
  /** Saturday and Sunday. */
  readonly weekend: DayKindFigures
  readonly daysWithEnough: number
  /** Hours of the clock, 0 to 23, in which no test was ever made; all of them where the log gives no times. */
  readonly hoursNeverTested: readonly number[]
  /** Change of the weekly median with its 95 % interval; null below six weeks that were tested. */
  readonly trend: Trend | null
}

/** mg/dL per week. */
export interface Trend {
  readonly mgDlPerWeek: number
  readonly ci95: readonly [number, number]
  /** Two-sided. */
  readonly p: number
  /** From the first of the weeks to the last. */
  readonly weeks: number
  /** Where the line lies at both, mg/dL, and the day on which the first begins. */
  readonly fromMgDl: number
  readonly toMgDl: number
  readonly since: number
}

/**
 * The readings `[start, end)` by day, without those with a bit of `leaveOut`. The trend is the Theil-Sen slope of
 * the weekly medians: days resemble their neighbours, weeks far less.
 */
export function weekFigures(readings: Readings, start: number, end: number, leaveOut = 0): Week {
  const byDay = new Map<number, number[]>()
  const of: Record<'weekdays' | 'weekend', number[]> = { weekdays: [], weekend: [] }
  const hours = new Uint8Array(HOURS_PER_DAY)
  for (let i = start; i < end; i++) {
    if (readings.flags[i] & leaveOut) continue
    const day = dayOf(readings.at[i])
    of[isWeekend(day) ? 'weekend' : 'weekdays'].push(i)
    const values = byDay.get(day)
    if (values) values.push(readings.mgDl[i])
    else byDay.set(day, [readings.mgDl[i]])
    if (!(readings.flags[i] & FLAG.dayOnly)) hours[Math.floor(secondOfDay(readings.at[i]) / 3600)] = 1
  }
  const kind = (indexes: readonly number[]): DayKindFigures => ({
    ...countMarkers(readings, indexes),
    medianMgDl: medianOf(indexes.map((index) => readings.mgDl[index])),
    medianCi95MgDl: medianIntervalOf(readings, indexes, ofDaysApart),
  })
  return {
    weekdays: kind(of.weekdays),
    weekend: kind(of.weekend),
    daysWithEnough: [...byDay.values()].filter(({ length }) => length >= ENOUGH_READINGS_A_DAY).length,
    hoursNeverTested: Array.from(hours.keys()).filter((hour) => hours[hour] === 0),
    trend: trendOf(byDay),
  }
}

/** Saturday and Sunday. */
export function isWeekend(day: number): boolean {
  return weekday(day) >= 5
}

/** Trend of the values of each day, in order of the days, by weeks from the first of them; null below six weeks. */
export function trendOf(byDay: ReadonlyMap<number, readonly number[]>): Trend | null {
  const [first] = byDay.keys()
  const weeks = new Map<number, { days: number; values: number[] }>()
  for (const [day, values] of byDay) {
    const week = Math.floor((day - first) / DAYS_OF_A_WEEK)
    const known = weeks.get(week)
    if (known === undefined) weeks.set(week, { days: 1, values: [...values] })
    else {
      known.days++
      for (const value of values) known.values.push(value)
    }
  }
  const tested = [...weeks].filter(([, { days }]) => days >= WEEK_LEAST_DAYS)
  if (tested.length < TREND_LEAST_WEEKS) return null
  const at = tested.map(([week]) => week)
  const medians = tested.map(([, { values }]) => medianOf(values) ?? NaN)
  const slope = theilSenSlope(at, medians)
  if (slope === null) return null
  const level = medianOf(medians.map((median, i) => median - slope.slope * at[i])) ?? NaN
  const [start, end] = [at[0], at[at.length - 1]]
  return {
    mgDlPerWeek: slope.slope,
    ci95: slope.ci95,
    p: slope.p,
    weeks: end - start,
    fromMgDl: level + slope.slope * start,
    toMgDl: level + slope.slope * end,
    since: first + DAYS_OF_A_WEEK * start,
  }
}

export function medianOf(values: readonly number[]): number | null {
  return quantileR7(Float64Array.from(values).sort(), 0.5)
}
