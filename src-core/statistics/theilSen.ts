import { twoSidedNormalP } from './distributions'
import { Z95 } from '../reference/meter'
import { orderedAt, quantileR7 } from './quantile'

export interface Slope {
  /** Per unit of x. */
  readonly slope: number
  /** 95 % interval. */
  readonly ci95: readonly [number, number]
  /** Two-sided p of Kendall's test for a trend, normal approximation with continuity correction. */
  readonly p: number
}

/**
 * Median of the slopes between all pairs of points with different x, and its interval from the variance of
 * Kendall's S with ties; null where all x are equal. Theil, Indag Math 1950;12:85-91; Sen, JASA
 * 1968;63:1379-1389.
 */
export function theilSenSlope(x: ArrayLike<number>, y: ArrayLike<number>): Slope | null {
  const n = x.length
  const slopes = new Float64Array((n * (n - 1)) / 2)
  let pairs = 0
  for (let i = 0; i < n; i++) {
    for (let j = i + 1; j < n; j++) {
      if (x[i] !== x[j]) slopes[pairs++] = (y[j] - y[i]) / (x[j] - x[i])
    }
  }
  if (pairs === 0) return null
  const found = slopes.subarray(0, pairs)
  const variance = (term(n) - tied(x) - tied(y)) / 18
  const reach = Z95 * Math.sqrt(Math.max(0, variance))
  const lower = Math.max(0, Math.round((pairs - reach) / 2) - 1)
  const upper = Math.min(pairs - 1, Math.round((pairs + reach) / 2))
  orderedAt(found, [lower, (pairs - 1) >> 1, pairs >> 1, upper])
  let rising = 0
  let falling = 0
  for (const slope of found) {
    if (slope > 0) rising++
    else if (slope < 0) falling++
  }
  const z = Math.max(0, Math.abs(rising - falling) - 1) / Math.sqrt(variance)
  return {
    slope: quantileR7(found, 0.5) ?? NaN,
    ci95: [found[lower], found[upper]],
    p: variance > 0 ? twoSidedNormalP(z) : 1,
  }
}

function term(n: number): number {
  return n * (n - 1) * (2 * n + 5)
}

function tied(values: ArrayLike<number>): number {
  const counts = new Map<number, number>()
  for (let i = 0; i < values.length; i++) counts.set(values[i], (counts.get(values[i]) ?? 0) + 1)
  return [...counts.values()].reduce((sum, count) => sum + term(count), 0)
}
