import type { Analysis, PeriodFigures } from '../analysis/analysis'
import type { LatestStretch } from '../day/latestStretch'
import type { Unprompted } from '../day/promptedTests'
import { metersOnPaper } from '../kit/metersOnPaper'
import type { DaySpan } from '../log/readings'
import { FEWEST_READINGS, hasManyMarkers } from '../statistics/heldBack'
import type { Interval } from '../statistics/wilson'
import { type NewMeter, newMeters } from '../technique/newMeters'

/** A new meter with the names of both on paper. */
export interface NewMeterTold extends Omit<NewMeter, 'meter' | 'other'> {
  readonly meter: string
  readonly other: string
}

/** What else must be known to read the numbers. */
export type BesideNumbers =
  /** No meter shows one value again and again. */
  | { readonly code: 'all-the-same'; readonly n: number }
  | { readonly code: 'new-meter'; readonly found: NewMeterTold }
  | { readonly code: 'latest'; readonly latest: LatestStretch }
  /** What was felt moved a figure by more than it is known to. */
  | { readonly code: 'unprompted'; readonly unprompted: Unprompted }

/** In the order in which they are told. */
export function besideNumbers(analysis: Analysis, figures: PeriodFigures): readonly BesideNumbers[] {
  const { latestStretch: latest, unprompted, asLogged } = figures
  return [
    ...(asLogged.n >= FEWEST_READINGS && asLogged.sdMgDl === 0 && !hasManyMarkers(asLogged)
      ? [{ code: 'all-the-same', n: asLogged.n } as const]
      : []),
    ...newMetersTold(analysis, figures).map((found) => ({ code: 'new-meter', found }) as const),
    ...(latest === null ? [] : [{ code: 'latest', latest } as const]),
    ...(unprompted !== null && isMovedBy(unprompted, figures)
      ? [{ code: 'unprompted', unprompted } as const]
      : []),
  ]
}

export function newMetersTold({ readings, technique }: Analysis, span: DaySpan): readonly NewMeterTold[] {
  const onPaper = metersOnPaper(readings.meters)
  return newMeters(readings, technique.meterPairs, span).map((found) => ({
    ...found,
    meter: onPaper[found.meter],
    other: onPaper[found.other],
  }))
}

/** Whether the figures of the tests that nothing prompted lie outside how well the period's are known. */
function isMovedBy(found: Unprompted, { intervals }: PeriodFigures): boolean {
  const { ci95 } = intervals.asLogged
  if (ci95 === null) return false
  const outside = (value: number, [low, high]: Interval) => value < low || value > high
  return outside(found.meanMgDl, ci95.meanMgDl) || outside(found.percentInTarget, ci95.percentInTarget)
}
