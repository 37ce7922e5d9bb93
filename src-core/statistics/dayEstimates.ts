import type { Readings } from '../log/readings'
import { dayOf } from '../units/wallClock'
import { type DayTotals, total } from './dayTotals'
import { type DayError, errorByDays, FEWEST_DAYS, type ofDaysApart } from './errorByDays'
import type { Estimate, MedianEstimate, ShareEstimate } from './estimates'
import { quantileR7 } from './quantile'

/** A period's figures with their errors. mg/dL; CV in percent; shares 0 to 1. */
export interface DayEstimates {
  readonly mean: Estimate
  readonly sd: Estimate
  readonly cvPercent: Estimate
  /** In the order of `SHARES`. */
  readonly shares: readonly ShareEstimate[]
}

/** Errors from what each day contributes to the figure; of two readings or more. */
export function dayEstimates(totals: DayTotals): DayEstimates {
  const { centre, sums, squares, dayNumbers } = totals
  const n = total(totals.n)
  const fromCentre = total(sums) / n
  const mean = centre + fromCentre
  const sd = Math.sqrt(Math.max(0, total(squares) - n * fromCentre ** 2) / (n - 1))
  const cv = (100 * sd) / mean
  const ofMean = totals.n.map((ofDay, day) => (sums[day] - ofDay * fromCentre) / n)
  const ofSd = totals.n.map((ofDay, day) => {
    if (sd === 0) return 0
    const around = squares[day] - 2 * fromCentre * sums[day] + ofDay * fromCentre ** 2
    return (around - ofDay * sd ** 2) / (2 * sd * (n - 1))
  })
  const ofCv = ofSd.map((value, day) => (sd === 0 ? 0 : cv * (value / sd - ofMean[day] / mean)))
  return {
    mean: { value: mean, error: errorByDays(ofMean, dayNumbers) },
    sd: { value: sd, error: errorByDays(ofSd, dayNumbers) },
    cvPercent: { value: cv, error: errorByDays(ofCv, dayNumbers) },
    shares: totals.counts.map((counts) => {
      const share = total(counts) / n
      const ofShare = counts.map((count, day) => (count - totals.n[day] * share) / n)
      return { value: share, n, error: errorByDays(ofShare, dayNumbers) }
    }),
  }
}

/** Counts and sums, mg/dL, of readings by cell and day; both lists hold a column of days for each cell. */
export interface CellTotals {
  readonly dayNumbers: ArrayLike<number>
  readonly n: readonly Float64Array[]
  readonly sums: readonly Float64Array[]
}

/**
 * Adds up the readings `[start, end)` without those that have a bit of `leaveOut` by the days `dayNumbers`, which are all of
 * theirs, and by cell: `cellOf` tells which, null for none.
 */
export function cellTotals(
  readings: Readings,
  { start, end }: { readonly start: number; readonly end: number },
  leaveOut: number,
  dayNumbers: Float64Array,
  cells: number,
  cellOf: (index: number) => number | null,
): CellTotals {
  const columns = () => Array.from({ length: cells }, () => new Float64Array(dayNumbers.length))
  const totals = { dayNumbers, n: columns(), sums: columns() }
  let day = -1
  for (let i = start; i < end; i++) {
    if (readings.flags[i] & leaveOut) continue
    if (day === -1 || dayOf(readings.at[i]) !== dayNumbers[day]) day++
    const cell = cellOf(i)
    if (cell === null) continue
    totals.n[cell][day]++
    totals.sums[cell][day] += readings.mgDl[i]
  }
  return totals
}

/** One cell alone, of the days with readings in it. */
export function daysOfCell({ dayNumbers, n, sums }: CellTotals, cell: number): CellTotals {
  const days = Array.from(n[cell].keys()).filter((day) => n[cell][day] > 0)
  const of = (column: ArrayLike<number>) => Float64Array.from(days, (day) => column[day])
  return { dayNumbers: of(dayNumbers), n: [of(n[cell])], sums: [of(sums[cell])] }
}

