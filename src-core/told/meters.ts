import type { Analysis } from '../analysis/analysis'
import { FLAG, hasFlag } from '../log/readings'
import { FEWEST_PAIRS, type MeterPair } from '../technique/meterPairs'

/** Two meters with their pairs. */
export interface MeterPairTold extends MeterPair {
  /** Whether the pairs stand in the place of figures, which would rest on too few. */
  readonly few: boolean
  /** Pairs of which one is a step of a technique trial with something changed. */
  readonly withTrialSteps: number
  /** What the second shows where the first shows so much, mg/dL, by the line; empty without one. */
  readonly byLine: readonly { readonly firstMgDl: number; readonly secondMgDl: number }[]
}

/** Two meters each that have pairs; of more, those with most (design choice). */
const MOST_LISTED = 12
const LINE_AT_MG_DL = [100, 200]

export function meterPairsTold({ readings, technique }: Analysis): readonly MeterPairTold[] {
  return [...technique.meterPairs]
    .sort((a, b) => b.pairs.length - a.pairs.length)
    .slice(0, MOST_LISTED)
    .map((pair) => ({
      ...pair,
      few: pair.pairs.length < FEWEST_PAIRS,
      withTrialSteps: pair.pairs.filter((two) =>
        two.some((index) => hasFlag(readings, index, FLAG.changedConditions)),
      ).length,
      byLine: LINE_AT_MG_DL.flatMap((firstMgDl) =>
        pair.line === null
          ? []
          : [{ firstMgDl, secondMgDl: pair.line.intercept + pair.line.slope * firstMgDl }],
      ),
    }))
}
