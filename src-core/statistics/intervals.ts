import type { Settings } from '../model/settings'
import { FLAG, type Readings } from '../log/readings'
import { BALANCED_MIN_READINGS, BLOCK_HOURS, BLOCKS_PER_DAY } from '../reference/dayParts'
import { dayOf, secondOfDay } from '../units/wallClock'
import {
  cellTotals,
  dayEstimates,
  distinctDays,
  medianEstimate,
  shareEstimate,
  weightedMean,
} from './dayEstimates'
import { dayTotals, total } from './dayTotals'
import { FEWEST_DAYS, type ofDaysApart } from './errorByDays'
import { estimatedA1cPercent } from './estimatedA1c'
import { evenInterval, ratioInterval, type ShareEstimate, shareInterval } from './estimates'
import type { Summary } from './summary'
import type { Interval } from './wilson'

/** 95 % intervals of a period's figures. mg/dL; percentages 0 to 100. */
export interface Ci95 {
  readonly meanMgDl: Interval
  readonly sdMgDl: Interval
  readonly cvPercent: Interval
  readonly estimatedA1cPercent: Interval
  readonly percentBelow54: Interval
  readonly percentBelow70: Interval
  readonly percentInTarget: Interval
  readonly percentAbove180: Interval
  readonly percentAbove250: Interval
}

/** How well the figures of a summary are known; null with fewer than `FEWEST_DAYS` days with readings. */
export interface Intervals {
  readonly ci95: Ci95 | null
  /** Null too where no block of the day holds readings enough. */
  readonly balancedMeanCi95MgDl: Interval | null
}

/** 95 % intervals of `summary`, which sums up the readings `[start, end)` without those with a bit of `leaveOut`. */
export function intervalsOf(
  readings: Readings,
  start: number,
  end: number,
  summary: Summary,
  settings: Pick<Settings, 'targetLow' | 'targetHigh'>,
  leaveOut = 0,
): Intervals {
  const span = { start, end }
  const totals = dayTotals(readings, span, leaveOut, settings, summary.meanMgDl ?? 0)
  if (totals.days < FEWEST_DAYS) return { ci95: null, balancedMeanCi95MgDl: null }
  const { mean, sd, cvPercent, shares } = dayEstimates(totals)
  const [percentBelow54, percentBelow70, percentInTarget, percentAbove180, percentAbove250] =
    shares.map(sharePercent)
  const [low, high] = evenInterval(mean)
  return {
    ci95: {
      meanMgDl: [low, high],
      sdMgDl: ratioInterval(sd),
      cvPercent: ratioInterval(cvPercent),
      estimatedA1cPercent: [estimatedA1cPercent(low), estimatedA1cPercent(high)],
      percentBelow54,
      percentBelow70,
      percentInTarget,
      percentAbove180,
      percentAbove250,
    },
    balancedMeanCi95MgDl: balancedInterval(readings, span, leaveOut, totals.dayNumbers),
  }
}

/** A low always counts: the intervals of the shares of lows are those of the log. */
export function withLowIntervalsOf(asLogged: Intervals, checked: Intervals): Intervals {
  if (checked.ci95 === null || asLogged.ci95 === null) return { ...checked, ci95: null }
  const { percentBelow54, percentBelow70 } = asLogged.ci95
  return { ...checked, ci95: { ...checked.ci95, percentBelow54, percentBelow70 } }
}

function balancedInterval(
  readings: Readings,
  span: { readonly start: number; readonly end: number },
  leaveOut: number,
  dayNumbers: Float64Array,
): Interval | null {
  const byBlock = cellTotals(readings, span, leaveOut, dayNumbers, BLOCKS_PER_DAY, (i) =>
    readings.flags[i] & FLAG.dayOnly ? null : Math.floor(secondOfDay(readings.at[i]) / (BLOCK_HOURS * 3600)),
  )
  const cells = [...byBlock.n.keys()].filter((cell) => total(byBlock.n[cell]) >= BALANCED_MIN_READINGS)
  if (cells.length === 0) return null
  return evenInterval(
    weightedMean(
      byBlock,
      cells.map((cell) => ({ cell, weight: 1 / cells.length })),
    ),
  )
}

/** 95 % interval, mg/dL, of the median of the readings at `indexes`; null on fewer than `FEWEST_DAYS` days. */
export function medianIntervalOf(
  readings: Readings,
  indexes: readonly number[],
  inflationOf?: typeof ofDaysApart,
): Interval | null {
  const values = new Float64Array(indexes.length)
  const days = new Float64Array(indexes.length)
  for (let i = 0; i < indexes.length; i++) {
    values[i] = readings.mgDl[indexes[i]]
    days[i] = dayOf(readings.at[indexes[i]])
  }
  return medianInterval(values, days, inflationOf)
}

/** The same of values, each of a calendar day; `inflationOf` for days with regular gaps. */
export function medianInterval(
  values: ArrayLike<number>,
  days: ArrayLike<number>,
  inflationOf?: typeof ofDaysApart,
): Interval | null {
  return distinctDays(days).length < FEWEST_DAYS ? null : medianEstimate(values, days, inflationOf).limits
}

/** 95 % interval in percent of the share of readings at `indexes` that are `held`; null on fewer than `FEWEST_DAYS` days. */
export function shareIntervalOf(
  readings: Readings,
  indexes: readonly number[],
  held: (index: number) => boolean,
): Interval | null {
  const estimate = shareEstimate(
    indexes.map(held),
    indexes.map((i) => dayOf(readings.at[i])),
  )
  return estimate === null ? null : sharePercent(estimate)
}

function sharePercent(share: ShareEstimate): Interval {
  const [low, high] = shareInterval(share)
  return [100 * low, 100 * high]
}
