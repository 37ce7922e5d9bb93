import { quantileSorted, quickselect } from 'simple-statistics'

/**
 * Quantile of values in ascending order, `p` from 0 to 1; null without values. Type 7 of Hyndman and Fan,
 * Am Stat 1996;50:361-365: position (n - 1) p, linear between neighbours.
 */
export function quantileR7(sorted: Float64Array, p: number): number | null {
  if (sorted.length === 0) return null
  // The library's declaration names number[]; it reads nothing but the length and the elements.
  return quantileSorted(sorted as unknown as number[], p)
}

/** Moves values so that those at the places, which ascend, stand where they would if all were in ascending order. */
export function orderedAt(values: Float64Array, places: readonly number[]): void {
  let from = 0
  for (const place of places) {
    if (place < from) continue
    quickselect(values as unknown as number[], place, from)
    from = place + 1
  }
}
