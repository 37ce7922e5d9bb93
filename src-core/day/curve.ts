import { FLAG, type Readings } from '../log/readings'
import { MINUTES_PER_DAY, secondOfDay } from '../units/wallClock'

/** The smoothed day at one minute of the clock; quantiles null where too few readings lie near. mg/dL. */
export interface CurvePoint {
  /** 0, 15, ... 1425. */
  readonly minute: number
  /** How many equally weighted readings would tell as much: (sum of weights)^2 / sum of their squares. */
  readonly effectiveN: number
  readonly p10: number | null
  readonly q1: number | null
  readonly median: number | null
  readonly q3: number | null
  readonly p90: number | null
}

/** Distance of the curve's points, minutes. */
export const CURVE_STEP_MINUTES = 15
/** Fewer effective readings say nothing about quantiles. */
export const CURVE_LEAST_EFFECTIVE_N = 5
/** The bandwidth reaches the k-th nearest reading, k twice the root of all, within these limits (design choice). */
export const BANDWIDTH_MINUTES = { least: 30, most: 90 } as const

/**
 * Quantiles by time of day, the day a circle, of the readings `[start, end)` without those that have a bit of
 * `skipped` or no clock time. Weights: Epanechnikov kernel in whole minutes; its bandwidth reaches the k-th
 * nearest reading (Loftsgaarden and Quesenberry, Ann Math Stat 1965;36:1049-1051), so that it is narrow where
 * testing is dense. Quantiles: type 7 carried over to weights (Akinshin, Weighted quantile estimators, 2023,
 * arXiv:2304.07265): with equal weights they are those of type 7.
 */
export function dayCurve(readings: Readings, start: number, end: number, skipped: number): CurvePoint[] {
  const day = byMinute(readings, start, end, skipped | FLAG.dayOnly)
  const weights = new Float64Array(day.values.length)
  return Array.from({ length: MINUTES_PER_DAY / CURVE_STEP_MINUTES }, (_, step) =>
    pointAt(step * CURVE_STEP_MINUTES, day, weights),
  )
}

/** The readings in order of their minute of the day. */
interface ReadingsByMinute {
  readonly n: number
  /** Where each minute's readings begin; one more than minutes. */
  readonly begins: Uint32Array
  /** Place of each reading's value in `values`. */
  readonly ranks: Uint32Array
  /** The distinct values, ascending. */
  readonly values: Float64Array
}

function byMinute(readings: Readings, start: number, end: number, skipped: number): ReadingsByMinute {
  const minuteOf = (i: number) => Math.floor(secondOfDay(readings.at[i]) / 60)
  const begins = new Uint32Array(MINUTES_PER_DAY + 1)
  const distinct = new Set<number>()
  for (let i = start; i < end; i++) {
    if (readings.flags[i] & skipped) continue
    begins[minuteOf(i) + 1]++
    distinct.add(readings.mgDl[i])
  }
  for (let minute = 0; minute < MINUTES_PER_DAY; minute++) begins[minute + 1] += begins[minute]
  const values = Float64Array.from(distinct).sort()
  const rankOf = new Map(Array.from(values, (value, rank) => [value, rank]))
  const ranks = new Uint32Array(begins[MINUTES_PER_DAY])
  const next = begins.slice()
  for (let i = start; i < end; i++) {
    if (readings.flags[i] & skipped) continue
    ranks[next[minuteOf(i)]++] = rankOf.get(readings.mgDl[i]) ?? 0
  }
  return { n: ranks.length, begins, ranks, values }
}

function pointAt(minute: number, day: ReadingsByMinute, weights: Float64Array): CurvePoint {
  const bandwidth = bandwidthAt(minute, day)
  weights.fill(0)
  let sum = 0
  let squares = 0
  for (let offset = 1 - bandwidth; offset < bandwidth; offset++) {
    const weight = 1 - (offset / bandwidth) ** 2
    const at = (minute + offset + MINUTES_PER_DAY) % MINUTES_PER_DAY
    for (let i = day.begins[at]; i < day.begins[at + 1]; i++) {
      weights[day.ranks[i]] += weight
      sum += weight
      squares += weight * weight
    }
  }
  const effectiveN = sum === 0 ? 0 : (sum * sum) / squares
  const quantile = (p: number) =>
    // The sums carry rounding errors: five readings of equal weight are five.
    effectiveN < CURVE_LEAST_EFFECTIVE_N - 1e-9
      ? null
      : weightedQuantile(day.values, weights, sum, effectiveN, p)
  return {
    minute,
    effectiveN,
    p10: quantile(0.1),
    q1: quantile(0.25),
    median: quantile(0.5),
    q3: quantile(0.75),
    p90: quantile(0.9),
  }
}

/** Minutes from `minute` around the clock to the k-th nearest reading, within the limits. */
function bandwidthAt(minute: number, { n, begins }: ReadingsByMinute): number {
  const wanted = Math.round(2 * Math.sqrt(n))
  const countAt = (offset: number) => {
    const at = (minute + offset + MINUTES_PER_DAY) % MINUTES_PER_DAY
    return begins[at + 1] - begins[at]
  }
  let reached = countAt(0)
  let distance = 0
  while (reached < wanted && distance < BANDWIDTH_MINUTES.most) {
    distance++
    reached += countAt(distance) + countAt(-distance)
  }
  return Math.max(distance, BANDWIDTH_MINUTES.least)
}

/**
 * Quantile of ascending values with weights: the mean of their step function over a window of 1 / n around p,
 * n the effective number.
 */
function weightedQuantile(
  values: Float64Array,
  weights: Float64Array,
  sum: number,
  n: number,
  p: number,
): number {
  const from = ((n - 1) * p) / n
  const share = (u: number) => Math.min(1, Math.max(0, (u - from) * n))
  let result = 0
  let before = 0
  let cumulated = 0
  let last = 0
  for (let rank = 0; rank < values.length; rank++) {
    if (weights[rank] === 0) continue
    cumulated += weights[rank]
    const reached = share(cumulated / sum)
    result += values[rank] * (reached - before)
    before = reached
    last = values[rank]
    if (reached === 1) break
  }
  // What rounding leaves of the window belongs to the highest value reached.
  return result + last * (1 - before)
}
