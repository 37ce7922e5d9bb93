import type { GlucoseUnit } from '../units/glucose'
import {
  chooseGlucose,
  dateAndTime,
  decimalsParted,
  eventsThatAreKinds,
  rowsBesideHeader,
} from './chooseColumns'
import { ColumnContent } from './columnContent'
import { readMoment, readTimeCell } from './dateCell'
import { type Columns, findHeader, isNumber, rolesOfHeader } from './findHeader'
import { isForeignUnit, isGramsPerLitre, readGlucose, unitIn } from './glucoseCell'
import type { ColumnRole, DayOrder, LogColumn } from './logReport'
import type { NamedColumns } from './namedColumns'
import type { CsvRecord } from './records'
import { dateOrderInHeader, isSensorHeader, isTagHeader, plain, roleOfHeader } from './vocabulary'

/** Which column holds what, and where the rows begin. */
export interface ColumnPlan {
  readonly header: CsvRecord | null
  /** Line of the last row that belongs to the header; rows begin below it. 0 where there is none. */
  readonly lastHeaderLine: number
  readonly columns: readonly LogColumn[]
  readonly glucose: number
  /** Column of the date, with or without the time. */
  readonly date: number
  readonly time: number | null
  readonly unit: number | null
  readonly meal: number | null
  readonly note: number | null
  /** Further columns of notes: tags, temperature. */
  readonly tags: readonly number[]
  readonly meter: number | null
  readonly kind: number | null
  /** Insulin, carbohydrate and event columns. */
  readonly otherEntries: readonly number[]
  /** The kinds of entry that count as glucose, where a person named them. */
  readonly kindsNamed: readonly string[] | null
  /** Unit that the header or the units row names. */
  readonly headerUnit: GlucoseUnit | null
  /** Whether header or units row say grams per litre, of which 1 is 100 mg/dL. */
  readonly gramsPerLitre: boolean
  /** Whether they name another unit that is not read. */
  readonly foreignUnit: boolean
  /** Whether the column's header names values, not glucose. */
  readonly vagueValues: boolean
  /** Whether unquoted decimal commas part the values of a comma file in two cells. */
  readonly decimalsParted: boolean
  /** Order of the date that the header or the units row spells out. */
  readonly headerOrder: DayOrder | null
  readonly sensorColumn: boolean
  /** Whether the log is a table of readings that this program wrote, whose notes are guarded against spreadsheets. */
  readonly guardedNotes: boolean
  readonly notes: readonly string[]
}

/** Why no plan can be made; `candidates` are the columns to choose from. */
export interface NoPlan {
  readonly missing: 'glucose' | 'date' | 'named-column' | 'one-glucose-column'
  /** The name or number that no column has, for 'named-column'. */
  readonly name?: string
  readonly candidates: readonly CandidateColumn[]
  readonly line: number | null
}

/** A column to choose from, with the first cells that it holds. */
export interface CandidateColumn extends LogColumn {
  readonly cells: readonly string[]
}

/** Makes the plan from a log's first records. */
export function planColumns(head: readonly CsvRecord[], named: NamedColumns | null): ColumnPlan | NoPlan {
  const header = findHeader(head, named)
  const plan = planBelow(header, head, named)
  if (!('missing' in plan)) return plan
  const data = header ? head.slice(head.indexOf(header) + 1) : head
  return {
    ...plan,
    candidates: plan.candidates.map((column) => ({ ...column, cells: firstCells(data, column.index) })),
  }
}

const CELLS_SHOWN = 3

function firstCells(records: readonly CsvRecord[], index: number): readonly string[] {
  const cells = records.map((record) => (record.cells[index] ?? '').trim()).filter((cell) => cell !== '')
  return cells.slice(0, CELLS_SHOWN)
}

/** A plan that cannot be made, before the columns' cells are looked up. */
interface NoPlanYet extends Omit<NoPlan, 'candidates'> {
  readonly candidates: readonly LogColumn[]
}

function planBelow(
  header: CsvRecord | null,
  head: readonly CsvRecord[],
  named: NamedColumns | null,
): ColumnPlan | NoPlanYet {
  if (!header) return named ? planByNumber(head, named) : planByContent(head)
  const columns = rolesOfHeader(header)
  const missingName = named && nameRoles(columns, named, header.cells)
  if (missingName) return missingName
  return finishPlan(head, header, columns, named)
}

function nameRoles(columns: Columns, named: NamedColumns, cells: readonly string[]): NoPlanYet | null {
  for (const [role, name] of named.roles) {
    const index = isNumber(name) ? Number(name) - 1 : cells.findIndex((cell) => plain(cell) === plain(name))
    const column = columns.find((one) => one.index === index)
    if (!column) return { missing: 'named-column', name, candidates: columns, line: null }
    for (const other of columns) if (other.role === role) other.role = 'ignored'
    column.role = role
    column.weak = false
  }
  // A time that is named without a date holds both.
  if (named.roles.has('time') && !named.roles.has('date') && !named.roles.has('timestamp')) {
    for (const column of columns)
      if (column.role === 'timestamp' || column.role === 'date') column.role = 'ignored'
  }
  return null
}

/** A log without a header whose columns are named: dates and times that nobody named still tell themselves. */
function planByNumber(head: readonly CsvRecord[], named: NamedColumns): ColumnPlan | NoPlanYet {
  const columns = columnsByContent(head)
  for (const column of columns) if (column.role === 'glucose') column.role = 'ignored'
  return nameRoles(columns, named, []) ?? finishPlan(head, null, columns, named)
}