/** A cell and its weight; the weights of a mix add up to 1. */
export interface CellWeight {
  readonly cell: number
  readonly weight: number
}

/** The weighted mean, mg/dL, of the means of cells, none of them empty; the weights are taken as fixed. */
export function weightedMean({ dayNumbers, n, sums }: CellTotals, weights: readonly CellWeight[]): Estimate {
  let value = 0
  const contributions = new Float64Array(dayNumbers.length)
  for (const { cell, weight } of weights) {
    const all = total(n[cell])
    const mean = total(sums[cell]) / all
    value += weight * mean
    for (let day = 0; day < contributions.length; day++) {
      contributions[day] += (weight * (sums[cell][day] - n[cell][day] * mean)) / all
    }
  }
  return { value, error: errorByDays(contributions, dayNumbers) }
}

/** The share of what is held, each of a calendar day; null on fewer than `FEWEST_DAYS` of them. */
export function shareEstimate(held: readonly boolean[], days: readonly number[]): ShareEstimate | null {
  const dayNumbers = distinctDays(days)
  if (dayNumbers.length < FEWEST_DAYS) return null
  const placeOf = placesOfDays(dayNumbers)
  const n = held.length
  let all = 0
  for (const is of held) if (is) all++
  const value = all / n
  const contributions = new Float64Array(dayNumbers.length)
  for (let i = 0; i < n; i++) contributions[placeOf(days[i])] += ((held[i] ? 1 : 0) - value) / n
  return { value, n, error: errorByDays(contributions, dayNumbers) }
}

/**
 * The median of values, `dayOf[i]` the calendar day of the value `i`. Limits: the quantiles of type 7
 * at 0.5 by as much as the share of readings below the median is known to (those equal to it count half). Woodruff,
 * JASA 1952;47:635-646.
 */
export function medianEstimate(
  values: ArrayLike<number>,
  dayOf: ArrayLike<number>,
  inflationOf?: typeof ofDaysApart,
): MedianEstimate {
  const n = values.length
  // Plain loops: of a long log these are millions of values.
  const sorted = new Float64Array(n)
  for (let i = 0; i < n; i++) sorted[i] = values[i]
  sorted.sort()
  const value = quantileR7(sorted, 0.5) ?? NaN
  const isBelow = (i: number) => (values[i] < value ? 1 : values[i] === value ? 0.5 : 0)
  let below = 0
  for (let i = 0; i < n; i++) below += isBelow(i)
  const share = below / n
  const dayNumbers = distinctDays(dayOf)
  const placeOf = placesOfDays(dayNumbers)
  const contributions = new Float64Array(dayNumbers.length)
  for (let i = 0; i < n; i++) contributions[placeOf(dayOf[i])] += (isBelow(i) - share) / n
  const error = errorByDays(contributions, dayNumbers, inflationOf)
  const reach = error.q * error.se
  const at = (p: number) => quantileR7(sorted, Math.min(1, Math.max(0, p))) ?? NaN
  const limits = [at(0.5 - reach), at(0.5 + reach)] as const
  return { value, limits, error: inUnitOf(limits, error) }
}

/** The place of a day among these; quick where readings of one day follow one another. */
function placesOfDays(dayNumbers: readonly number[]): (day: number) => number {
  const places = new Map(dayNumbers.map((day, i) => [day, i]))
  let [last, place] = [NaN, NaN]
  return (day) => {
    if (day !== last) [last, place] = [day, places.get(day) ?? NaN]
    return place
  }
}

/** Each day once, ascending. */
export function distinctDays(days: ArrayLike<number>): readonly number[] {
  const seen = new Set<number>()
  let last = NaN
  for (let i = 0; i < days.length; i++) {
    // Readings of one day mostly follow one another.
    if (days[i] !== last) seen.add((last = days[i]))
  }
  return [...seen].sort((a, b) => a - b)
}

/** The error of the median itself, from its limits. */
function inUnitOf([low, high]: readonly [number, number], { q, df }: DayError): DayError {
  return { se: (high - low) / (2 * q), df, q }
}
