import { wilsonInterval } from './wilson'

/** A count out of `n`. */
export interface Share {
  readonly count: number
  readonly n: number
}

/**
 * 95 % interval of the difference of two shares, first - second, both limits -1 to 1, from the Wilson limits
 * of each; null where either n is 0. Method 10 of Newcombe, Stat Med 1998;17:873-890.
 */
export function newcombeInterval(first: Share, second: Share): readonly [number, number] | null {
  const a = wilsonInterval(first.count, first.n)
  const b = wilsonInterval(second.count, second.n)
  if (a === null || b === null) return null
  const p = first.count / first.n
  const q = second.count / second.n
  return [p - q - Math.hypot(p - a[0], b[1] - q), p - q + Math.hypot(a[1] - p, q - b[0])]
}
