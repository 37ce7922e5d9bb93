import { dayNumber } from '../units/wallClock'
import type { CsvRecord } from './records'
import { shapeOf } from './tables/rowShape'
import { conceptsOf } from './words/concepts'
import { monthOfName } from './words/months'
import { plain } from './words/plain'

// Diaries of a sheet a month: 'March 2026' stands above the table, and its rows give the number of the day alone.

/** A year and a month, 1 to 12. */
interface Month {
  readonly year: number
  readonly month: number
}

/** Longer lines are texts, not titles. */
const LONGEST_TITLE = 80
const YEAR = /^(?:19|20)\d{2}$/
const DAY_OF_MONTH = /^\d{1,2}\.?$/

/** The one month with its year that a line names and no day of it: 'Blood glucose, March 2026'; null for any other line. */
function monthIn(record: CsvRecord): Month | null {
  const { filled, words } = shapeOf(record)
  if (filled !== 1 || words !== 1) return null
  const text = record.cells.find((cell) => cell.trim() !== '') ?? ''
  if (text.length > LONGEST_TITLE) return null
  const each = plain(text).split(' ')
  const numbers = each.filter((word) => /\d/.test(word))
  const months = new Set(each.map(monthOfName).filter((month) => month !== null))
  if (numbers.length !== 1 || !YEAR.test(numbers[0]) || months.size !== 1) return null
  return { year: Number(numbers[0]), month: [...months][0] }
}

/** Reads records one after the other: which cell of a row is the day of a month that stands above it. */
class MonthsAbove {
  #month: Month | null = null
  #column = -1

  /** The row's day in ISO 8601 and its column; null where the record is no row below a month. */
  dayOf(record: CsvRecord): { readonly column: number; readonly day: string } | null {
    const month = monthIn(record)
    if (month !== null) this.#month = month
    if (month !== null || this.#month === null) return null
    const { days, words, values, filled } = shapeOf(record)
    if (days > 0) return null
    if (words > 0 && values === 0 && filled > 1) {
      const column = record.cells.findIndex((cell) => conceptsOf(cell).has('date'))
      if (column >= 0 || words === filled) this.#column = column
    }
    const cell = (record.cells[this.#column] ?? '').trim()
    if (!DAY_OF_MONTH.test(cell) || filled < 2) return null
    const { year, month: number } = this.#month
    const day = Number.parseInt(cell, 10)
    if (dayNumber(year, number, day) === null) return null
    const padded = (part: number): string => String(part).padStart(2, '0')
    return { column: this.#column, day: `${year}-${padded(number)}-${padded(day)}` }
  }
}

/** Fewest rows below a month that show that the log is written so. */
const FEWEST_ROWS = 2

/** Whether months stand above rows that give the number of the day alone, as far as a log's beginning tells. */
export function hasMonthsAbove(records: readonly CsvRecord[]): boolean {
  const months = new MonthsAbove()
  let rows = 0
  for (const record of records) {
    if (months.dayOf(record) !== null) rows++
    else if (shapeOf(record).days > 0 && shapeOf(record).values > 0) return false
  }
  return rows >= FEWEST_ROWS
}

/** The records with the days of such rows in full. */
export function* withMonthsAbove(records: Iterable<CsvRecord>): Generator<CsvRecord> {
  const months = new MonthsAbove()
  for (const record of records) {
    const found = months.dayOf(record)
    yield found === null ? record : { ...record, cells: record.cells.with(found.column, found.day) }
  }
}
