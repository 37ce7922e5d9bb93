import type { Counted } from '../model/counted'
import { type DaySpan, FLAG, type Readings, rangeOfDays } from '../log/readings'
import type { TargetPreset } from '../reference/targetPreset'
import { a1cPercentToMmolMol, type A1cRange, estimatedA1cPercent, estimatedA1cRange } from './estimatedA1c'
import { dayEstimates } from './dayEstimates'
import { dayTotals, total } from './dayTotals'
import { FEWEST_DAYS } from './errorByDays'
import { FEWEST_READINGS, hasManyMarkers } from './heldBack'
import type { Settings } from '../model/settings'

/** Haemoglobin is renewed over about three months. */
export const A1C_DAYS = 90
/** An A1C estimated from fewer days with readings would speak of months that nobody saw (design choice). */
export const FEWEST_A1C_DAYS = 14

/** The readings of the latest 90 days of a stretch, and the A1C that they let expect. */
export interface LatestA1c extends DaySpan, Counted {
  readonly daysWithReadings: number
  /** mg/dL; null without readings. */
  readonly meanMgDl: number | null
  /** Null where it is held back. */
  readonly estimate: {
    readonly percent: number
    readonly mmolMol: number
    /** Published range between people and sampling error together; a limit outside the table is null. */
    readonly rangePercent: A1cRange
  } | null
  /** Why there is no estimate; null where there is one. */
  readonly heldBack: 'markers' | 'few-readings' | 'few-days' | 'pregnancy' | null
}

/**
 * The A1C estimated from the readings of the latest 90 days of `span`, without those with a bit of `leaveOut`: `percent` by
 * the ADAG regression, its range the published one between people (Nathan et al., Diabetes Care 2008;31:1473) with the
 * error of the mean by days.
 */
export function latestA1c(
  readings: Readings,
  span: DaySpan,
  leaveOut: number,
  settings: Pick<Settings, 'targetLow' | 'targetHigh'> & { readonly targetPreset: TargetPreset | null },
): LatestA1c {
  const latest = { from: Math.max(span.from, span.to - A1C_DAYS + 1), to: span.to }
  const { start, end } = rangeOfDays(readings, latest)
  // Near the values, so that long sums keep their digits.
  const centre = start < end ? readings.mgDl[start] : 0
  const totals = dayTotals(readings, { start, end }, leaveOut, settings, centre)
  const n = total(totals.n)
  const meanMgDl = n === 0 ? null : centre + total(totals.sums) / n
  const markers = markersOf(readings, start, end, leaveOut)
  const told = { ...latest, n, ...markers, daysWithReadings: totals.days, meanMgDl }
  const why = reasonAgainst(told, settings)
  if (why !== null || meanMgDl === null) return { ...told, estimate: null, heldBack: why ?? 'few-readings' }
  const se = totals.days < FEWEST_DAYS ? 0 : dayEstimates(totals).mean.error.se
  const percent = estimatedA1cPercent(meanMgDl)
  return {
    ...told,
    estimate: {
      percent,
      mmolMol: a1cPercentToMmolMol(percent),
      rangePercent: estimatedA1cRange(meanMgDl, se),
    },
    heldBack: null,
  }
}

/** Whether the published table holds neither limit of the estimate's range. */
export function isOutsideTable({ estimate }: LatestA1c): boolean {
  return estimate !== null && estimate.rangePercent.every((limit) => limit === null)
}

function reasonAgainst(
  of: Counted & { readonly daysWithReadings: number },
  { targetPreset }: { readonly targetPreset: TargetPreset | null },
): LatestA1c['heldBack'] {
  if (hasManyMarkers(of)) return 'markers'
  if (targetPreset === 'pregnancy') return 'pregnancy'
  if (of.n < FEWEST_READINGS) return 'few-readings'
  return of.daysWithReadings < FEWEST_A1C_DAYS ? 'few-days' : null
}

function markersOf({ flags }: Readings, start: number, end: number, leaveOut: number) {
  let belowRange = 0
  let aboveRange = 0
  for (let i = start; i < end; i++) {
    if (flags[i] & leaveOut) continue
    if (flags[i] & FLAG.belowRange) belowRange++
    if (flags[i] & FLAG.aboveRange) aboveRange++
  }
  return { belowRange, aboveRange }
}
