import { count } from './numbers'

// What the window says of a visit's file.

export const OPEN_ELSEWHERE =
  'Another window or program has this visit open too. Save in one of them only; what is saved in the other is not seen here.'
export const OPENING_CANCELLED = 'It was not opened: you stopped it.'
export const VISIT_ALONE = 'Open one visit at a time; several were chosen. Logs can be opened with it.'
export const GONE = 'It is no longer there. It may have been moved or removed: choose it where it is now.'
export const NOT_READABLE = 'It cannot be read. Check that it is there and that you may read it.'

export const savedText = (name: string, isProtected: boolean) =>
  `Saved ${name}${isProtected ? ', protected by the passphrase' : ''}.`
export const handedText = (name: string) =>
  `Your browser was given ${name} to save: look for it among your downloads. Changes from now on are not in it.`
export const openedText = (name: string) => `Opened ${name}.`
export const recoveredText = 'Recovered. It is not saved yet.'
/** `why`: '' where nobody knows. */
export const notKeptText = (why: string) =>
  `Unsaved changes cannot be kept on the disk either${why === '' ? '.' : `: ${why}`} Save the visit now.`
export const PROTECT_NEXT = 'The passphrase takes effect at the next save.'
export const UNPROTECT_NEXT = 'Saved without protection from the next save on.'
export const DISCARDED = 'Discarded.'
/** What a visit holds, to know it by: '2 March to 30 May 2026 · 2 logs: one.csv, other.csv · 3 decisions'. */
export function holdsText(
  days: string | null,
  logs: readonly string[],
  typed: number,
  decisions: number,
): string {
  return [
    days,
    logs.length > 0 &&
      `${count(logs.length, 'log')}: ${logs.slice(0, LOGS_NAMED).join(', ')}${logs.length > LOGS_NAMED ? ' …' : ''}`,
    typed > 0 && count(typed, 'typed reading'),
    decisions > 0 && count(decisions, 'decision'),
  ]
    .filter((part) => part)
    .join(' · ')
}

const LOGS_NAMED = 3

export const CLOSING = {
  message: 'This visit is not saved.',
  detail: 'If you do not save, changes since the last save are lost.',
  buttons: { SAVE: 'Save', GO: 'Close without saving', STAY: 'Stay here' },
} as const
