import { FAULT_CLASSES, type FaultDirection, type NoteTelling } from '../notes/classes'
import type { NoteTellsOfTechnique } from '../technique'

/** The likeliest mistake that the reading's note tells of; null where it tells of none. */
export function noteTellsOfTechnique({ faults }: NoteTelling): NoteTellsOfTechnique | null {
  if (faults.length === 0) return null
  const fault = faults.reduce((best, other) =>
    FAULT_CLASSES[other.class].odds > FAULT_CLASSES[best.class].odds ? other : best,
  )
  return {
    code: 'note-tells-of-technique',
    evidence: { word: fault.word, class: fault.class, direction: fault.direction },
  }
}

/** No note makes a fault more than so much likelier. */
const MOST_ODDS = 100

/**
 * By how much a note raises the odds of a gross error upwards or downwards; 1 where it tells of none. For the doubt model.
 */
export function noteOdds({ faults }: NoteTelling, direction: Exclude<FaultDirection, 'either'>): number {
  const odds = faults
    .filter((fault) => fault.direction === direction || fault.direction === 'either')
    .reduce((product, fault) => product * FAULT_CLASSES[fault.class].odds, 1)
  return Math.min(MOST_ODDS, odds)
}
