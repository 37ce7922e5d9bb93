import type { Counted } from '../model/counted'
import type { TargetPreset } from '../reference/targetPreset'

/** Below this many readings pages and window hold SD, CV and the estimated A1C back. */
export const FEWEST_READINGS = 15

/** Above this share of HI and LO among the readings, every figure that takes their limits for values is held back. */
export const MOST_MARKERS_SHARE = 0.1

/** What may be held back: `spread` is SD and CV. */
export type HeldFigure = 'mean' | 'spread' | 'estimated-a1c'

/**
 * Why: too many of the readings are no numbers; too few readings; in pregnancy an A1C does not tell the glucose behind it.
 */
export type HeldBack = 'markers' | 'few-readings' | 'pregnancy'

/** Why pages and window do not show a figure of these readings at full size; null where they do. */
export function heldBack(
  figure: HeldFigure,
  of: Counted,
  { targetPreset }: { readonly targetPreset: TargetPreset | null },
): HeldBack | null {
  if (hasManyMarkers(of)) return 'markers'
  if (figure === 'mean') return null
  if (of.n < FEWEST_READINGS) return 'few-readings'
  return figure === 'estimated-a1c' && targetPreset === 'pregnancy' ? 'pregnancy' : null
}

/**
 * The same of readings some of which were left out: HI that were left out as doubtful are no reason to show a mean of the
 * rest that all of them would not give.
 */
export function heldBackOfChecked(
  figure: HeldFigure,
  checked: Counted,
  asLogged: Counted,
  settings: { readonly targetPreset: TargetPreset | null },
): HeldBack | null {
  return hasManyMarkers(asLogged) ? 'markers' : heldBack(figure, checked, settings)
}

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
