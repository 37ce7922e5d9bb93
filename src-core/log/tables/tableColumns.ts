import type { NamedColumns } from '../namedColumns'
import type { CsvRecord } from '../records'
import { isGramsPerLitre, MG_DL_IN_ONE_G_L, unitIn } from '../glucoseCell'
import { headerWords } from '../words/headerRole'
import { plain } from '../words/plain'
import type { CellKind } from './cellKind'
import { ColumnProfile, MOST_CELLS } from './columnProfile'
import { shapeOf } from './rowShape'
import type { TableColumn } from './tableColumn'
import type { TableStart } from './tableStart'

/** Longest header cell that is read as words. */
const LONGEST_HEADER_CELL = 120

export function profilesOf(
  columns: readonly TableColumn[],
  rows: readonly CsvRecord[],
): readonly ColumnProfile[] {
  return columns.map(({ index, inGrams }) => new ColumnProfile(rows, index, inGrams ? MG_DL_IN_ONE_G_L : 1))
}

/** A row of so many filled cells is wide; one with at most this share of the widest row's is a closing line beside it. */
const WIDE_ROW = 5
const SPARSE = 0.4
/** Share of the rows that have a day or a time from which on the others are closing lines, not the table's own. */
const MOST_ARE_DATED = 0.5
/** Share of the rows with a day, or a time, in one column that makes it their own; notes hold one now and then. */
const FEWEST_IN_PLACE = { days: 0.3, times: 0.6 } as const

/**
 * The rows with a day or a time of their own, where most have one; no text stands where the others' days and times do.
 * A day in a column of notes, below `header`, or in few rows below headings of days is no row's own.
 */
export function datedRows(
  rows: readonly CsvRecord[],
  header: CsvRecord | null,
  dayAbove: boolean,
): readonly CsvRecord[] {
  const dated = rows.filter((record) => shapeOf(record).days + shapeOf(record).times > 0)
  const widest = Math.max(0, ...dated.map((record) => shapeOf(record).filled))
  if (widest >= WIDE_ROW && dated.length < MOST_ARE_DATED * rows.length) {
    // A table of few wide rows with closing lines below it.
    const own = rows.filter((record) => dated.includes(record) || shapeOf(record).filled > SPARSE * widest)
    if (own.length < rows.length) return datedRows(own, header, dayAbove)
  }
  if (dated.length < MOST_ARE_DATED * rows.length) return rows
  const isNote = (index: number): boolean => headerWords(header?.cells[index] ?? '').role === 'note'
  const fewestDays = dayAbove ? MOST_CELLS : FEWEST_IN_PLACE.days
  const places = [
    headedDay(dated, header) ?? commonPlace(dated, ['day', 'moment'], fewestDays, isNote),
    commonPlace(dated, ['time'], FEWEST_IN_PLACE.times, isNote),
  ]
  return dated.filter((record) => places.every((at) => at === null || shapeOf(record).kinds[at] !== 'text'))
}

/** The column headed as the date, where a row has a day in it; null where none is. */
function headedDay(rows: readonly CsvRecord[], header: CsvRecord | null): number | null {
  const headed = header?.cells.findIndex((cell) => headerWords(cell).role === 'date') ?? -1
  return headed >= 0 && rows.some((record) => ['day', 'moment'].includes(shapeOf(record).kinds[headed] ?? ''))
    ? headed
    : null
}

/** The column, none of notes, in which most rows that hold a cell of these kinds hold it; null where they are few. */
function commonPlace(
  rows: readonly CsvRecord[],
  kinds: readonly CellKind[],
  fewest: number,
  isNote: (index: number) => boolean,
): number | null {
  const counts: number[] = []
  let holding = 0
  for (const record of rows) {
    const at = shapeOf(record).kinds.flatMap((kind, i) => (kinds.includes(kind) && !isNote(i) ? [i] : []))
    if (at.length > 0) holding++
    for (const i of at) counts[i] = (counts[i] ?? 0) + 1
  }
  const most = counts.reduce((best, count) => Math.max(best, count), 0)
  const isCommon = most >= MOST_ARE_DATED * holding && most >= fewest * rows.length
  return isCommon ? counts.indexOf(most) : null
}

