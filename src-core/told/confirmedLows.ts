import type { Analysis, PeriodFigures } from '../analysis/analysis'
import type { ReasonTold } from './reasons'

/**
 * Indexes of the period's doubtful lows beside which, in the same episode, stands a low that is not doubtful: low it was,
 * and only how low is in doubt.
 */
export function confirmedLows(
  { marked, bracketed }: Pick<Analysis, 'marked' | 'bracketed'>,
  { lows }: Pick<PeriodFigures, 'lows'>,
): ReadonlySet<number> {
  const isDoubtful = (index: number) => marked.has(index) || bracketed.has(index)
  return new Set(
    lows.episodes.flatMap(({ members }) =>
      members.every(isDoubtful) ? [] : members.filter((index) => isDoubtful(index)),
    ),
  )
}

/** Whether the reasons against a low tell that already: two lows contradict each other. */
export function tellOfTwoLows(reasons: readonly ReasonTold[]): boolean {
  return reasons.some((reason) => reason.code === 'contradicted-by-repeat' && reason.counted === 'both')
}
