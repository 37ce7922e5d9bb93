import { DAY, type RowTable } from './rowTable'

/** A table kept by hand may give the date on a day's first row only: at least so many rows must be without one. */
const FEWEST_ROWS = 3
const LEAST_SHARE = 0.1
/** In a table without times more rows must be, for a single blank date to be no slip. */
const LEAST_DAY_ONLY_SHARE = 0.3
/** So large a share of the rows without a day must name their meal. */
const LEAST_TOLD = 0.7
/** So large a share of them must come later on the day, or earlier, than the row above. */
const IN_ORDER_SHARE = 0.9

/**
 * Gives rows with a time alone the day of the row above, where the whole table is written so: their times
 * run on through the day, from row `first` on. Returns how many rows got a day; the others stay set aside.
 */
export function fillDatesDown(table: RowTable, first = 0): number {
  const rows = rowsWithoutDay(table, first)
  if (rows.length === 0) return fillDayOnly(table, first)
  if (rows.length < FEWEST_ROWS || rows.length < LEAST_SHARE * (table.n - first)) return 0
  const later = rows.filter(({ row, above }) => !(secondOf(table, row) < secondOf(table, above)))
  const earlier = rows.filter(({ row, above }) => !(secondOf(table, row) > secondOf(table, above)))
  const inOrder = later.length >= earlier.length ? later : earlier
  if (inOrder.length < IN_ORDER_SHARE * rows.length) return 0
  let filled = 0
  for (const { row, above } of inOrder) {
    // Below a row that is out of order, such as one after midnight, the day is anyone's guess.
    if (table.dayKind[above] !== DAY.known && table.dayKind[above] !== DAY.numbers) continue
    table.takeDayOf(row, above)
    filled++
  }
  return filled
}

/**
 * The same for a table of days without times, such as one of merged cells: blank dates below a day's first row. A row that
 * names no moment of the day either may be a sum, a slip or another day's: nothing tells its day.
 */
function fillDayOnly(table: RowTable, first: number): number {
  const blank: number[] = []
  for (let row = first; row < table.n; row++) {
    if (table.dayKind[row] === DAY.none && table.fates.reasonOf(row) === 'empty-date') blank.push(row)
    else if (table.secondOf(row) !== null) return 0
  }
  const isFirst = blank.at(0) === first
  if (isFirst || blank.length < 2 || blank.length < LEAST_DAY_ONLY_SHARE * (table.n - first)) return 0
  const told = blank.filter((row) => table.ofNamedMoment.has(row))
  if (told.length < LEAST_TOLD * blank.length) return 0
  let filled = 0
  for (const row of told) {
    if (table.dayKind[row - 1] !== DAY.known && table.dayKind[row - 1] !== DAY.numbers) continue
    table.takeDayOf(row, row - 1)
    filled++
  }
  return filled
}

interface RowWithoutDay {
  readonly row: number
  /** The row right above it. */
  readonly above: number
}

function rowsWithoutDay(table: RowTable, first: number): readonly RowWithoutDay[] {
  const found: RowWithoutDay[] = []
  for (let row = first + 1; row < table.n; row++) {
    const timeAlone = table.dayKind[row] === DAY.none && typeof table.secondOf(row) === 'number'
    if (timeAlone) found.push({ row, above: row - 1 })
  }
  return found
}

/** NaN for a row without a time, which is in order with any other. */
function secondOf(table: RowTable, row: number): number {
  const second = table.secondOf(row)
  return typeof second === 'number' ? second : NaN
}
