import type { Analysis, PeriodFigures } from '../analysis/analysis'
import { isLow } from '../log/readings'
import { readNote } from '../technique/notes/readNote'
import { contradictions } from '../technique/reasons/contradictedByRepeat'
import { noteTellsOfTechnique } from '../technique/reasons/noteTellsOfTechnique'
import type { RepeatSet } from '../technique/technique'
import { doubtfulTold } from './doubtfulReadings'
import { type ReasonTold, reasonsTold } from './reasons'

/** Sets that are listed; of more, the latest. */
const MOST_SETS = 40

/** The repeat sets whose tests cannot all be right. */
export interface DisagreeingTold {
  readonly all: number
  /** Those that the period's doubtful readings show. */
  readonly above: number
  /** The latest others, in order of time, and how many came before them. */
  readonly sets: readonly RepeatSet[]
  readonly earlier: number
}

export function disagreeingSets(analysis: Analysis, period: PeriodFigures): DisagreeingTold {
  const all = analysis.technique.repeatSets.filter((set) => !set.agree)
  const { shown: withPicture, listed } = doubtfulTold(analysis, period)
  const shown = new Set([...withPicture, ...listed].map(({ index }) => index))
  const others = all.filter(({ members }) => !members.some((index) => shown.has(index)))
  return {
    all: all.length,
    above: all.length - others.length,
    sets: others.slice(-MOST_SETS),
    earlier: Math.max(0, others.length - MOST_SETS),
  }
}

/**
 * Of a set with a low and no marked member, which stands nowhere else: that the low and a test beside it cannot both be
 * right. Null of another set.
 */
export function contradictedLow(
  { readings, marked }: Analysis,
  { members, holdsLow }: RepeatSet,
): { readonly index: number; readonly reasons: readonly ReasonTold[] } | null {
  if (!holdsLow || members.some((index) => marked.has(index))) return null
  const told = contradictions(readings, members)
  const place = members.findIndex((index, i) => isLow(readings, index) && told[i] !== null)
  const reason = told[place]
  if (!reason) return null
  const index = members[place]
  const note = noteTellsOfTechnique(readNote(readings.note(index)))
  return { index, reasons: reasonsTold(note === null ? [reason] : [reason, note], readings, index) }
}
