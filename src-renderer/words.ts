// What the window itself says of its work, of fields, and of the pages that are made, printed and saved.

export const MAKING_PAGES = 'Making the pages …'
export const PAGES_FAILED = 'The pages could not be made.'
export const NO_PAGES = 'There are no pages yet: add a log, or answer what is asked about one.'
export const CHANGED_ELSEWHERE =
  'The visit was changed in another window meanwhile. Look at it and try again.'
export const OTHER_VISIT = 'Another visit was opened meanwhile. Do it again if it still fits.'
/** Told of what was to follow something that was not done. */
export const NOT_GONE_ON = 'Not done: what came before it was not taken in.'
export const madeText = (fileName: string) => `Made ${fileName}.`
/** Something written into a field stands in the way; `field`: its name. */
export const notTakenInText = (field: string) => `Not taken in yet: ‘${field}’. Mend it, or empty the field.`

/** Beside fields of which something is wrong. */
export const NOT_TAKEN_IN = 'Not taken in: the visit has what stood there before.'
/** Beside an entry that was begun; `action`: what stands on its button. */
export const notYetText = (action: string) => `Not in the visit before you press ${action}.`
export const WRONG_WAY = 'The first day comes after the last. Exchange them.'
export const NO_DAY = 'Write a day of the calendar, such as 2026-03-02.'
export const ENTRY_MOVED = 'The list was changed meanwhile. Look at it and try again.'

export const printText = (paper: string) => `Print in actual size, on ${paper}.`
export const openedToPrintText = (paper: string) =>
  `The pages are open in your PDF viewer: print them there in actual size, on ${paper}, before this window is closed.`
export const NOT_OPENED_TO_PRINT =
  'No PDF viewer could be opened. Choose Save PDF, and print the file with a program of yours.'
export const savedToPrintText = (fileName: string) =>
  `This browser cannot print the pages by itself. It was given ${fileName} to save: open that file and print it.`
/** On paper where the window is printed instead of its pages. */
export const PRINT_HINT =
  'This is the window, not the report. Press Ctrl+P in the window, or Print under Pages, to print the pages of the report.'
