import type { Analysis } from '../analysis/analysis'
import { FLAG, hasFlag, isLow } from '../log/readings'
import type { FaultClassName, FaultDirection } from '../technique/notes/classes'
import type { ReasonAdvice } from '../technique/reasons/definition'
import { adviceOf, type DoubtReason } from '../technique/reasons/reasonTable'

/** What explains a doubtful reading. */
export type Explanation =
  | {
      readonly code: 'note' | 'note-or-low'
      readonly class: FaultClassName
      readonly direction: FaultDirection
    }
  | { readonly code: 'real-low' | 'low-either-way' | 'low-before-other' | 'low-after-other' }
  | ReasonAdvice['fits']
  | { readonly code: 'other-unit' | 'too-high' | 'too-low' }
  /** Null where the test that contradicts most came later: the low came before all the same. */
  | { readonly code: 'sugar-from-low'; readonly minutesAfter: number | null }
  | { readonly code: 'sugar-gone-later' | 'sugar-not-there-before'; readonly minutes: number }
  | {
      /** Water that a drop of the other test's glucose needs to read so low. */
      readonly code: 'wet-finger' | 'strip-not-filled'
      readonly waterPercent: number
      /** Where the other test was HI. */
      readonly atLeast: boolean
    }

/** What to do the next time; `usual` stands once above all readings. */
export type NextTime = 'usual' | 'low' | ReasonAdvice['next'] | 'recheck' | 'look-at-unit' | 'plan-for-highs'

/** Whether what stands above all doubtful readings says that already. */
export const isUsual = (next: NextTime) => next === 'usual' || next === 'low'

/** What best explains a doubtful reading, what else may (null: what usually stands beside the first), what to do. */
export interface ToldAdvice {
  readonly fits: Explanation
  readonly also: Explanation | null
  readonly next: NextTime
}

/** Explanations that name nothing of their reading but the minutes to its repeat, which its reason tells too. */
const SHARED = ['too-high', 'too-low', 'sugar-gone-later', 'sugar-not-there-before'] as const
export type SharedExplanation = (typeof SHARED)[number]

/** The explanation told once above readings instead of with each, or null: the commonest of those that two or more share. */
export function explainsSeveral(list: readonly (ToldAdvice | null)[]): SharedExplanation | null {
  const counted = SHARED.map((code) => ({ code, n: list.filter((advice) => isShared(advice, code)).length }))
  const commonest = counted.reduce((most, each) => (each.n > most.n ? each : most))
  return commonest.n >= 2 ? commonest.code : null
}

/** Whether this is all that would be told of a reading. */
export function isShared(advice: ToldAdvice | null, code: SharedExplanation | null): boolean {
  return advice !== null && advice.fits.code === code && advice.also === null && isUsual(advice.next)
}

/** A doubtful reading beside the repeat that contradicts it. */
export interface Contradiction {
  readonly mgDl: number
  readonly otherMgDl: number
  readonly otherIsHigh: boolean
  readonly otherIsLow: boolean
  readonly minutes: number
  readonly low: boolean
  /** Whether a low of the same set came before this reading. */
  readonly afterLow: boolean
}

/** A doubtful reading by itself. */
export interface DoubtedReading {
  readonly mgDl: number
  readonly low: boolean
  /** Whether it is HI. */
  readonly isHigh: boolean
}

/** Advice on a reading of the logbook; null where nothing fits. */
export function adviceOnReading(
  { readings, technique }: Analysis,
  index: number,
  reasons: readonly DoubtReason[],
): ToldAdvice | null {
  const contradiction = reasons.find((reason) => reason.code === 'contradicted-by-repeat')
  const isHigh = (i: number) => hasFlag(readings, i, FLAG.aboveRange)
  const reading = { mgDl: readings.mgDl[index], low: isLow(readings, index), isHigh: isHigh(index) }
  const set = technique.repeatSets.find(({ members }) => members.includes(index))
  const before = set ? set.members.slice(0, set.members.indexOf(index)) : []
  return adviceOn(
    reasons,
    reading,
    contradiction
      ? {
          ...reading,
          otherMgDl: contradiction.evidence.otherMgDl,
          otherIsHigh: isHigh(contradiction.evidence.other),
          otherIsLow: isLow(readings, contradiction.evidence.other),
          minutes: contradiction.evidence.minutes,
          afterLow: before.some((member) => isLow(readings, member)),
        }
      : null,
  )
}

