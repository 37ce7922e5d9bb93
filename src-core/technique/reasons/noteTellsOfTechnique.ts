import { FAULT_CLASSES, type FaultClassName, type FaultDirection, type NoteTelling } from '../notes/classes'
import type { ReasonDefinition } from './definition'

/** What the reading's own note or tag tells. */
export interface NoteTellsOfTechnique {
  readonly code: 'note-tells-of-technique'
  readonly evidence: {
    /** The note's own words; '' where they are not to be told. */
    readonly word: string
    readonly class: FaultClassName
    readonly direction: FaultDirection
  }
}

export const NOTE_TELLS_OF_TECHNIQUE: ReasonDefinition<NoteTellsOfTechnique> = {
  code: 'note-tells-of-technique',
  standsAlone: false,
  // Sugar on the finger would hide a low, not make one.
  mayFlagLow: ({ direction }) => direction !== 'too-high',
  finder: (known) => (index) => noteTellsOfTechnique(known.telling(index)),
}

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

/** What a note of washed hands leaves of the odds of an error it tells nothing of (design choice). */
const WASHED_ODDS = 0.3

/**
 * By how much a note raises the odds of a gross error upwards or downwards; 1 where it tells nothing, less where hands
 * were washed. For the doubt model.
 */
export function noteOdds(
  { faults, washed }: NoteTelling,
  direction: Exclude<FaultDirection, 'either'>,
): number {
  const told = faults.filter((fault) => fault.direction === direction || fault.direction === 'either')
  if (told.length === 0) return washed ? WASHED_ODDS : 1
  const odds = told.reduce((product, fault) => product * FAULT_CLASSES[fault.class].odds, 1)
  return Math.min(MOST_ODDS, odds)
}
