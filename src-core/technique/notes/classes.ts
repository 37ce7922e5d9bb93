/** Which way a fault of technique moves a reading. */
export type FaultDirection = 'too-high' | 'too-low' | 'either'

interface FaultClass {
  readonly direction: FaultDirection
  /** By how much the odds of a gross error in that direction grow once a note tells of it. */
  readonly odds: number
}

/**
 * The mistakes that a note may tell of. The odds are design choices in keeping with the sources named; where there is
 * none the direction alone is known (reviews: Ginsberg, J Diabetes Sci Technol 2009;3:903-913; Erbach et al., J Diabetes
 * Sci Technol 2016;10:1161-1168).
 */
export const FAULT_CLASSES = {
  // Fruit handled: 88 % of first drops off by 10 % or more against 4 % washed, odds ratio 176; unwashed 11 %, odds ratio 3
  // (Hortensius et al., Diabetes Care 2011;34:556-560). A note does not say that it was this very finger.
  'sugar-on-finger': { direction: 'too-high', odds: 40 },
  'unwashed-hands': { direction: 'too-high', odds: 3 },
  // One lotion +120 %, others nothing (Omengue et al., Eur Endocrinol 2018;14:44-46).
  'lotion-on-skin': { direction: 'too-high', odds: 4 },
  'wet-finger': { direction: 'too-low', odds: 5 },
  'alcohol-wet': { direction: 'too-low', odds: 5 },
  // A wipe alone leaves sugar on the skin (Hirose et al., Diabetes Care 2011;34:596-597).
  'alcohol-wipe-only': { direction: 'either', odds: 1.5 },
  // Most meters of today then err by more than 20 % or refuse (Pfützner et al., J Diabetes Sci Technol 2013;7:1522-1529).
  'small-drop': { direction: 'too-low', odds: 8 },
  // 5 to 13 % off by 10 % or more, either way (Hortensius).
  'squeezed-finger': { direction: 'either', odds: 2 },
  'cold-hands': { direction: 'too-low', odds: 2 },
  'expired-strip': { direction: 'either', odds: 3 },
  'shallow-prick': { direction: 'too-low', odds: 1.5 },
  // King, Eigenmann, Colagiuri, Diabet Med 1995;12:337-340.
  'cold-meter': { direction: 'too-low', odds: 3 },
  'hot-meter': { direction: 'too-high', odds: 3 },
} as const satisfies Record<string, FaultClass>

export type FaultClassName = keyof typeof FAULT_CLASSES

/** A mistake that a note tells of. */
export interface NoteFault {
  readonly class: FaultClassName
  readonly direction: FaultDirection
  /** The note's own words for it. */
  readonly word: string
}

/** What else bears on a test and is no mistake. */
export type NoteContext = 'repeat' | 'second-meter' | 'other-finger'

/** What a note tells of the measuring. */
export interface NoteTelling {
  readonly faults: readonly NoteFault[]
  readonly contexts: readonly NoteContext[]
  /** Hands washed or cleaned. */
  readonly washed: boolean
  /** Called a baseline, outright. */
  readonly baseline: boolean
}

export const TELLS_NOTHING: NoteTelling = { faults: [], contexts: [], washed: false, baseline: false }
