import type { Analysis, PeriodFigures } from './analysis'
import type { Comparison } from '../compare/comparison'

/** A comparison with its periods as they stand on paper: earlier, later, whichever was named first. */
export interface PeriodsInOrder {
  readonly comparison: Comparison
  readonly earlier: PeriodFigures
  readonly later: PeriodFigures
  readonly firstIsLater: boolean
}

/** Null where one period was asked for. */
export function periodsInOrder({ comparison, periods }: Analysis): PeriodsInOrder | null {
  if (comparison === null) return null
  const [first, second] = periods
  const firstIsLater = first.from > second.from || (first.from === second.from && first.to > second.to)
  return firstIsLater
    ? { comparison, earlier: second, later: first, firstIsLater }
    : { comparison, earlier: first, later: second, firstIsLater }
}
