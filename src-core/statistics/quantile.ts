import { quantileSorted } from 'simple-statistics'

/**
 * Quantile of values in ascending order, `p` from 0 to 1; null without values. Type 7 of Hyndman and Fan,
 * Am Stat 1996;50:361-365: position (n - 1) p, linear between neighbours.
 */
export function quantileR7(sorted: Float64Array, p: number): number | null {
  if (sorted.length === 0) return null
  // The library's declaration names number[]; it reads nothing but the length and the elements.
  return quantileSorted(sorted as unknown as number[], p)
}
