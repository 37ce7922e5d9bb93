import type { PeriodFigures } from '../analysis/analysis'
import { type FastingSpread, MORNING_HOURS } from '../day/fasting'
import { ENOUGH_READINGS_A_DAY, type Trend } from '../day/week'
import { hasManyMarkers } from '../statistics/heldBack'
import { changeToSee, readingsToSee } from '../statistics/sampleSize'
import { wilsonInterval } from '../statistics/wilson'
import { fromMgDl, glucoseDecimals, type GlucoseUnit } from '../units/glucose'
import { roundHalfAway } from '../units/rounding'
import type { Hours } from './coverage'
import { hourRuns } from './day'
import { type Measure, measureOf } from './measures'

/** Below this many readings of a kind of day no median is compared (design choice). */
const FEWEST_COMPARED = 10

export interface KindOfDay {
  readonly n: number
  readonly median: Measure
}

/** The days of a period against one another. */
export interface WeekTold {
  /** Null where one of them was hardly tested. */
  readonly weekend: { readonly weekdays: KindOfDay; readonly weekend: KindOfDay } | null
  /** `change`: in all, mg/dL; null where it cannot be told. */
  readonly trend: (Trend & { readonly change: readonly [number, number]; readonly clear: boolean }) | null
  readonly enough: { readonly readingsADay: number; readonly days: number; readonly of: number }
  readonly neverTested: readonly Hours[]
}

export function weekTold(
  { week, days, asLogged, latestStretch }: PeriodFigures,
  unit: GlucoseUnit,
): WeekTold {
  const { weekdays, weekend, trend, daysWithEnough, hoursNeverTested } = week
  const kind = (of: typeof weekdays): KindOfDay => ({
    n: of.n,
    median: measureOf('medianMgDl', of, { interval: of.medianCi95MgDl }),
  })
  // A step that page 1 tells of is no slope over all weeks: ‘no clear change’ would contradict it.
  const changedLately = latestStretch !== null && latestStretch.before.changedSince !== null
  return {
    weekend:
      Math.min(weekdays.n, weekend.n) < FEWEST_COMPARED
        ? null
        : { weekdays: kind(weekdays), weekend: kind(weekend) },
    trend: trend === null || hasManyMarkers(asLogged) || changedLately ? null : trendTold(trend, unit),
    enough: { readingsADay: ENOUGH_READINGS_A_DAY, days: daysWithEnough, of: days },
    neverTested: hourRuns(hoursNeverTested),
  }
}

/** A change that is none as it is printed is not called clear. */
function trendTold(trend: Trend, unit: GlucoseUnit): WeekTold['trend'] {
  const printed = (mgDl: number) => roundHalfAway(fromMgDl(mgDl, unit), glucoseDecimals(unit))
  const isSeen = printed(trend.fromMgDl) !== printed(trend.toMgDl)
  const [low, high] = trend.ci95.map((perWeek) => perWeek * trend.weeks)
  return { ...trend, change: [low, high], clear: isSeen && (low > 0 || high < 0) }
}

/** Changes of which next month's tests could tell, in the printed unit (design choice). */
const CHANGES: Readonly<Record<GlucoseUnit, readonly number[]>> = {
  'mg/dL': [10, 15, 20],
  'mmol/L': [0.5, 0.8, 1.1],
}
const NIGHTS = 30
/** A month has so many mornings, and so many fasting tests at most; three months three times as many. */
const MORNINGS = 30
const MONTHS_TO_SHOW = 3

/** What a month of testing could tell. */
export interface NextMonth {
  /** So many tested nights without a low still allow lows on one night in so many (Wilson's upper limit). */
  readonly nights: number
  readonly oneNightIn: number
  /** From the person's own fasting spread; null where that is not known. */
  readonly fasting: FastingPlan | null
}

/** Glucose in the printed unit. */
export interface FastingPlan extends FastingSpread {
  readonly unit: GlucoseUnit
  readonly hours: { readonly from: number; readonly to: number }
  /** Changes that a month can show, with the fasting tests that each needs. */
  readonly shown: readonly { readonly change: number; readonly tests: number }[]
  readonly notShown: readonly number[]
  readonly morningsAMonth: number
  readonly months: number
  /** What the mornings of so many months can show. */
  readonly smallest: number
}

export function nextMonth(spread: FastingSpread | null, unit: GlucoseUnit): NextMonth {
  const upper = wilsonInterval(0, NIGHTS)?.[1] ?? 1
  return {
    nights: NIGHTS,
    oneNightIn: Math.round(1 / upper),
    fasting: spread && fastingPlan(spread, unit),
  }
}

function fastingPlan(spread: FastingSpread, unit: GlucoseUnit): FastingPlan {
  const digits = 10 ** glucoseDecimals(unit)
  // From the SD as it is printed, so that the sentence can be checked.
  const sd = roundHalfAway(fromMgDl(spread.sdMgDl, unit), glucoseDecimals(unit))
  const needs = CHANGES[unit].map((change) => ({
    change,
    tests: Math.max(1, Math.round(readingsToSee(change, sd))),
  }))
  return {
    ...spread,
    ...{ sdMgDl: sd, unit, hours: MORNING_HOURS, morningsAMonth: MORNINGS, months: MONTHS_TO_SHOW },
    shown: needs.filter(({ tests }) => tests <= MORNINGS),
    notShown: needs.filter(({ tests }) => tests > MORNINGS).map(({ change }) => change),
    // Rounded up: a smaller one would not do.
    smallest: Math.ceil(digits * changeToSee(MONTHS_TO_SHOW * MORNINGS, sd)) / digits,
  }
}
