import { isLow, isMarker, loggedUnit, type Readings } from '../log/readings'
import { isTyped } from '../log/typedByHand'
import type { ContradictedByRepeat } from '../technique/reasons/contradictedByRepeat'
import type { LooksLikeControlSolution } from '../technique/reasons/looksLikeControlSolution'
import type { LooksLikeOtherUnit } from '../technique/reasons/looksLikeOtherUnit'
import type { DoubtReason } from '../technique/reasons/reasonTable'
import type { GlucoseUnit } from '../units/glucose'

/** Why a reading is doubted, as it is told. */
export type ReasonTold =
  | Exclude<DoubtReason, ContradictedByRepeat | LooksLikeControlSolution | LooksLikeOtherUnit>
  | ContradictionTold
  /** A note calls it so, or it has the value of a control test with this range, mg/dL. */
  | { readonly code: 'control-solution-noted' }
  | { readonly code: 'control-solution-value'; readonly rangeMgDl: readonly [number, number] }
  | (LooksLikeOtherUnit & { readonly other: GlucoseUnit })
  /** The tests around it fit it badly, though none contradicts it outright. */
  | { readonly code: 'fits-badly' }

/** Two repeats that cannot both be right. */
export interface ContradictionTold {
  readonly code: 'contradicted-by-repeat'
  /** Indexes in order of time, and that of the test that contradicts. */
  readonly first: number
  readonly second: number
  readonly other: number
  readonly minutes: number
  readonly allowedMgDl: number
  /** Whether a higher test came after a low: it may carry sugar that the low was treated with. */
  readonly afterLow: boolean
  /** Which of the two is a low, counted whatever the doubt; of both only how low is in doubt. */
  readonly counted: 'this' | 'other' | 'both' | null
  readonly ofTwoMeters: boolean
  /** Whether one of them is HI or LO: they differ by more than the printed limits do. */
  readonly atLeast: boolean
}

/** The reasons against the reading `index`; never none. */
export function reasonsTold(
  reasons: readonly DoubtReason[],
  readings: Readings,
  index: number,
): readonly ReasonTold[] {
  if (reasons.length === 0) return [{ code: 'fits-badly' }]
  return reasons.map((reason): ReasonTold => {
    if (reason.code === 'contradicted-by-repeat') return contradictionTold(reason, readings, index)
    if (reason.code === 'looks-like-other-unit') {
      return { ...reason, other: loggedUnit(readings, index) === 'mg/dL' ? 'mmol/L' : 'mg/dL' }
    }
    if (reason.code !== 'looks-like-control-solution') return reason
    const { tagged, rangeLowMgDl, rangeHighMgDl } = reason.evidence
    return tagged || rangeLowMgDl === undefined || rangeHighMgDl === undefined
      ? { code: 'control-solution-noted' }
      : { code: 'control-solution-value', rangeMgDl: [rangeLowMgDl, rangeHighMgDl] }
  })
}

/** The same without the words of the note that they quote. */
export function withoutNoteWords(reasons: readonly ReasonTold[]): readonly ReasonTold[] {
  return reasons.map((reason) =>
    reason.code === 'note-tells-of-technique'
      ? { ...reason, evidence: { ...reason.evidence, word: '' } }
      : reason,
  )
}

function contradictionTold(
  { code, evidence: { other, minutes, allowedMgDl } }: ContradictedByRepeat,
  readings: Readings,
  index: number,
): ContradictionTold {
  const [first, second] = minutes < 0 ? [other, index] : [index, other]
  const [low, otherIsLow] = [isLow(readings, index), isLow(readings, other)]
  const afterLow = isLow(readings, first) && readings.mgDl[second] > readings.mgDl[first]
  return {
    ...{ code, first, second, other, allowedMgDl, afterLow },
    minutes: Math.abs(minutes),
    counted: low ? (otherIsLow ? 'both' : 'this') : otherIsLow ? 'other' : null,
    ofTwoMeters:
      readings.meter[index] !== readings.meter[other] &&
      !isTyped(readings, index) &&
      !isTyped(readings, other),
    atLeast: isMarker(readings, index) || isMarker(readings, other),
  }
}
