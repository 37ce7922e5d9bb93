import { tQuantile } from './distributions'

/** Below this many days with readings there is no interval (design choice: too few days to judge by). */
export const FEWEST_DAYS = 8

/** How much of a day's deviation the next day keeps, at most (design choice: more cannot be told from a trend). */
const MOST_LIKENESS = 0.8
/** Fewer pairs of neighbouring days tell nothing of their likeness (design choice). */
const FEWEST_PAIRS = 3
/** No quantile of fewer degrees of freedom (design choice: it would be wider than the data bear out). */
const FEWEST_DF = 3

/** How well a figure is known, in the figure's own unit. */
export interface DayError {
  readonly se: number
  /** Degrees of freedom: about the number of days that do not resemble each other, less one. */
  readonly df: number
  /** Quantile 0.975 of Student's t with `df`. */
  readonly q: number
}

/**
 * Standard error of a figure from what each day with readings contributes to its deviation: `contributions[i]` is that of
 * the calendar day `days[i]`; days ascend. Readings of one day belong together, and a day may resemble the next: the
 * variance between days (of clusters: Kish, Survey Sampling, 1965, section 6.4) times that of a first-order
 * autoregression, its coefficient corrected for the shortness of the series (Kendall, Biometrika 1954;41:403-404;
 * Bayley and Hammersley, J R Stat Soc Suppl 1946;8:184-197). `inflationOf`: `ofDaysApart` for days with regular gaps.
 */
export function errorByDays(
  contributions: Float64Array,
  days: ArrayLike<number>,
  inflationOf: (likeness: number, days: ArrayLike<number>) => number = ofDaysOnEnd,
): DayError {
  const k = contributions.length
  const centre = sumOf(contributions) / k
  const z = contributions.map((value) => value - centre)
  const squares = sumOf(z.map((value) => value * value))
  let products = 0
  let pairs = 0
  for (let i = 1; i < k; i++) {
    if (days[i] !== days[i - 1] + 1) continue
    products += z[i - 1] * z[i]
    pairs++
  }
  const r = pairs < FEWEST_PAIRS || squares === 0 ? 0 : products / pairs / (squares / k)
  const likeness = Math.min(MOST_LIKENESS, Math.max(0, r + (1 + 4 * r) / k))
  const inflation = inflationOf(likeness, days)
  const df = Math.max(FEWEST_DF, k / inflation - 1)
  return { se: Math.sqrt((k / (k - 1)) * squares * inflation), df, q: tQuantile(df) }
}

/** By how much likeness of neighbouring days inflates the variance of a figure of days on end. */
function ofDaysOnEnd(likeness: number): number {
  return (1 + likeness) / (1 - likeness)
}

/**
 * The same of days with the same gaps again and again, such as weekends: the sum of the autoregression's correlations over
 * all pairs of them; of days on end it tends to `ofDaysOnEnd`.
 */
export function ofDaysApart(likeness: number, days: ArrayLike<number>): number {
  let sum = 0
  for (let i = 0; i < days.length; i++) {
    for (let j = i + 1; j < days.length; j++) {
      const correlation = likeness ** (days[j] - days[i])
      if (correlation < NEGLIGIBLE) break
      sum += correlation
    }
  }
  return 1 + (2 * sum) / days.length
}
const NEGLIGIBLE = 1e-9

function sumOf(values: Float64Array): number {
  return values.reduce((sum, value) => sum + value, 0)
}
