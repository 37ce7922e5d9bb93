import type { TargetPreset } from '../reference/targetPreset'
import type { Summary } from './summary'

/** Below this many readings pages and window hold SD, CV and the estimated A1C back. */
export const FEWEST_READINGS = 15

/** What may be held back: `spread` is SD and CV. */
export type HeldFigure = 'spread' | 'estimated-a1c'

/** Why: too few readings; in pregnancy an A1C does not tell the glucose behind it. */
export type HeldBack = 'few-readings' | 'pregnancy'

/** Why pages and window do not show a figure of these readings at full size; null where they do. */
export function heldBack(
  figure: HeldFigure,
  { n }: Pick<Summary, 'n'>,
  { targetPreset }: { readonly targetPreset: TargetPreset | null },
): HeldBack | null {
  if (n < FEWEST_READINGS) return 'few-readings'
  return figure === 'estimated-a1c' && targetPreset === 'pregnancy' ? 'pregnancy' : null
}
