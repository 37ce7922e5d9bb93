import type { GlucoseUnit } from '../units/glucose'
import { readMoment, readTimeCell } from './dateCell'
import { ColumnContent } from './columnContent'
import { isForeignUnit, isGramsPerLitre, readGlucose, unitIn } from './glucoseCell'
import type { ColumnRole, DayOrder, LogColumn } from './logReport'
import type { CsvRecord } from './records'
import { dateOrderInHeader, isGlucoseKind, isSensorHeader, plain, roleOfHeader } from './vocabulary'

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
  /** Whether the log is a file of readings that this program wrote, whose notes are guarded against spreadsheets. */
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

/** What `--columns` says: role -> header or 1-based number, and the kinds of entry that count. */
export interface NamedColumns {
  readonly roles: ReadonlyMap<ColumnRole, string>
  readonly kinds: readonly string[] | null
}

const NAMEABLE: readonly ColumnRole[] = [
  'timestamp',
  'date',
  'time',
  'glucose',
  'unit',
  'meal',
  'note',
  'meter',
  'kind',
  'insulin',
  'carbohydrate',
  'event',
]

/** Parses `time=2,glucose=Wert,kind=3:48|57`. Returns the part that cannot be read instead, if any. */
export function parseNamedColumns(text: string): NamedColumns | { readonly unreadable: string } {
  const roles = new Map<ColumnRole, string>()
  let kinds: string[] | null = null
  for (const part of text.split(',')) {
    const match = /^\s*([a-z]+)\s*=\s*(.+?)\s*$/.exec(part)
    const role = NAMEABLE.find((name) => name === match?.[1])
    if (!match || !role || roles.has(role)) return { unreadable: part.trim() }
    let column = match[2]
    if (role === 'kind' && column.includes(':')) {
      const colon = column.indexOf(':')
      kinds = column
        .slice(colon + 1)
        .split('|')
        .map((kind) => kind.trim())
      column = column.slice(0, colon).trim()
    }
    roles.set(role, column)
  }
  return { roles, kinds }
}

/** Among how many records the header is looked for. */
const HEADER_WITHIN = 100
/** Longest header cell that is read as words. */
const LONGEST_HEADER_CELL = 80

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

function findHeader(head: readonly CsvRecord[], named: NamedColumns | null): CsvRecord | null {
  let best: CsvRecord | null = null
  let bestScore = 0
  const names = named ? [...named.roles.values()].filter((name) => !isNumber(name)).map(plain) : []
  for (const record of head.slice(0, HEADER_WITHIN)) {
    const score = headerScore(record, names)
    if (score > bestScore) {
      best = record
      bestScore = score
    }
  }
  return best
}

