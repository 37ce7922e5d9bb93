import { countMarkers, FLAG, type Readings } from '../log/readings'
import { HOURS_PER_DAY } from '../reference/dayParts'
import type { Counted } from '../statistics/heldBack'
import { ofDaysApart } from '../statistics/errorByDays'
import { medianIntervalOf } from '../statistics/intervals'
import { quantileR7 } from '../statistics/quantile'
import { theilSenSlope } from '../statistics/theilSen'
import type { Interval } from '../statistics/wilson'
import { dayOf, secondOfDay, weekday } from '../units/wallClock'

/** A day with fewer readings says little of itself (common practice: three tests a day). */
export const ENOUGH_READINGS_A_DAY = 3
/** Fewer days with readings make no trend (design choice). */
export const TREND_LEAST_DAYS = 14
/** Longer periods are cut into this many stretches of equal length for the trend. */
const MOST_TREND_POINTS = 400

export interface DayKindFigures extends Counted {
  /** mg/dL; null without readings. */
  readonly median: number | null
  /** 95 % interval of the median by days; null on too few days. */
  readonly medianCi95: Interval | null
}

/** The days of a period against one another. */
export interface Week {
  readonly weekdays: DayKindFigures
  /** Saturday and Sunday. */
  readonly weekend: DayKindFigures
  readonly daysWithEnough: number
  /** Hours of the clock, 0 to 23, in which no test was ever made; all of them where the log gives no times. */
  readonly hoursNeverTested: readonly number[]
  /** Change of the daily median, mg/dL per week, with its 95 % interval; null below 14 days with readings. */
  readonly trend: Trend | null
}

/** mg/dL per week. */
export interface Trend {
  readonly perWeek: number
  readonly ci95: readonly [number, number]
  /** Two-sided. */
  readonly p: number
}

/**
 * The readings `[start, end)` by day, without those with a bit of `leaveOut`. The trend is the Theil-Sen slope of
 * the daily medians (of stretches of several days where there are more than 400).
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
    median: medianOf(indexes.map((index) => readings.mgDl[index])),
    medianCi95: medianIntervalOf(readings, indexes, ofDaysApart),
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

/** Trend of the values of each day, in order of the days; null below 14 days. */
export function trendOf(byDay: ReadonlyMap<number, readonly number[]>): Trend | null {
  if (byDay.size < TREND_LEAST_DAYS) return null
  const days = [...byDay.keys()]
  const stretch = Math.ceil((days[days.length - 1] - days[0] + 1) / MOST_TREND_POINTS)
  const stretches = new Map<number, number[]>()
  for (const [day, values] of byDay) {
    const at = Math.floor((day - days[0]) / stretch)
    const list = stretches.get(at)
    if (list === undefined) stretches.set(at, [...values])
    else for (const value of values) list.push(value)
  }
  const medians = [...stretches.values()].map((values) => medianOf(values) ?? NaN)
  const slope = theilSenSlope([...stretches.keys()], medians)
  if (slope === null) return null
  const perWeek = (value: number) => (7 * value) / stretch
  return { perWeek: perWeek(slope.slope), ci95: [perWeek(slope.ci95[0]), perWeek(slope.ci95[1])], p: slope.p }
}

export function medianOf(values: readonly number[]): number | null {
  return quantileR7(Float64Array.from(values).sort(), 0.5)
}
