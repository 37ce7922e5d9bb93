import type { Settings } from '../analysis/settings'
import { FLAG, type Readings } from '../log/readings'
import { bootstrapByDays, type Ci95 } from './bootstrapByDays'
import { dayTotals } from './dayTotals'
import type { Summary } from './summary'
import { type Interval, wilsonPercent } from './wilson'

/** How well the figures of a summary are known. Percentages 0 to 100. */
export interface Intervals {
  /** By resampling whole days; null with too few days. */
  readonly ci95: Ci95 | null
  /** Wilson's, of the shares that are not resampled; null without readings and for a sensor's. */
  readonly percentBelow54: Interval | null
  readonly percentAbove250: Interval | null
}

/** 95 % intervals of `summary`, which sums up the readings `[start, end)` without those with a bit of `leaveOut`. */
export function intervalsOf(
  readings: Readings,
  start: number,
  end: number,
  summary: Summary,
  settings: Pick<Settings, 'targetLow' | 'targetHigh' | 'seed'>,
  leaveOut = 0,
): Intervals {
  const { n, mean, percentBelow54, percentAbove250 } = summary
  const totals = dayTotals(readings, { start, end }, leaveOut, settings, mean ?? 0)
  // A sensor's readings, minutes apart, are far from independent: Wilson's interval would be much too short.
  const sensor = n > 0 && isSensor(readings, start, end, leaveOut)
  const wilson = (percent: number | null) =>
    percent === null || sensor ? null : wilsonPercent(Math.round((percent * n) / 100), n)
  return {
    ci95: bootstrapByDays(totals, settings.seed),
    percentBelow54: wilson(percentBelow54),
    percentAbove250: wilson(percentAbove250),
  }
}

/** A low always counts: the intervals of the shares of lows are those of the log. */
export function withLowIntervalsOf(asLogged: Intervals, checked: Intervals): Intervals {
  const ci95 =
    checked.ci95 === null || asLogged.ci95 === null
      ? null
      : { ...checked.ci95, percentBelow70: asLogged.ci95.percentBelow70 }
  return { ...checked, ci95, percentBelow54: asLogged.percentBelow54 }
}

function isSensor({ flags }: Readings, start: number, end: number, leaveOut: number): boolean {
  for (let i = start; i < end; i++) if ((flags[i] & leaveOut) === 0 && flags[i] & FLAG.sensor) return true
  return false
}
