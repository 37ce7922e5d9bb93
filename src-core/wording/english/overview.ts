import type { FindingCode } from '../../told/overview'
import type { Measure } from '../../told/measures'
import type { GlucoseUnit } from '../../units/glucose'
import { valueText } from './figures'
import { count } from './numbers'

// A folder of logs: the list of all of them, what the terminal says meanwhile.

export const OVERVIEW_TITLE = 'Logs of a folder'
export const OVERVIEW_NOTE =
  'One line for each log, those with more lows first. No score: an order in which to look. Lows are counted whatever the doubt ' +
  'about them. What is not shown has too few readings, or too many beyond the meter’s limits.'
export const NOT_MADE_TITLE = 'Without a report'
export const COLUMNS = {
  log: 'log',
  days: 'days (with readings)',
  readings: 'readings',
  episodes: 'episodes of lows',
  below70: '<70',
  below54: '<54',
  nights: 'nights with lows, of tested',
  above250: '>250, %',
  mean: 'mean',
  cv: 'CV, %',
  a1c: 'estimated A1C, %',
  doubtful: 'doubtful, %',
  last: 'days since the last',
  findings: 'what stands out',
  why: 'why',
} as const

/** What stands out, in a word or two. */
export const FINDING_NAMES: Readonly<Record<FindingCode, string>> = {
  'lows-after-contradicted-highs': 'lows after doubtful highs',
  'lows-gather': 'lows gather at some hours',
  'lows-in-runs': 'lows in runs',
  'lows-with-activity': 'lows with activity',
  'high-mornings-after-low-nights': 'high mornings after low nights',
  'highs-after-lows': 'highs after lows',
  'highs-gather': 'highs gather at some times',
  'fasting-above-goal': 'fasting above goal',
  'meal-rises-most': 'one meal rises most',
  'overnight-change': 'change overnight',
  'weekends-differ': 'weekends differ',
  trend: 'trend',
  'highs-at-end-of-vial': 'highs at the end of a vial',
  'meters-by-hour': 'meters used at different hours',
  'round-values': 'round values',
}

export const nightsText = (withLows: number, tested: number) => `${withLows} of ${tested}`
export const meanText = (mean: Measure, unit: GlucoseUnit) =>
  mean.heldBack === null ? `${valueText(mean, unit)} ${unit}` : valueText(mean, unit)
export const daysText = (withReadings: number, days: number) => `${withReadings} of ${days}`

export const progressText = (done: number, of: number, asking: number, minutesLeft: number | null) =>
  `${done} of ${of} logs${asking > 0 ? `, ${asking} asking or refused` : ''}` +
  (minutesLeft === null
    ? ''
    : minutesLeft < 1
      ? ', less than a minute left'
      : minutesLeft < FEWEST_MINUTES_AS_HOURS
        ? `, about ${count(Math.round(minutesLeft), 'minute')} left`
        : `, about ${count(Math.round(minutesLeft / 60), 'hour')} left`)
const FEWEST_MINUTES_AS_HOURS = 120
/** `answers`: path of the table beside the logs. */
export const endText = (
  { made, kept, asking, notWritten }: Readonly<Record<'made' | 'kept' | 'asking' | 'notWritten', number>>,
  folder: string,
  answers: string,
) =>
  [
    `${count(made, 'report')} made`,
    ...(kept > 0 ? [`${kept} kept as they were, nothing had changed`] : []),
    ...(asking > 0 ? [`${asking} without a report, because a log asks or was refused`] : []),
    ...(notWritten > 0 ? [`${notWritten} not written`] : []),
  ].join('; ') +
  (asking > 0
    ? `. What a log asks is answered in ${answers} (columns file, unit, dates, columns, label); then run the same command again`
    : '') +
  `. The list of all: overview.csv and overview.pdf in ${folder}.`
/** Files and folders that are no logs by their kind, or lie deeper than a person's folder. */
export const passedOverText = (names: readonly string[]) =>
  `Passed over, no logs: ${names.slice(0, MOST_NAMED).join(', ')}` +
  (names.length > MOST_NAMED ? ` and ${names.length - MOST_NAMED} more` : '') +
  '. Logs are read in the folder itself and in the folders directly within it.'
const MOST_NAMED = 8
export const NO_LOGS = 'holds no log and no folder of logs. Name the folder in which the exports are.'
export const notAFolder = (path: string) =>
  `${path} is no folder that can be read. --each takes the folder of the logs.`
export const EACH_NEEDS_OUT = '--each needs --out FOLDER: the reports and the list of all of them go there.'
export const NEEDS_EACH = '--jsonl is of a folder: it needs --each FOLDER.'
export const eachAlone = (option: string) =>
  `--each makes one report for each log and cannot be said together with ${option}.`
export const OUTSIDE = 'leads out of the folder and was left alone. Copy the file in, if it is to be read.'
export const CHANGED_MEANWHILE = 'changed while it was read. Run the command again.'
export const PROTECTED = 'is protected by a passphrase. Make its report by itself.'
export const SEVERAL_VISITS = 'holds several visits. Put each into a folder of its own, or beside the others.'
export const FAULT = 'could not be made because of a fault of the program. Make this one by itself to see it.'
/** Of a log that has no report now, but has one of an earlier run. */
export const olderReport = (report: string) =>
  `The report ${report} was made of this log as it stood, or was answered, at an earlier run: do not use it.`
export const answeredUnder = (column: string) => `For this log alone: under ‘${column}’ in answers.csv.`
export const answersWrong = (line: number, column: string, said: string) =>
  `answers.csv, line ${line}: ‘${said}’ is no answer under ‘${column}’. The columns are file, unit, dates, columns and label, with the ` +
  'same words as --log-unit, --dates, --columns and --label.'
export const answersUnknown = (line: number, said: string, near: string | null) =>
  `answers.csv, line ${line}: no log and no folder of logs is called ‘${said}’, so the line was not used.` +
  (near === null ? '' : ` Did you mean ‘${near}’?`)
export const answersOtherKind = (name: string) =>
  `${name} is not read. Save the table as CSV, under the name answers.csv.`
export const answersElsewhere = (path: string, folder: string) =>
  `${path} is not read: answers stand beside the logs. Move it into ${folder}.`
export const answersWithoutFile =
  'answers.csv: its first line has to name its columns, among them ‘file’: file, unit, dates, columns, label.'
