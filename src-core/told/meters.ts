import type { Analysis } from '../analysis/analysis'
import { FLAG, hasFlag } from '../log/readings'
import type { ClockOffset } from '../technique/clockOffsets'
import { roundHalfAway } from '../units/rounding'
import { FEWEST_PAIRS, type MeterPair } from '../technique/meterPairs'

/** Two meters with their pairs. */
export interface MeterPairTold extends MeterPair {
  /** Whether the pairs stand in the place of figures, which would rest on too few. */
  readonly few: boolean
  /** How the first reads beside the second on average, as it is printed. */
  readonly reads: 'alike' | 'lower' | 'higher'
  /** Pairs of which one is a step of a technique trial with something changed. */
  readonly withTrialSteps: number
  /** What the second shows where the first shows so much, mg/dL, by the line; empty without one. */
  readonly byLine: readonly { readonly firstMgDl: number; readonly secondMgDl: number }[]
}

function readsOf(differencePercent: number): MeterPairTold['reads'] {
  return differencePercent === 0 ? 'alike' : differencePercent < 0 ? 'lower' : 'higher'
}

/** Two meters whose clocks seem to differ. */
export interface ClocksTold extends Pick<ClockOffset, 'pairs' | 'justSo'> {
  /** Indexes into the logbook's meters. */
  readonly ahead: number
  readonly behind: number
  readonly minutes: number
}

export function clocksTold({ technique }: Analysis): readonly ClocksTold[] {
  return technique.clockOffsets.map(({ first, second, minutes, ...tests }) => ({
    ...tests,
    ...(minutes > 0 ? { ahead: second, behind: first } : { ahead: first, behind: second }),
    minutes: Math.abs(minutes),
  }))
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
      reads: readsOf(roundHalfAway(pair.meanDifferencePercent)),
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
