import type { Counted } from '../model/counted'

/** Below this many readings pages and window hold SD, CV and the estimated A1C back. */
export const FEWEST_READINGS = 15

/** Below this many readings of a block of hours a median of them says little. */
export const FEWEST_BLOCK_READINGS = 10

/** Readings of fewer days tell of those days, not of the hours of a usual day (design choice). */
export const FEWEST_BLOCK_DAYS = 3

/** Whether a block of hours has too few readings, or readings of too few days, for its figures to be shown. */
export function isHardlyTested({ n, days }: { readonly n: number; readonly days: number }): boolean {
  return n < FEWEST_BLOCK_READINGS || days < FEWEST_BLOCK_DAYS
}

/** Above this share of HI and LO among the readings, every figure that takes their limits for values is held back. */
export const MOST_MARKERS_SHARE = 0.1

/** Whether HI and LO are too many of the readings for a mean, an SD, a trend. */
export function hasManyMarkers({ n, belowRange, aboveRange }: Counted): boolean {
  return belowRange + aboveRange > MOST_MARKERS_SHARE * n
}

/**
 * What stands at a quantile of type 7: a number, or a marker whose limit is no value; `between` of LO and HI. LO lie below
 * all numbers, HI above them.
 */
export function standsAt(
  quantile: number,
  { n, belowRange, aboveRange }: Counted,
): 'number' | 'LO' | 'HI' | 'between' {
  const place = (n - 1) * quantile
  const low = Math.floor(place) < belowRange
  const high = Math.ceil(place) >= n - aboveRange
  if (low && high) return 'between'
  return low ? 'LO' : high ? 'HI' : 'number'
}
