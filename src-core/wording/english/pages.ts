import { count } from './numbers'

// Titles of the pages' sections and heads of their tables, with the sentences that stand by them.

/** Instead of the definitions. */
export const WHERE_METHOD_STANDS =
  'How each figure is computed, and where that is published, is in the program’s README under ‘How the numbers are ' +
  'computed’, and here if ‘The method in full’ is ticked under Pages, or with --method.'

export const TITLES = {
  lowsFirst: 'Lows first',
  eachLow: 'Each low',
  theDay: 'The day',
  doubtful: 'Doubtful readings',
  disagreeing: 'Repeat tests that disagree',
  trials: 'Technique trials',
  meters: 'Meters against each other',
  method: 'How it was computed',
  logs: 'The logs',
  definitions: 'Definitions',
  cautions: 'What these pages cannot tell',
  questions: 'Questions',
  sinceLastVisit: 'Since the last visit',
  laboratory: 'Laboratory A1C and the readings before it',
  medicines: 'Medicines and supplements',
  controls: 'Control solution',
  strips: 'Strips',
  clocks: 'Meter clocks',
} as const

/** 'Doubtful readings: page', before the page's number. */
export const pageOf = (title: string) => `${title}: page`

export const COLUMNS = {
  eachLow: ['when', 'reading', 'next test', 'highest within 4 h', 'meal, note'],
  decided: ['when', 'reading', 'decided', 'the program’s own mark', 'why'],
  furtherDoubtful: ['when', 'reading', 'doubt, in 100', 'why; what the log says of it'],
  disagreeing: ['when', 'readings, in order', 'spread', 'taken as', 'meter'],
  meters: ['meters', 'pairs', 'first minus second', 'the next pair, 19 of 20', 'within 15 (mg/dL, %)'],
  trials: [
    'what was different, in the log’s words',
    'reading',
    'difference',
    'within tolerance',
    'what it shows',
  ],
  laboratory: ['laboratory', 'centre of the estimate', 'difference', ''],
  controls: ['date', 'meter', 'vial', 'result', ''],
  strips: ['vial', 'lot', 'expires', 'opened', 'finished', ''],
  definitions: ['figure', 'how', 'published'],
} as const
export const BY_MEAL_COLUMNS = {
  n: 'n',
  median: 'median',
  knownTo: 'known to about',
  middleHalf: 'middle half',
  lowest: 'lowest',
  highest: 'highest',
  withinGoal: 'within goal',
  goal: 'goal',
} as const
export const DIARY_NOTES = 'notes and entries of the log'

export const EACH_LOW_NOTE =
  'Repeats within ten minutes are on one line, in the order in which they were taken. ‘?’: doubtful, but counted all the same.'
export const moreLowsText = (more: number) => `and ${count(more, 'more low')}, none lower than those listed.`
export const LOG_ENDS = 'the log ends here'
export const NO_TEST = 'no test'
export const nextTestText = (value: string, duration: string) => `${value} after ${duration}`

export const DISAGREEING_NOTE =
  'Tests within ten minutes that differ by more than the meter standard and a real change in glucose allow. A set with a low ' +
  'in it is a sequence and is not averaged.'
/** Of all sets that disagree so many stand among the doubtful readings. */
export const setsAboveText = (above: number, all: number) =>
  above === all
    ? `${all === 1 ? 'The one set' : `All ${all} sets`} that ${all === 1 ? 'disagrees is' : 'disagree are'} shown above, among the doubtful readings.`
    : `${above} of the ${all} sets that disagree ${above === 1 ? 'is' : 'are'} shown above, among the doubtful readings.`
export const earlierSetsText = (more: number) =>
  `and ${count(more, 'earlier set')} that ${more === 1 ? 'disagrees' : 'disagree'}.`
export const A_SEQUENCE = 'a sequence'

export const sinceLastVisitText = (change: string) => `Since the last visit: ${change}`
export const laboratoryA1cText = (value: string) => `Laboratory A1C: ${value}.`
export const QUESTION = 'Question: '
export const taughtText = (day: string, about: string | null) =>
  `Technique was taught on ${day}${about === null ? '' : `: ${about}`}.`
export const THE_METER = 'the meter'
export const CONTROLS_NOTE =
  'Inside the range: meter and strips worked that day; it says nothing about the finger. Outside it twice: do not rely on this vial or meter; use another, and ask the pharmacy or the maker.'

export const furtherNotesText = (more: number) => `– and ${count(more, 'further note')}`
export const duplicatesText = (n: number) =>
  `${count(n, 'reading')} ${n === 1 ? 'was' : 'were'} in more than one log and ${n === 1 ? 'is' : 'are'} counted once.`
/** 'Meters: meter A, 300 readings (log 1, 7f3a91c2); ...' */
export function metersText(
  meters: readonly { readonly name: string; readonly n: number; readonly logs: readonly string[] }[],
): string {
  const parts = meters.map(({ name, n, logs }) => `${name}: ${count(n, 'reading')} (${logs.join('; ')})`)
  return `Meters: ${parts.join('; ')}.`
}
