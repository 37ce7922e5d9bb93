import type { Interval } from './wilson'

/** A share, 0 to 1, and its interval. */
export interface ShareWithin {
  readonly share: number
  readonly limits: Interval
}

/**
 * 95 % interval of the difference of two shares, first - second, both limits -1 to 1, from the Wilson limits
 * of each. Method 10 of Newcombe, Stat Med 1998;17:873-890.
 */
export function newcombeInterval(first: ShareWithin, second: ShareWithin): Interval {
  const p = first.share
  const q = second.share
  return [
    p - q - Math.hypot(p - first.limits[0], second.limits[1] - q),
    p - q + Math.hypot(first.limits[1] - p, q - second.limits[0]),
  ]
}
