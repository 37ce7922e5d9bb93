import Papa from 'papaparse'
import type { Analysis } from '../analysis/analysis'
import { READINGS_HEADER } from '../log/ownReadings'
import {
  FLAG,
  hasFlag,
  loggedMomentText,
  loggedUnit,
  momentText,
  type Readings,
  valueIn,
} from '../log/readings'
import { SPREADSHEET_FORMAT } from './spreadsheetFormat'

/** Rows in a piece of the file's text. */
const ROWS_AT_A_TIME = 1_000

/**
 * Every accepted reading with its doubt as a CSV file's text, piece by piece: comma, header, numbers at full precision.
 * Text that a spreadsheet would run as a formula is quoted and led by an apostrophe; so is quoted what holds a separator
 * of any spreadsheet.
 */
export function* readingsCsv({ readings, sources, technique }: Analysis): Generator<string> {
  const inRepeatSet = new Uint8Array(readings.n)
  for (const { members } of technique.repeatSets) for (const index of members) inRepeatSet[index] = 1
  const reasons = new Map(
    technique.doubtful.map((doubtful) => [
      doubtful.index,
      doubtful.reasons.map(({ code }) => code).join(';'),
    ]),
  )
  const row = (index: number): (string | number)[] => [
    momentText(readings, index),
    readings.mgDl[index],
    valueIn(readings, index, 'mmol/L'),
    limitOf(readings, index),
    readings.meters[readings.meter[index]],
    readings.meal(index),
    readings.note(index),
    sources[readings.source[index]].name,
    readings.line[index],
    Number.isNaN(technique.doubt[index]) ? '' : technique.doubt[index],
    reasons.get(index) ?? '',
    inRepeatSet[index] === 1 ? 'yes' : 'no',
    loggedValue(readings, index),
    loggedUnit(readings, index),
    loggedMomentText(readings, index) + offsetText(readings, index),
  ]
  yield `${READINGS_HEADER}\n`
  for (let start = 0; start < readings.n; start += ROWS_AT_A_TIME) {
    const rows: (string | number)[][] = []
    for (let i = start; i < Math.min(readings.n, start + ROWS_AT_A_TIME); i++) rows.push(row(i))
    yield `${Papa.unparse(rows, SPREADSHEET_FORMAT)}\n`
  }
}

function limitOf(readings: Readings, index: number): string {
  if (hasFlag(readings, index, FLAG.aboveRange)) return 'above'
  return hasFlag(readings, index, FLAG.belowRange) ? 'below' : ''
}

/** As the log has it; a marker with the limit that it stands for, so that it is read again as one. */
function loggedValue(readings: Readings, index: number): string | number {
  const value = readings.logged[index]
  if (hasFlag(readings, index, FLAG.aboveRange)) return `>${value}`
  return hasFlag(readings, index, FLAG.belowRange) ? `<${value}` : value
}

/** '+02:00' where the log gives an offset or an instant, else ''. */
function offsetText(readings: Readings, index: number): string {
  if (!hasFlag(readings, index, FLAG.offset)) return ''
  const minutes = readings.offsetMinutes[index]
  const two = (value: number) => String(Math.floor(value)).padStart(2, '0')
  return `${minutes < 0 ? '-' : '+'}${two(Math.abs(minutes) / 60)}:${two(Math.abs(minutes) % 60)}`
}
