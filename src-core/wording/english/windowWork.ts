// What the window itself says of its work: what it waits for, what came of it, and files and programs that it lost.

/** What the window waits for; '' where it waits for nothing. */
export const BUSY = {
  '': '',
  reading: 'Reading …',
  computing: 'Computing …',
  pages: 'Making the pages …',
  opening: 'Opening …',
  saving: 'Saving …',
} as const
export const COMPUTING_FIGURES = 'Computing the figures'
/** `read` and `all`: megabytes. */
export const readingText = (read: number, all: number) =>
  `Reading: ${read.toFixed(1)} of ${all.toFixed(1)} MB`
export const CANCEL = 'Cancel'

export const FAULT =
  'Something in the program went wrong. What was open stays as it was. Try again, or start the program again.'
export const HOST_ENDED = 'The program behind this window has ended. Start it again with npm run browser.'
export const NOT_LET_IN =
  'Open the address that npm run browser printed. Each address works once: if it was used before, the terminal shows a new one now.'

export const CANCELLED = 'Cancelled. The visit is as it was before.'
export const CHANGED_ELSEWHERE =
  'The visit was changed in another window in the meantime. Look at it and try again.'
export const OTHER_VISIT = 'Another visit was opened in the meantime. Do it again if it still makes sense.'
/** Told of what was to follow something that was not done. */
export const NOT_GONE_ON = 'Not done: the step before it was not accepted.'
/** `extent`: '438 readings on 88 of 90 days'. */
export const readText = (extent: string) => `Read: ${extent}.`

// Undo and redo; `what`: as `editName` has it.
export const undoneText = (what: string) => `Undone: ${what}.`
export const NOTHING_TO_UNDO = 'Nothing to undo.'
export const redoneText = (what: string) => `Redone: ${what}.`
export const NOTHING_TO_REDO = 'Nothing to redo.'

// Chosen files that are not taken.
export const NOT_OPENED = 'It could not be opened. If it is a folder, choose the files inside it.'
export const tooManyFiles = (most: number) => `The window takes up to ${most} logs at a time.`
export const tooLargeFiles = (mostMb: number) =>
  `The window takes up to ${mostMb} MB of logs at a time; npm run report takes more.`
export const notOpenedText = (files: readonly string[]) =>
  files.map((file) => `${file}: ${NOT_OPENED}`).join(' ')
