// What stands around every screen: the bar at the top, the line at the foot; and the screen before anything is open.

/** Of the page, as its element tells it. */
export { LANGUAGE } from './localForms'
export const PROGRAM = 'Visit report'
/** In the title bar; `name`: of the visit's file. */
export const titleText = (name: string, edited: boolean) =>
  `${name}${edited ? ' (edited)' : ''} – Visit report`
export const FILES_TO_OPEN = 'Logs or a visit'

export const STEPS_LABEL = 'Steps'
export const STEPS = {
  visit: 'Visit',
  logs: 'Logs',
  readings: 'Readings',
  picture: 'Picture',
  pages: 'Pages',
} as const
/** Beside a step's name, where something of the visit is not saved. */
export const EDITED = 'edited'
/** Beside the step of the readings. */
export const readingsCount = (readings: number, doubtful: number) =>
  doubtful > 0 ? `${readings} · ${doubtful} doubtful` : String(readings)

export const UNDO = 'Undo'
export const REDO = 'Redo'
/** `what`: as `editName` has it. */
export const undoText = (name: string, what: string) => `${name} ${what}`
export const SAVE = 'Save'
export const SAVE_PDF = 'Save PDF'

export const HOW_READ = 'How the logs were read'
export const guessesOf = (log: string, guesses: string) => `${log}: ${guesses}`
export const readBesideText = (logs: number) => `How each of the ${logs} logs was read is shown beside it.`
export const PURPOSE = 'For discussion with the care team.'
export const NO_DOSING = 'Not for dosing decisions.'

export const CHOOSE_HEADING = 'Choose the logs of your meters'
export const CHOOSE_LEAD =
  'Drop the CSV files anywhere in this window, or choose them here; logs of several meters can go together.'
export const CHOOSE_LOGS = 'Choose logs'
export const TRY_SAMPLE = 'Try it with a sample'
export const OPEN_VISIT = 'Open a visit'
export const TYPE_READINGS = 'Type readings'
export const STAYS_HERE =
  'Readings stay on this computer. Unit, dates and columns are read from the files; where a file leaves something open, the window asks.'

/** On paper where the window is printed instead of its pages. */
export const PRINT_HINT =
  'This is the window, not the report. Press Ctrl+P in the window, or Print under Pages, to print the pages of the report.'
