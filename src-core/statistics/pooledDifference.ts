import { twoSidedP } from './distributions'
import { mean, sampleSd } from './moments'

/** Fewer values of either kind are not held against each other (design choice). */
export const FEWEST_OF_A_KIND = 4

/**
 * p of values of one kind being higher than those of another, one-sided: Student's t of two independent samples with one
 * variance; null below `FEWEST_OF_A_KIND` of either. Student, Biometrika 1908;6:1-25.
 */
export function higherP(values: readonly number[], others: readonly number[]): number | null {
  const [a, b] = [Float64Array.from(values), Float64Array.from(others)]
  if (Math.min(a.length, b.length) < FEWEST_OF_A_KIND) return null
  const difference = (mean(a) ?? NaN) - (mean(b) ?? NaN)
  const df = a.length + b.length - 2
  const squares = (a.length - 1) * (sampleSd(a) ?? NaN) ** 2 + (b.length - 1) * (sampleSd(b) ?? NaN) ** 2
  const se = Math.sqrt((squares / df) * (1 / a.length + 1 / b.length))
  if (se === 0) return difference > 0 ? 0 : 1
  const half = twoSidedP(difference / se, df) / 2
  return difference > 0 ? half : 1 - half
}
