import { twoSidedP } from './distributions'
import { errorByDays } from './errorByDays'
import type { Interval } from './wilson'

/** A mean of differences and how well it is known. */
export interface MeanDifference {
  readonly mean: number
  readonly ci95: Interval
  /** Two-sided, by Student's t with `df`. */
  readonly p: number
  readonly se: number
  readonly df: number
  /** How many days, or weeks. */
  readonly n: number
}

/**
 * The mean of differences, each of one day (or week) and every one weighing the same, with the likeness of neighbours taken
 * in (`errorByDays`); null of fewer than `fewest`. `at`: the day or week of each, ascending.
 */
export function meanDifference(
  differences: readonly number[],
  at: readonly number[],
  fewest: number,
): MeanDifference | null {
  const n = differences.length
  if (n < fewest) return null
  const mean = differences.reduce((sum, value) => sum + value, 0) / n
  return differenceFrom(
    mean,
    Float64Array.from(differences, (value) => (value - mean) / n),
    at,
  )
}

/** A difference from what each day contributes to its deviation. */
export function differenceFrom(
  mean: number,
  contributions: Float64Array,
  at: readonly number[],
): MeanDifference {
  const { se, df, q } = errorByDays(contributions, at)
  const p = mean === 0 ? 1 : se === 0 ? 0 : twoSidedP(mean / se, df)
  return { mean, ci95: [mean - q * se, mean + q * se], p, se, df, n: at.length }
}
