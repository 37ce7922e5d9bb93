import { readMoment } from '../dateCell'
import type { CsvRecord } from '../records'
import { conceptsOf } from '../words/concepts'
import { headerWords } from '../words/headerRole'
import { plainDigits } from '../words/plain'
import { isSumNote, LONGEST_SUM_WORDS, startsAsSum } from '../words/sums'
import { type CellKind, cellKind } from './cellKind'

/** What the cells of a record look like. */
export interface RowShape {
  readonly kinds: readonly CellKind[]
  readonly filled: number
  /** Cells with a day, with or without a time of day. */
  readonly days: number
  readonly times: number
  readonly numbers: number
  /** Numbers and words for a limit of the meter. */
  readonly values: number
  readonly words: number
  /** Index of the last filled cell; -1 where none is. */
  readonly last: number
}

const shapes = new WeakMap<CsvRecord, RowShape>()

/** The shape of a record; looked at once. */
export function shapeOf(record: CsvRecord): RowShape {
  let shape = shapes.get(record)
  if (!shape) shapes.set(record, (shape = newShape(record)))
  return shape
}

function newShape({ cells }: CsvRecord): RowShape {
  const kinds = cells.map(cellKind)
  let [filled, days, times, numbers, values, words, last] = [0, 0, 0, 0, 0, 0, -1]
  kinds.forEach((kind, index) => {
    if (kind === 'blank') return
    filled++
    last = index
    if (kind === 'day' || kind === 'moment') days++
    else if (kind === 'time') times++
    else if (kind === 'number') numbers++
    else if (kind === 'marker') values++
    else words++
  })
  return { kinds, filled, days, times, numbers, values: values + numbers, words, last }
}

/** A row of data: a day or a time, and a value beside it. */
export function isDataRow(record: CsvRecord): boolean {
  const { days, times, values } = shapeOf(record)
  return (days > 0 || times > 0) && values > 0
}

/** A line with a day alone, or a day and its weekday: what follows belongs to it. The day of a print is no such day. */
export function isDayHeading(record: CsvRecord): boolean {
  const { filled, days, values, times, kinds } = shapeOf(record)
  if (days !== 1 || values > 0 || times > 0 || filled > 2) return false
  // A day with a time of it is a reading's whose value was left out.
  if (record.cells.some((cell, i) => kinds[i] === 'moment' && !isAtMidnight(cell))) return false
  return record.cells.every((cell, i) => kinds[i] !== 'text' || !conceptsOf(cell).has('administrative'))
}

function isAtMidnight(cell: string): boolean {
  const time = readMoment(cell)?.time
  return typeof time === 'object' && time?.second === 0
}

const RANGE =
  /^(?:[<>≤≥]=?\s?\d+(?:[.,]\d+)?|\d+(?:[.,]\d+)?\s?(?:[-–—]|to|bis|à|tot)\s?\d+(?:[.,]\d+)?)\s?(?:mg\s?\/\s?dl|mmol\s?\/\s?l)?$/i

/** Whether every filled cell is a range, as goals have: '80-130', '<180'; false where none is filled. */
export function holdsRangesAlone(cells: readonly string[]): boolean {
  const filled = cells.map((cell) => cell.trim()).filter((cell) => cell !== '')
  return filled.length > 0 && filled.every((cell) => RANGE.test(plainDigits(cell)))
}

/** A line with a day and nothing else. */
export function isDayAlone(record: CsvRecord): boolean {
  return shapeOf(record).filled === 1 && isDayHeading(record)
}

/**
 * A line of means or totals among the rows: its first cell names one, or another says nothing else; where the line has a
 * day, no cell but such a one makes it a sum, and beside a time of day it must begin so: 'the average day' is a note.
 */
export function isSumRow(record: CsvRecord): boolean {
  const { kinds, days, times } = shapeOf(record)
  const isTimed = times > 0 || kinds.includes('moment')
  const first = kinds.findIndex((kind) => kind !== 'blank')
  return record.cells.some((cell, i) => {
    if (kinds[i] !== 'text' || cell.length > LONGEST_SUM_WORDS) return false
    if (days === 0 && i === first)
      return (
        isSumNote(cell) ||
        (cell.length > 1 &&
          /^\s*\p{L}/u.test(cell) &&
          ['sum', 'goal'].includes(headerWords(cell).against ?? ''))
      )
    return (
      conceptsOf(cell).has('statistic') && isSumNote(cell) && ((days > 0 && !isTimed) || startsAsSum(cell))
    )
  })
}
