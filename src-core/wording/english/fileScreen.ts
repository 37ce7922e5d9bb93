import type { AskedOfPerson } from '../../model/askedOfPerson'

// The file of the visit in the window: saving, protecting, what is asked before something is lost, what to begin with.

export const EMPTY_VISIT = 'An empty visit'
export const NO_FILE = 'Not saved to a file yet'
export const NOTHING_TO_SAVE = 'There is nothing to save yet.'
/** `folder`: null where the program does not know it. */
export const fileState = (folder: string | null, edited: boolean, isProtected: boolean) =>
  [folder, edited ? 'edited: not everything is saved' : 'everything is saved', isProtected && 'protected']
    .filter((part) => part)
    .join(' · ')
export const SAVE_AS = 'Save as …'
export const SAVE_DOWNLOAD = 'Save as a download'
export const SAVE_COPY = 'Save a copy as a download'
export const DOWNLOADS =
  'A browser does not say where a file is, so each save is a new download. To save to the same file, name the visit when you start: npm run browser -- FILE.'
export const ANOTHER_VISIT = 'Another visit'
export const BEGIN_EMPTY = 'Begin an empty one'

export const PROTECTION = 'Protection'
/** `isPending`: whether the file is so only from the next save on. */
export function protectionText(isProtected: boolean, isPending: boolean): string {
  if (isProtected)
    return isPending
      ? 'The file opens only with the passphrase, from the next save on.'
      : 'The file opens only with the passphrase.'
  return isPending
    ? 'Anyone who can open the file can read this visit, from the next save on.'
    : 'Anyone who can open the file can read this visit.'
}
export const PROTECT = 'Protect with a passphrase …'
export const PROTECT_ANEW = 'Change the passphrase …'
export const UNPROTECT = 'Remove the protection'
export const WRITE_IT_DOWN =
  'Write it down where you will find it: without the passphrase nobody can open the file, and nobody can recover the passphrase.'

export const PASSPHRASE = 'Passphrase'
export const PASSPHRASE_AGAIN = 'Type it again'
export const SHOW_WRITTEN = 'Show what is typed'
export const PASSPHRASE_EMPTY = 'Type at least one character.'
export const PASSPHRASES_DIFFER = 'The two differ. Type the same passphrase twice.'
export const DO_PROTECT = 'Protect'
export const DO_OPEN = 'Open'

export const NEVER_SAVED = 'Never saved'
export const NEVER_SAVED_LEAD = 'The program ended before these were saved.'
export const RECENT = 'Recent visits'
export const REMOVE_TRACES = 'Remove traces …'
export const NAMELESS = 'A visit without a file'
/** What an unsaved visit is called; `when`: '2026-03-02 08:15'. */
export const unsavedName = (name: string | null, when: string) => `${name ?? NAMELESS}, ${when}`
/** `handed`: whether a browser was given it. */
export function unsavedText(when: string, handed: boolean, isProtected: boolean): string {
  const what = handed
    ? `given to the browser to save, ${when}: discard it if you have the file`
    : `last kept ${when}`
  return `${what}${isProtected ? ', protected' : ''}`
}
export const DISCARD_SURELY = 'Discard it for good?'
export const DISCARD = 'Discard'
export const DISCARD_ASKING = 'Discard …'
export const KEEP_IT = 'Keep it'
export const RECOVER = 'Recover'

export const protectedHeading = (name: string) => `${name === '' ? 'This visit' : name} is protected`
export const SAVE_FIRST = 'Save first'

interface AskedWords {
  readonly heading: string
  readonly text: string
  /** On the button by which it may be done. */
  readonly goOn: string
}

/** What is asked before the program goes on. */
export function askedWords(asked: Exclude<AskedOfPerson, { readonly kind: 'passphrase' }>): AskedWords {
  switch (asked.kind) {
    case 'unsaved':
      return {
        heading: 'This visit is not saved',
        text: `Changes since the last save are lost when ${asked.next ?? 'another visit'} takes its place.`,
        goOn: 'Go on without saving',
      }
    case 'open-elsewhere':
      return {
        heading: `${asked.name} is open elsewhere`,
        text: 'Another window or program has it open. If both save, the second asks before it replaces what the first saved. Close it there first, or open it here too, just to look.',
        goOn: 'Open it here too',
      }
    case 'changed-outside':
      return {
        heading: `${asked.name} was changed by another program`,
        text: 'It is no longer as this window opened or saved it. Saving replaces it with this visit. Unless one of them is protected, what is there now is kept next to it, with a name that ends in .previous.',
        goOn: 'Replace it',
      }
    case 'gone-outside':
      return {
        heading: `${asked.name} is gone`,
        text: 'It is no longer where this window opened or saved it: it was moved or removed. Saving writes it there again.',
        goOn: 'Write it again',
      }
    case 'other-stands':
      return asked.isVisit
        ? {
            heading: `${asked.name} is another visit`,
            text: 'It was not opened in this window. Saving replaces it with this visit: its own logs and decisions will no longer be in the file.',
            goOn: 'Replace it',
          }
        : {
            heading: `${asked.name} is another file`,
            text: 'It was not made by this window. Saving replaces it with this visit: what it holds now will no longer be in the file.',
            goOn: 'Replace it',
          }
    case 'remove-traces':
      return {
        heading: 'Remove traces?',
        text: 'This removes the list of recent visits, the unsaved changes of visits that are not open, and the program log. Visits that you saved stay where they are.',
        goOn: 'Remove',
      }
  }
}