/** The header once more among the rows, as where it stands again below each day. */
export function repeatsHeader(record: CsvRecord, header: CsvRecord | null): boolean {
  if (header === null || shapeOf(record).words === 0) return false
  const { last, filled } = shapeOf(header)
  if (shapeOf(record).filled !== filled || shapeOf(record).last !== last) return false
  return header.cells.every((cell, i) => plain(cell) === plain(record.cells[i] ?? ''))
}

/** Share of the rows with a unit of glucose in one column that makes it the units' own, whatever its header. */
const FEWEST_WITH_UNIT = 0.5

/** The columns of a table; `inGrams` where title or preamble say grams per litre. */
export function columnsOf(start: TableStart, rows: readonly CsvRecord[], inGrams: boolean): TableColumn[] {
  const { header, group, beside } = start
  const width = Math.max(header?.cells.length ?? 0, ...rows.map((record) => shapeOf(record).last + 1))
  let over = ''
  return Array.from({ length: width }, (_, index) => {
    const cell = (header?.cells[index] ?? '').trim()
    const above = (group?.cells[index] ?? '').trim()
    if (above !== '') over = above
    const below = beside.map(({ cells }) => (cells[index] ?? '').trim()).join(' ')
    const isText = cell.length <= LONGEST_HEADER_CELL
    const words = headerWords(isText ? besideBefore(cell, header) : '', over, below)
    const name = [over, cell, below].filter((part) => part !== '').join(' ')
    return {
      index,
      header: cell,
      name,
      inGrams: isGramsPerLitre(name) || (inGrams && words.glucose > 0 && unitIn(name) === null),
      words,
      role: words.role ?? 'ignored',
      named: false,
    }
  })
}

/** Dutch 'na' beside 'voor' is after a meal; by itself it may be sodium, or nothing. */
function besideBefore(cell: string, header: CsvRecord | null): string {
  const isAfter = plain(cell) === 'na' && header?.cells.some((other) => plain(other) === 'voor')
  return isAfter === true ? 'na maaltijd' : cell
}

/** Gives the columns the roles that a person named; returns a name that no column has. */
export function nameRoles(columns: TableColumn[], named: NamedColumns): string | null {
  for (const [role, names] of named.roles) {
    for (const column of columns) if (column.role === role) column.role = 'ignored'
    for (const name of names) {
      const column = /^\d+$/.test(name)
        ? columns.at(Number(name) - 1)
        : columns.find(({ header }) => plain(header) === plain(name))
      if (!column || name === '0') return name
      column.role = role
      column.named = true
    }
  }
  return null
}

/** Words that the cells contradict count for nothing: a column of units holds units, one of notes no numbers alone. */
export function settleByContent(columns: TableColumn[], profiles: readonly ColumnProfile[]): void {
  for (const column of columns) {
    if (column.named) continue
    const profile = profiles[column.index]
    const { role } = column
    if (profile.filled === 0) continue
    // A note that says 'mg/dL' now and then is no column of units: those stand in most rows.
    const standsInMost = profile.filled >= FEWEST_WITH_UNIT * profile.rows
    if (role !== 'glucose' && role !== 'note' && standsInMost && profile.isMostly(profile.units))
      column.role = 'unit'
    if (role === 'unit' && profile.holdsNumbers) column.role = 'ignored'
    // What the cells are outweighs what the words suggest: 'measuring time' also speaks of a measurement.
    if ((role === 'date' || role === 'timestamp' || role === 'glucose') && profile.holdsTimes)
      column.role = 'time'
    const maybeTimes = profile.isMostly(profile.dotClocks + profile.clockDigits + profile.times)
    if (
      (role === 'date' || role === 'timestamp') &&
      profile.holdsNumbers &&
      !profile.holdsDates &&
      !maybeTimes
    )
      column.role = 'ignored'
    if (role === 'glucose' && profile.holdsDates && !profile.holdsNumbers) column.role = 'timestamp'
    if (role === 'time' && profile.holdsDates) column.role = 'timestamp'
    if (role === 'meter' && profile.holdsDates && !profile.isConstant && !isDigits(profile))
      column.role = 'timestamp'
  }
}

/** Five digits and more may be days of a spreadsheet, and serial numbers as well. */
function isDigits({ cells }: ColumnProfile): boolean {
  return cells.every((cell) => cell === '' || /^\d{5,}$/.test(cell))
}
