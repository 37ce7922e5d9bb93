import type { Counted } from '../model/counted'
import type { Settings } from '../model/settings'
import { type DaySpan, type Readings, rangeOfDays } from '../log/readings'
import { dayEstimates } from '../statistics/dayEstimates'
import { type DayTotals, dayTotals, SHARES, total } from '../statistics/dayTotals'
import { FEWEST_DAYS } from '../statistics/errorByDays'
import { differenceInterval } from '../statistics/estimates'
import { hasManyMarkers } from '../statistics/heldBack'
import type { DayNumber } from '../units/wallClock'
import { medianOf } from './week'

/** Of a longer period the latest days stand beside the whole (design choices). */
export const LONG_PERIOD_DAYS = 90
export const LATEST_DAYS = 30

/** The latest 30 days of a long period, and the days before them. mg/dL, percent. */
export interface LatestStretch extends DaySpan {
  readonly n: number
  readonly daysWithReadings: number
  readonly meanMgDl: number
  readonly percentInTarget: number
  readonly readingsBelow70: number
  readonly before: {
    readonly meanMgDl: number
    readonly percentInTarget: number
    /** Latest mean - mean before. */
    readonly differenceCi95: readonly [number, number]
    /** The first day of the weeks on end, up to the last, that are nearer to the latest level; null where no change is clear. */
    readonly changedSince: DayNumber | null
  }
}

/** Null of a period of 90 days or fewer, where either stretch has too few days, or where too many readings are HI or LO. */
export function latestStretch(
  readings: Readings,
  span: DaySpan,
  leaveOut: number,
  settings: Pick<Settings, 'targetLow' | 'targetHigh'>,
  markers: Counted,
): LatestStretch | null {
  if (span.to - span.from + 1 <= LONG_PERIOD_DAYS || hasManyMarkers(markers)) return null
  const latest = { from: span.to - LATEST_DAYS + 1, to: span.to }
  const totalsOf = (of: DaySpan) => {
    const { start, end } = rangeOfDays(readings, of)
    return dayTotals(readings, { start, end }, leaveOut, settings, start < end ? readings.mgDl[start] : 0)
  }
  const own = totalsOf(latest)
  const earlier = totalsOf({ from: span.from, to: latest.from - 1 })
  if (Math.min(own.days, earlier.days) < FEWEST_DAYS) return null
  const [a, b] = [dayEstimates(own), dayEstimates(earlier)]
  const ci95 = differenceInterval(a.mean, b.mean)
  const isClear = ci95[0] > 0 || ci95[1] < 0
  return {
    ...latest,
    n: total(own.n),
    daysWithReadings: own.days,
    meanMgDl: a.mean.value,
    percentInTarget: shareOf(own, 'percentInTarget'),
    readingsBelow70: total(own.counts[SHARES.indexOf('percentBelow70')]),
    before: {
      meanMgDl: b.mean.value,
      percentInTarget: shareOf(earlier, 'percentInTarget'),
      differenceCi95: ci95,
      changedSince: isClear ? changedSince(earlier, own, a.mean.value, b.mean.value) : null,
    },
  }
}

function shareOf(totals: DayTotals, share: (typeof SHARES)[number]): number {
  return (100 * total(totals.counts[SHARES.indexOf(share)])) / total(totals.n)
}

const DAYS_OF_A_WEEK = 7

/** Weeks back from the last day whose median of daily means is nearer to the latest level than to the one before. */
function changedSince(earlier: DayTotals, own: DayTotals, level: number, before: number): DayNumber {
  const days = [earlier, own].flatMap(({ dayNumbers, sums, n, centre }) =>
    Array.from(dayNumbers, (day, i) => ({ day, mean: centre + sums[i] / n[i] })),
  )
  const last = days[days.length - 1].day
  let since = own.dayNumbers[0]
  for (let end = last; end >= days[0].day; end -= DAYS_OF_A_WEEK) {
    const week = days.filter(({ day }) => day > end - DAYS_OF_A_WEEK && day <= end)
    const median = medianOf(week.map(({ mean }) => mean))
    // An untested week tells nothing.
    if (median === null) continue
    if (Math.abs(median - level) > Math.abs(median - before)) break
    since = week[0].day
  }
  return since
}
