import type { Counted } from '../model/counted'
import type { Settings } from '../model/settings'
import { type HeldBack, heldBack, type HeldFigure, standsAt } from '../statistics/heldBack'
import type { MeasureName } from './comparison'

/** A measure that may not be set side by side: why, and the readings that are the reason. */
export interface HeldMeasure {
  readonly why: HeldBack
  readonly of: Counted
}

const FIGURE: Readonly<Partial<Record<MeasureName, HeldFigure>>> = {
  meanMgDl: 'mean',
  sdMgDl: 'spread',
  cvPercent: 'spread',
}

/** Why a measure of two periods is held back: one of them alone is reason enough; null where it is shown. */
export function heldMeasure(
  measure: MeasureName,
  periods: readonly Counted[],
  settings: Pick<Settings, 'targetPreset'>,
): HeldMeasure | null {
  const figure = FIGURE[measure]
  for (const of of periods) {
    if (measure === 'medianMgDl' && standsAt(0.5, of) !== 'number') return { why: 'markers', of }
    const why = figure === undefined ? null : heldBack(figure, of, settings)
    if (why !== null) return { why, of }
  }
  return null
}
