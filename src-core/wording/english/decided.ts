import type { GlucoseUnit } from '../../units/glucose'
import { count } from './numbers'

export const DECIDED_TITLE = 'Decided by the person'
export const DECIDED_INTRODUCTION =
  'The person’s own decisions count for more than the program’s marks. A low stays among the lows whatever was decided.'

/** What was decided, in words; of a low that it still counts. */
export const CHOICE_TEXT: Readonly<Record<'keep' | 'leave-out', (low: boolean) => string>> = {
  keep: () => 'kept',
  'leave-out': (low) => (low ? 'left out of averages, counted as a low' : 'left out'),
}

/** Why it was decided: what a correction put in its place, and the person's own words; '' where nothing is known. */
export function whyDecided({
  reason,
  correctedTo,
}: {
  readonly reason: string
  readonly correctedTo?: { readonly value: number | string; readonly unit: GlucoseUnit }
}): string {
  const corrected = correctedTo && `typed by hand instead: ${correctedTo.value} ${correctedTo.unit}`
  return [corrected, reason].filter((part) => part).join('; ')
}

/** What the program itself says of the reading. */
export const ownMark = (doubtful: boolean) => (doubtful ? 'doubtful' : 'not doubtful')

/** Decisions whose reading no log holds any more. */
export function decisionsGoneText(gone: number): string {
  return `${count(gone, 'further decision')} ${gone === 1 ? 'is about a reading that is' : 'are about readings that are'} in none of these logs.`
}