/**
 * A log without a header: the one column of dates, of times, of numbers. With two columns of numbers nothing tells
 * which holds the glucose: a doses' column has gaps and zeros, but a column of codes is as full as one of readings.
 */
function planByContent(head: readonly CsvRecord[]): ColumnPlan | NoPlanYet {
  const columns = columnsByContent(head)
  const content = new ColumnContent(head)
  const isGlucose = columns.filter(({ role }) => role === 'glucose').length === 1
  const others = columns.filter(({ role, index }) => role === 'ignored' && content.holdsNumbers(index))
  if (!isGlucose || others.length > 0 || !columns.some(({ role }) => role === 'date')) {
    return { missing: 'glucose', candidates: columns, line: head.find(hasCell)?.line ?? null }
  }
  return finishPlan(head, null, columns, null)
}

/** Share of a column's cells that must read as dates, times or values for it to be taken for such a column. */
const MOST_CELLS = 0.8
/** Rows by which a log without a header is judged. */
const ROWS_JUDGED = 60

function columnsByContent(head: readonly CsvRecord[]): Columns {
  const width = Math.max(0, ...head.map((record) => record.cells.length))
  const rows = head.filter(hasCell).slice(0, ROWS_JUDGED)
  return Array.from({ length: width }, (_, index) => {
    const cells = rows.map((record) => (record.cells[index] ?? '').trim()).filter((cell) => cell !== '')
    const share = (test: (cell: string) => boolean): number =>
      rows.length === 0 ? 0 : cells.filter(test).length / rows.length
    let role: ColumnRole = 'ignored'
    if (share((cell) => readMoment(cell) !== null) >= MOST_CELLS) role = 'date'
    else if (
      share((cell) => /\d[:.h]\d/.test(cell) && readTimeCell(cell) !== 'unreadable') >= MOST_CELLS &&
      share((cell) => cell.includes(':')) >= MOST_CELLS
    )
      role = 'time'
    else if (share(isPlausibleValue) >= MOST_CELLS) role = 'glucose'
    return { index, header: '', role, weak: false }
  })
}

function hasCell(record: CsvRecord): boolean {
  return record.cells.some((cell) => cell.trim() !== '')
}

function isPlausibleValue(cell: string): boolean {
  const value = readGlucose(cell)
  return value.kind === 'marker' || (value.kind === 'number' && value.value >= 1 && value.value <= 1000)
}

function finishPlan(
  head: readonly CsvRecord[],
  header: CsvRecord | null,
  columns: Columns,
  named: NamedColumns | null,
): ColumnPlan | NoPlanYet {
  const notes: string[] = []
  const content = new ColumnContent(header ? head.slice(head.indexOf(header) + 1) : head)
  const line = header?.line ?? null
  eventsThatAreKinds(columns, content)
  const first = (role: ColumnRole): number | null =>
    columns.find((column) => column.role === role)?.index ?? null
  const glucose = chooseGlucose(columns, content, named, notes)
  if (glucose === null) return { missing: 'glucose', candidates: columns, line }
  if (glucose === 'several') return { missing: 'one-glucose-column', candidates: columns, line }
  const note = columns.find(({ role, header: name }) => role === 'note' && !isTagHeader(name))
  const when = dateAndTime(columns, content, named, notes)
  if (when === null) return { missing: 'date', candidates: columns, line }
  const { date, time } = when
  const beside = header ? rowsBesideHeader(head, header, date, glucose) : []
  const texts = [header, ...beside].map((record) => record?.cells[glucose] ?? '')
  const dates = [header, ...beside].map((record) => record?.cells[date] ?? '')
  const gramsPerLitre = texts.some(isGramsPerLitre)
  return {
    header,
    lastHeaderLine: beside.at(-1)?.line ?? header?.line ?? 0,
    columns: columns.map(({ index, header: name, role }) => ({
      index,
      header: name,
      role: keptRole(index, role, { glucose, date, time }),
    })),
    glucose,
    date,
    time,
    unit: first('unit'),
    meal: first('meal'),
    note: note?.index ?? null,
    tags: columns.filter((column) => column.role === 'note' && column !== note).map(({ index }) => index),
    meter: first('meter'),
    kind: first('kind'),
    otherEntries: columns
      .filter(({ role }) => role === 'insulin' || role === 'carbohydrate' || role === 'event')
      .map(({ index }) => index),
    kindsNamed: named?.kinds ?? null,
    headerUnit: gramsPerLitre ? 'mg/dL' : (texts.map(unitIn).find((unit) => unit !== null) ?? null),
    gramsPerLitre,
    foreignUnit: texts.some(isForeignUnit),
    vagueValues: header !== null && roleOfHeader(columns[glucose].header) === 'weak-glucose',
    decimalsParted: header !== null && decimalsParted(head, header, glucose, columns),
    headerOrder: dates.map(dateOrderInHeader).find((order) => order !== null) ?? null,
    sensorColumn: isSensorHeader(columns[glucose].header),
    guardedNotes: ['logged_value', 'logged_at'].every((name) => header?.cells.includes(name)),
    notes,
  }
}

function keptRole(
  index: number,
  role: ColumnRole,
  used: { glucose: number; date: number; time: number | null },
): ColumnRole {
  if (index === used.date) return used.time === null ? 'timestamp' : 'date'
  if (role === 'glucose' && index !== used.glucose) return 'ignored'
  if ((role === 'date' || role === 'timestamp' || role === 'time') && index !== used.time) return 'ignored'
  return role
}