/** How much a record looks like the header; 0 where it cannot be one. */
function headerScore(record: CsvRecord, names: readonly string[]): number {
  let glucose = 0
  let date = 0
  let others = 0
  let named = 0
  for (const cell of record.cells) {
    if (cell === '' || cell.length > LONGEST_HEADER_CELL) continue
    if (names.length > 0 && names.includes(plain(cell))) named += 4
    // A row of data holds numbers and dates; the words of a header hold none outside brackets.
    if (/\d/.test(cell.replace(/[([{].*$/, '').replace(/\b[ah]?1c\b/i, '')) && !/^x?\d+$/.test(cell)) continue
    const role = roleOfHeader(cell)
    if (role === 'glucose') glucose = 4
    else if (role === 'weak-glucose') glucose = Math.max(glucose, 1.5)
    else if (role === 'timestamp' || role === 'date') date = Math.max(date, 2)
    else if (role === 'time') date = Math.max(date, 1.5)
    else if (role !== null) others += 0.25
  }
  if (named > 0) return 10 + named + glucose + date
  return date > 0 && (glucose > 0 || others > 0 || record.cells.length > 2)
    ? glucose + date + Math.min(others, 1)
    : 0
}

type Columns = { index: number; header: string; role: ColumnRole; weak: boolean }[]

function rolesOfHeader(header: CsvRecord): Columns {
  return header.cells.map((cell, index) => {
    const role = cell.length > LONGEST_HEADER_CELL ? null : roleOfHeader(cell)
    return {
      index,
      header: cell.trim(),
      role: role === 'weak-glucose' ? 'glucose' : (role ?? 'ignored'),
      weak: role === 'weak-glucose',
    }
  })
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

function isNumber(name: string): boolean {
  return /^\d+$/.test(name)
}

/** A log without a header whose columns are named: dates and times that nobody named still tell themselves. */
function planByNumber(head: readonly CsvRecord[], named: NamedColumns): ColumnPlan | NoPlanYet {
  const columns = columnsByContent(head)
  for (const column of columns) if (column.role === 'glucose') column.role = 'ignored'
  return nameRoles(columns, named, []) ?? finishPlan(head, null, columns, named)
}

/** A log without a header: the one column of dates, of times, of plausible values. */
function planByContent(head: readonly CsvRecord[]): ColumnPlan | NoPlanYet {
  const columns = columnsByContent(head)
  const line = head.find(hasCell)?.line ?? null
  if (!columns.some((column) => column.role === 'date'))
    return { missing: 'glucose', candidates: columns, line }
  if (columns.filter((column) => column.role === 'glucose').length !== 1) {
    return { missing: 'glucose', candidates: columns, line }
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
    note: first('note'),
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

/** Fewest rows that show it, and the share of all that must. */
const PARTED = { fewest: 3, share: 0.8 } as const

/** Whether most rows have one cell more than the header, and two short whole numbers where the value should be. */
function decimalsParted(
  head: readonly CsvRecord[],
  header: CsvRecord,
  glucose: number,
  columns: Columns,
): boolean {
  // A trailing delimiter also makes a cell too many; insulin beside glucose also makes two short numbers.
  const next = columns[glucose + 1]?.role
  if (next === 'insulin' || next === 'carbohydrate' || next === 'event' || next === 'glucose') return false
  const rows = head
    .slice(head.indexOf(header) + 1)
    .filter(({ cells }) => cells.some((cell) => cell.trim() !== ''))
  const parted = rows.filter(
    ({ cells }) =>
      cells.length === header.cells.length + 1 &&
      /^\d{1,2}$/.test(cells[glucose].trim()) &&
      /^\d$/.test(cells[glucose + 1].trim()),
  )
  return parted.length >= PARTED.fewest && parted.length >= PARTED.share * rows.length
}

/** A column of events that names glucose readings among them is one of kinds of entry. */
function eventsThatAreKinds(columns: Columns, content: ColumnContent): void {
  if (columns.some(({ role }) => role === 'kind')) return
  const kinds = columns.find(
    ({ role, index }) => role === 'event' && content.cells(index).some(isGlucoseKind),
  )
  if (kinds) kinds.role = 'kind'
}

/** Where date and time stand: by the headers' words, checked against what the columns hold. Null where nowhere. */
function dateAndTime(
  columns: Columns,
  content: ColumnContent,
  named: NamedColumns | null,
  notes: string[],
): { date: number; time: number | null } | null {
  const withRole = (role: ColumnRole): number[] =>
    columns.filter((column) => column.role === role).map(({ index }) => index)
  // Beside date and time of the meter a column in UTC is the exporter's.
  const own = withRole('date').length > 0 && withRole('time').length > 0
  const timestamps = withRole('timestamp').filter(
    (index) => !own || !/\b(utc|gmt)\b/i.test(columns[index].header),
  )
  const byWords = [...timestamps, ...withRole('date'), ...withRole('time')]
  const unknown = withRole('ignored').filter((index) => !content.isEmpty(index))
  const date =
    byWords.find((index) => content.holdsDates(index)) ??
    (byWords.length > 0 ? unknown.find((index) => content.holdsDates(index)) : undefined) ??
    byWords[0]
  if (date === undefined) return null
  const isNamed = named?.roles.has('time') ?? false
  const times = [...withRole('time'), ...timestamps].filter((index) => index !== date)
  if (content.holdsTimesOfDay(date) && !isNamed) return { date, time: null }
  const time =
    times.find((index) => content.holdsTimes(index)) ?? withRole('time').find((index) => index !== date)
  if (time !== undefined) return { date, time }
  const found = unknown.find((index) => index !== date && content.holdsTimes(index))
  if (found === undefined) return { date, time: null }
  notes.push(`Column ${String(found + 1)} is read as the time of day, by what it holds.`)
  return { date, time: found }
}

/**
 * The finger-stick's column before the sensor's, a plain word before a vague one, the fuller one else;
 * 'several' where rows fill now one, now another.
 */
function chooseGlucose(
  columns: Columns,
  content: ColumnContent,
  named: NamedColumns | null,
  notes: string[],
): number | null | 'several' {
  let candidates = columns.filter((column) => column.role === 'glucose')
  if (candidates.some((column) => !column.weak)) candidates = candidates.filter((column) => !column.weak)
  const fingerSticks = candidates.filter((column) => !isSensorHeader(column.header))
  if (fingerSticks.length > 0 && fingerSticks.length < candidates.length) {
    notes.push(
      `The log has a sensor's glucose beside the finger-stick's; the finger-sticks (column ${String(fingerSticks[0].index + 1)}) are read.`,
    )
    candidates = fingerSticks
  }
  if (candidates.length === 0) return null
  const chosen = candidates.reduce((best, column) =>
    content.values(column.index) > content.values(best.index) ? column : best,
  ).index
  if (candidates.length === 1) return chosen
  const others = candidates.filter(({ index }) => index !== chosen)
  const byTurns = others.some(({ index }) => content.holdsOtherReadings(index, chosen))
  if (byTurns && fingerSticks.length > 0 && !named?.roles.has('glucose')) return 'several'
  notes.push(
    `${String(candidates.length)} columns speak of glucose; column ${String(chosen + 1)} is read. Another is chosen with --columns glucose=NUMBER.`,
  )
  return chosen
}

/** Units and format rows right below the header: no date, no value, but a unit or a date's format. */
function rowsBesideHeader(
  head: readonly CsvRecord[],
  header: CsvRecord,
  date: number,
  glucose: number,
): readonly CsvRecord[] {
  const beside: CsvRecord[] = []
  for (const record of head.slice(head.indexOf(header) + 1)) {
    const dateCell = record.cells[date] ?? ''
    const valueCell = record.cells[glucose] ?? ''
    const isData = readMoment(dateCell) !== null || readGlucose(valueCell).kind === 'number'
    const isUnits = unitIn(valueCell) !== null || dateOrderInHeader(dateCell) !== null
    if (isData || !isUnits) break
    beside.push(record)
  }
  return beside
}