/**
 * By what weighs most: its own note, then strips and meter, then direction and size beside the test that contradicts it,
 * then the value itself.
 */
export function adviceOn(
  reasons: readonly DoubtReason[],
  reading: DoubtedReading,
  contradiction: Contradiction | null,
): ToldAdvice | null {
  const byTests = contradiction !== null ? matchedAdvice(contradiction) : directionAdvice(reasons, reading)
  const isLowEitherWay = byTests?.fits.code === 'low-either-way'
  const note = reasons.find((reason) => reason.code === 'note-tells-of-technique')
  if (note !== undefined && fitsDirection(note.evidence.direction, reasons, reading.mgDl)) {
    const { class: of, direction } = note.evidence
    if (isLowEitherWay) return { ...byTests, also: { code: 'note', class: of, direction }, next: 'low' }
    if (reading.low) return { fits: { code: 'note-or-low', class: of, direction }, also: null, next: 'low' }
    return {
      fits: { code: 'note', class: of, direction },
      also: byTests?.fits ?? null,
      next: byTests?.next ?? 'usual',
    }
  }
  const equipment = reasons.map(adviceOf).find((advice) => advice !== null)
  if (equipment === undefined) return byTests
  if (isLowEitherWay) return { ...byTests, also: equipment.fits }
  if (reading.low) return { fits: { code: 'real-low' }, also: equipment.fits, next: 'low' }
  return { ...equipment, also: byTests?.fits ?? null }
}

/** A note of a wet finger explains no value that is too high beside the other tests. */
function fitsDirection(direction: FaultDirection, reasons: readonly DoubtReason[], mgDl: number): boolean {
  const side = sideOf(reasons, mgDl)
  return direction === 'either' || side === null || direction === side
}

/** Which way the reading lies from the tests that speak against it; null where none does. */
function sideOf(reasons: readonly DoubtReason[], mgDl: number): 'too-high' | 'too-low' | null {
  for (const { evidence } of reasons) {
    if ('otherMgDl' in evidence) return mgDl > evidence.otherMgDl ? 'too-high' : 'too-low'
    if ('expectedHighMgDl' in evidence) return mgDl > evidence.expectedHighMgDl ? 'too-high' : 'too-low'
  }
  return null
}

/** By direction where no repeat tells the size, or by the value itself. */
function directionAdvice(
  reasons: readonly DoubtReason[],
  { mgDl, low, isHigh }: DoubtedReading,
): ToldAdvice | null {
  if (low) return { fits: { code: 'real-low' }, also: null, next: 'low' }
  if (reasons.some(({ code }) => code === 'looks-like-other-unit')) {
    return { fits: { code: 'other-unit' }, also: null, next: 'look-at-unit' }
  }
  const side = sideOf(reasons, mgDl)
  return side && { fits: { code: side }, also: null, next: isHigh ? 'plan-for-highs' : 'usual' }
}

/** More water than this in a drop is hardly ever a damp finger (design choice). */
const DAMP_FINGER_PERCENT = 25

/**
 * By direction and size. Sugar on the skin: Hirose et al., Diabetes Care 2011;34:596-597; squeezing and unwashed hands:
 * Hortensius et al., Diabetes Care 2011;34:556-560; under-filled strips: Pfützner et al., J Diabetes Sci Technol
 * 2013;7:1522-1529; water: plain dilution.
 */
export function matchedAdvice(contradiction: Contradiction): ToldAdvice {
  const { mgDl, otherMgDl, otherIsHigh: atLeast, otherIsLow, minutes, low, afterLow } = contradiction
  if (low) {
    const code = otherIsLow ? 'low-either-way' : minutes > 0 ? 'low-before-other' : 'low-after-other'
    return { fits: { code }, also: null, next: 'low' }
  }
  if (mgDl >= otherMgDl) {
    if (afterLow) {
      const minutesAfter = minutes < 0 ? -minutes : null
      return { fits: { code: 'sugar-from-low', minutesAfter }, also: null, next: 'recheck' }
    }
    const code = minutes > 0 ? 'sugar-gone-later' : 'sugar-not-there-before'
    return { fits: { code, minutes: Math.abs(minutes) }, also: null, next: 'usual' }
  }
  const waterPercent = 100 * (1 - mgDl / otherMgDl)
  const code = waterPercent > DAMP_FINGER_PERCENT ? 'strip-not-filled' : 'wet-finger'
  return { fits: { code, waterPercent, atLeast }, also: null, next: 'usual' }
}
