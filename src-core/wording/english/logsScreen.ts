import { count } from './counts'

// The screen of the logs: what each gave, what one leaves open, and how a log may be read otherwise.

export const questionsFirst = (asked: number) => (asked === 1 ? 'One question first' : 'Some questions first')
export const ADD_LOGS = 'Add logs'
/** `extent`: '438 readings on 88 of 90 days'. */
export const moreMayCome = (extent: string) => `${extent}. You can drop more logs anywhere in this window.`
export const OPEN_TOGETHER = 'The logs open together once each of them can be read.'
export const lookAtDoubtful = (doubtful: number) => `Look at ${count(doubtful, 'doubtful reading')}`
export const SEE_PICTURE = 'See the picture'
export const REMOVE = 'Remove'
export const removedText = (log: string) => `Removed ${log}.`
export const lineText = (line: number) => `line ${line}`
export const lineInBrackets = (line: number) => `(line ${line})`
export const andMore = (more: number) => `and ${more} more`
export const yourAnswers = (answers: string) => `Your answers: ${answers}`
export const TAKE_BACK = 'Take back'
export const answeredAbout = (log: string) => `what was answered about ${log}`

export const SHOW_ALL_DAYS = 'Show all days'
export const ALL_DAYS_SHOWN = 'All days are shown.'
export const SINCE_LAST = 'Since the last visit, compared with before'
export const SINCE_LAST_SHOWN = 'The days since the last visit are compared with those before.'

export const howRead = (log: string) => `How ${log} was read`
export const CHANGE = 'Change'
export const LEAVE_AS_IS = 'Leave as it is'
const LINES = { dates: 'the dates', unit: 'the unit', columns: 'the columns', clock: 'the clock' } as const
/** Which guess a button changes. */
export const lineOf = (line: keyof typeof LINES, log: string) => `${LINES[line]} of ${log}`
export const DAY_AND_MONTH = 'Day and month'
export const UNIT_OF_LOG = 'Unit of the whole log'
export const WHICH_COLUMN = 'What is in the wrong column?'
export const WHERE_IT_IS = 'Where it is'
export const HOURS = 'Hours'
/** `way`: as chosen. */
export const readAnew = (way: string) => `Read again: ${way}.`
export const TRYING_WAYS = 'Trying other ways to read the log …'
export const asItIs = (way: string) => `As it is: ${way}`

/** `moves`: what was moved, each in words. */
export const clockText = (moves: readonly string[]) =>
  moves.length === 0 ? 'Times: as the meter’s clock had them.' : `Times moved: ${moves.join('; ')}.`
export const movedText = (move: string) => `Moved: ${move}`
export const MOVE_BACK = 'Move back'
export const TIMES_BACK = 'The times are as logged again.'
export const MOVE_SOME = 'Move the times of some days'
export const FROM = 'from'
export const TO = 'to'
export const MINUTES = 'Minutes'
export const MOVE_THEM = 'Move them'
export const WAYS_TO_MOVE = { later: 'later', earlier: 'earlier' } as const
export const TRYING = 'Trying …'
export const MOVE_THESE = 'Move these times'
export const TIMES_MOVED = 'Times moved.'
/** `effect`: what moving would come to. */
export const effectText = (effect: string) => `${effect}.`
export const DAYS_BACKWARDS = 'The last day is before the first.'
export const WHOLE_NUMBERS = 'Write whole hours and minutes, and choose later or earlier.'
export const HOW_TO_MOVE =
  'Give the first and last day as the log has them, and how far to move their times. Two rows are shown before anything moves.'
