import type { ColumnPlan, NoPlan, OtherPlan } from './columns'
import type { LogTable } from './logReport'
import { type NamedColumns, namesColumns } from './namedColumns'
import type { CsvRecord } from './records'
import { type RowReader, rowReader } from './readRows'
import { RowTable } from './rowTable'
import { addHalfDays, lacksHalfDays } from './tables/halfDays'
import { placeholderTime } from './tables/placeholderTime'
import { titleMeaning } from './tables/planDaysAcross'
import { planTable } from './tables/planTable'
import { RecordStream } from './tables/recordStream'
import { isDayHeading, shapeOf } from './tables/rowShape'
import { findTableStart, isDayRow, isSumLine, startsTable, type TableStart } from './tables/tableStart'
import { isGramsPerLitre, unitIn } from './glucoseCell'
import type { TableHead } from './tables/tableHead'
import { plain } from './words/plain'
import { headerWords } from './words/headerRole'
import { mealMoment } from './mealWords'
import { conceptsOf } from './words/concepts'
import { monthNumber } from './words/months'
import { withoutPersonKey } from './words/persons'
import { saysUtc } from './words/utc'

/** So many records are looked at to find where a table begins and what its columns hold. */
const LOOK_AHEAD = 240
/** So many to see whether a line heads another table. */
const LOOK_FOR_HEADER = 12

/** One table of a log, as it was read. */
export interface ReadTable {
  readonly plan: ColumnPlan | OtherPlan
  readonly told: LogTable
  /** Filled cells of columns that gave nothing, by index. */
  readonly filled: Readonly<Record<number, number>>
  /** Line of a name above the header where it stands again, another than the first; null where there is none. */
  readonly otherName: number | null
  /** A line of one text that ended the table, and may be the title of the next; '' where there is none. */
  readonly lastText: string
  /** What stands above its header as its title; '' where nothing does. */
  readonly title: string
}

/** All tables of a log, in the order of the file. */
export interface ReadTables {
  readonly rows: RowTable
  readonly tables: readonly ReadTable[]
  /** The first table whose columns could not be told, if any. */
  readonly open: NoPlan | null
  /** Where a field is too large, behind which nothing was read. */
  readonly tooLargeAt: number | null
}

/**
 * Reads a log's tables one after the other: where each begins is found by shape, what its columns hold by words and
 * content together. Every row of every table is in `rows`, those of tables without glucose set aside.
 */
export function readTables(
  records: Iterable<CsvRecord>,
  named: NamedColumns | null,
  delimiter: string,
  capacity: number,
): ReadTables {
  const stream = new RecordStream(records)
  const columns = named !== null && namesColumns(named) ? named : null
  const rows = new RowTable(capacity)
  const tables: ReadTable[] = []
  let open: NoPlan | null = null
  const preamble: CsvRecord[] = []
  const names = columns
    ? [...columns.roles.values()]
        .flat()
        .filter((name) => !/^\d+$/.test(name))
        .map(plain)
    : []
  for (;;) {
    const ahead = stream.peek(LOOK_AHEAD)
    if (ahead.length === 0) break
    const start = findTableStart(ahead, tables.length === 0 ? names : [])
    if (start === null) {
      const passed = ahead.length < LOOK_AHEAD ? ahead.length : LOOK_AHEAD >> 1
      if (tables.length === 0) preamble.push(...ahead.slice(0, passed))
      stream.skip(passed)
      continue
    }
    const above = ahead.slice(0, start.first)
    stream.skip(start.first)
    const head = stream.peek(LOOK_AHEAD)
    // What stands right above a later table goes before what stands above all.
    const ownUnit =
      tables.length === 0 ? null : unitOfLines(above.filter((line) => !isPartOfHeader(line, start)))
    if (tables.length === 0) preamble.push(...above)
    const title = start.title || tables.at(-1)?.lastText || titleOfSameGrid(tables.at(-1), start)
    const planned = planTable(
      {
        start: { ...start, title },
        rows: untilNextTable(head, start),
        preambleUtc: preamble.some(
          (line) => !isPartOfHeader(line, start) && !/\d/.test(line.text) && saysUtc(line.text),
        ),
        preambleUnit: ownUnit ?? unitOfLines(preamble),
      },
      columns,
    )
    // A row by itself below another table, without a header, is a closing line.
    const plan =
      start.isLone && tables.length > 0 && planned.kind === 'glucose' ? withoutReadings(planned) : planned
    if (plan.kind === 'open') open ??= plan
    // The unit of ketones or of means is none of the tables below them.
    if (plan.kind === 'other' && tables.length === 0)
      preamble.splice(0, preamble.length, ...above.filter((line) => isOfAllTables(line, start)))
    rows.addPart()
    const readable = plan.kind === 'open' ? asOther(plan) : plan
    tables.push({ ...readTable(stream, readable, start, rows, delimiter), title })
  }
  const placeholder = placeholderTime(rows)
  if (placeholder !== null) rows.dropTimes(placeholder)
  return {
    rows,
    tooLargeAt: stream.tooLargeAt,
    tables: withoutSensors(tables, rows),
    open:
      open ??
      (columns === null ? namesAbove(tables) : null) ??
      twins(tables, rows) ??
      halfDays(tables, rows, named),
  }
}

/** The title of the table above, where days run to the right in both and the same word heads their rows; '' elsewhere. */
function titleOfSameGrid(before: ReadTable | undefined, { daysAcross, header }: TableStart): string {
  if (before === undefined || !daysAcross || before.plan.kind !== 'glucose') return ''
  const isSame =
    before.plan.slots[0].day !== null &&
    withoutNumber(before.plan.header?.cells[0]) === withoutNumber(header?.cells[0])
  return isSame ? before.title : ''
}

/** 'Week 1' and 'Week 2' are the same word. */
function withoutNumber(cell = ''): string {
  return plain(cell.replace(/\d+/g, ' '))
}

/** Sets the tables of a sensor aside where another table holds the finger-sticks. */
function withoutSensors(tables: readonly ReadTable[], rows: RowTable): readonly ReadTable[] {
  const isSensor = ({ plan }: ReadTable): boolean => plan.kind === 'glucose' && plan.sensorColumn
  const fingerSticks = tables.some((table) => table.plan.kind === 'glucose' && !isSensor(table))
  if (!fingerSticks || !tables.some(isSensor)) return tables
  return tables.map((table, part) => {
    if (!isSensor(table)) return table
    const to = rows.partStarts.at(part + 1) ?? rows.n
    for (let row = rows.partStarts[part]; row < to; row++) rows.fates.setAside(row, 'other-table')
    return {
      plan: withoutReadings(table.plan),
      told: { ...table.told, read: false },
      filled: {},
      otherName: null,
      lastText: table.lastText,
      title: table.title,
    }
  })
}

function withoutReadings({ header, columns }: ColumnPlan | OtherPlan): OtherPlan {
  return { kind: 'other', header, date: null, columns }
}

/** The question whose readings are wanted, where a header stands again below another name. */
function namesAbove(tables: readonly ReadTable[]): NoPlan | null {
  for (const { plan, otherName } of tables) {
    if (plan.kind !== 'glucose' || otherName === null) continue
    const { glucose } = plan.slots[0]
    return {
      kind: 'open',
      missing: 'whose',
      header: plan.header,
      line: otherName,
      candidates: plan.columns
        .filter(({ index }) => index === glucose)
        .map((column) => ({ ...column, cells: [] })),
    }
  }
  return null
}

/** Words of letters alone that mean nothing known: they may be a name. Months, meals and measures are none. */
function mayBeName(text: string): boolean {
  return (
    /^\p{L}[\p{L}'. -]{1,30}$/u.test(text) &&
    text.split(' ').length <= 3 &&
    headerWords(text).role === null &&
    conceptsOf(text).size === 0 &&
    mealMoment(text) === null &&
    !text.split(' ').some((word) => monthNumber(plain(word)) !== null)
  )
}

/** Two tables of which nothing says that they hold glucose: either may be the one, and the other something else. */
function twins(tables: readonly ReadTable[], rows: RowTable): NoPlan | null {
  const vague = tables.filter(
    ({ plan, told }) => plan.kind === 'glucose' && !plan.saysGlucose && told.rows > 0,
  )
  if (vague.length < 2 || rows.n === 0) return null
  const { plan } = vague[0]
  return {
    kind: 'open',
    missing: 'one-table',
    header: plan.header,
    line: plan.header?.line ?? vague[0].told.firstLine,
    candidates: [],
  }
}

/** The question whether evenings are written as mornings; an answer of twelve hours puts them right. */
function halfDays(tables: readonly ReadTable[], rows: RowTable, named: NamedColumns | null): NoPlan | null {
  if (named?.clock === '24') return null
  for (const [part, { plan }] of tables.entries()) {
    const to = rows.partStarts.at(part + 1) ?? rows.n
    if (plan.kind === 'other' || !lacksHalfDays(rows, rows.partStarts[part], to)) continue
    if (named?.clock !== '12')
      return {
        kind: 'open',
        missing: 'half-days',
        header: plan.header,
        line: rows.line[rows.partStarts[part]],
        candidates: [],
      }
    addHalfDays(rows, rows.partStarts[part], to)
  }
  return null
}

/** A table whose columns cannot be told is set aside whole; whether it is asked about the log as a whole decides. */
function asOther(plan: NoPlan): OtherPlan {
  return {
    kind: 'other',
    header: plan.header,
    date: null,
    columns: [...plan.candidates].sort((a, b) => a.index - b.index),
  }
}

/** The records up to where another table begins. */
function untilNextTable(head: readonly CsvRecord[], start: TableStart): readonly CsvRecord[] {
  const sums = head.findIndex((record) => !isSumLine(record))
  for (let i = Math.max(0, sums); i < head.length; i++) {
    if (start.daysAcross && isDayRow(head, i)) return head.slice(0, i)
    if (shapeOf(head[i]).words > 0 && isOtherStart(head.slice(i, i + LOOK_FOR_HEADER), start.header, false))
      return head.slice(0, i)
  }
  return head
}

/** Whether another table begins here: a header, not this table's own again, or a title above one. */
function isOtherStart(records: readonly CsvRecord[], header: CsvRecord | null, isVague: boolean): boolean {
  const [first] = records
  // The header again goes on with the table, unless nothing says what either holds.
  if (header !== null && sameCells(first, header)) return isVague
  if (shapeOf(first).days === 0 && startsTable(records)) return true
  return false
}

function sameCells(a: CsvRecord, b: CsvRecord): boolean {
  const last = Math.max(shapeOf(a).last, shapeOf(b).last)
  for (let i = 0; i <= last; i++) if (plain(a.cells[i] ?? '') !== plain(b.cells[i] ?? '')) return false
  return true
}

/** Lines of one text that name a measure, above rows that have no header of their own. */
function isSectionTitle(records: readonly CsvRecord[]): boolean {
  const { filled, words } = shapeOf(records[0])
  if (filled !== 1 || words !== 1) return false
  const start = findTableStart(records.slice(1))
  if (start === null) return false
  // Only blank lines and further titles may stand between.
  return (
    records
      .slice(1, 1 + start.first)
      .every(
        (record) =>
          shapeOf(record).filled <= 1 ||
          isUnitLine(record) ||
          record === start.header ||
          record === start.group ||
          start.beside.includes(record),
      ) && titleNamesMeasure(records[0])
  )
}

/** Most cells of a line that names a unit for the rows below: 'Unit;mg/dL'. */
const MOST_OF_A_UNIT_LINE = 3

/** Whether a line says of which unit what follows is, and nothing else. */
function isUnitLine(record: CsvRecord): boolean {
  const { filled, days, times, values } = shapeOf(record)
  if (days + times + values > 0 || filled < 2 || filled > MOST_OF_A_UNIT_LINE) return false
  const texts = record.cells.filter((cell) => cell.trim() !== '')
  const isUnit = (cell: string): boolean => unitIn(cell) !== null || isGramsPerLitre(cell)
  return headerWords(texts[0]).role === 'unit' && texts.slice(1).some(isUnit)
}

/** Whether a line of a unit stands above the header of another table; blank lines and titles may stand between. */
function isUnitAbove(records: readonly CsvRecord[]): boolean {
  if (!isUnitLine(records[0])) return false
  const next = records.findIndex((record, i) => i > 0 && shapeOf(record).filled > 1 && !isUnitLine(record))
  return next > 0 && startsTable(records.slice(next))
}

function titleNamesMeasure(record: CsvRecord): boolean {
  const cell = record.cells.find((text) => text.trim() !== '') ?? ''
  const told = headerWords(cell)
  return told.glucose >= 2 || told.against !== null
}

function readTable(
  stream: RecordStream,
  plan: ColumnPlan | OtherPlan,
  start: TableStart,
  rows: RowTable,
  delimiter: string,
): Omit<ReadTable, 'title'> {
  const reader: RowReader = rowReader(rows, plan, delimiter)
  const titleMeter = meterInLine(start.title)
  if (titleMeter !== null) reader.takeMeter(titleMeter)
  let firstLine: number | null = null
  let lastLine = start.header?.line ?? 0
  const before = rows.n
  let afterBlank = false
  let otherName: number | null = null
  let last: CsvRecord | null = null
  // Goals and means right below the header are the table's first rows.
  let onlySums = start.header !== null
  for (;;) {
    const record = stream.next()
    if (record === null) break
    if (isBlank(record)) {
      afterBlank = true
      continue
    }
    if (!reader.fits(record)) {
      const ahead = [record, ...stream.peek(LOOK_FOR_HEADER)]
      const isEnd =
        (start.daysAcross && isDayRow(ahead, 0)) ||
        isOtherStart(ahead, start.header, afterBlank && plan.kind === 'glucose' && !plan.saysGlucose) ||
        isSectionTitle(ahead) ||
        isUnitAbove(ahead)
      // A table without a header takes its first row, or nothing would ever be read.
      const isFirstSum = onlySums && isSumLine(record)
      if (isEnd && !isFirstSum && (start.first > 0 || firstLine !== null)) {
        stream.giveBack(record)
        break
      }
      if (otherName === null && isOtherName(record, ahead, start)) otherName = record.line
      const meter = shapeOf(record).filled === 1 ? meterInLine(record.text.replace(/[;,\t|]+$/, '')) : null
      if (meter !== null) {
        reader.takeMeter(meter)
        continue
      }
      if (plan.kind === 'glucose' && plan.dayAbove && isDayHeading(record)) {
        reader.takeDay(record)
        continue
      }
      // A line that may be a day which was not understood ends the one above: its rows have no day.
      if (plan.kind === 'glucose' && plan.dayAbove && isUnknownDay(record)) reader.forgetDay()
    }
    last = record
    onlySums &&= isSumLine(record)
    afterBlank = false
    firstLine ??= record.line
    lastLine = record.line
    if (record.isBroken === true) rows.brokenQuotes.push(record.line)
    reader.read(record)
  }
  reader.finish()
  const told: LogTable = {
    headerLine: start.header?.line ?? null,
    firstLine: firstLine ?? lastLine,
    lastLine,
    read: plan.kind === 'glucose',
    rows: rows.n - before,
  }
  return { plan, told, filled: reader.filled, otherName, lastText: last === null ? '' : textAlone(last) }
}

/** The text of a line that holds one and nothing else; '' for any other. */
function textAlone(record: CsvRecord): string {
  const { filled, words } = shapeOf(record)
  if (filled !== 1 || words !== 1) return ''
  return (record.cells.find((cell) => cell.trim() !== '') ?? '').trim()
}

/** Whether a line is a name above the header's repetition, where another name stood above the header. */
function isOtherName(record: CsvRecord, ahead: readonly CsvRecord[], { header, title }: TableStart): boolean {
  if (header === null || title === '' || shapeOf(record).filled !== 1) return false
  const next = ahead.slice(1).find((line) => shapeOf(line).filled > 0)
  if (next === undefined || !sameCells(next, header)) return false
  const name = withoutPersonKey(record.cells.find((cell) => cell.trim() !== '')?.trim() ?? '')
  const first = withoutPersonKey(title)
  if (plain(name) === plain(first)) return false
  // Behind a key such as 'Resident:' anything stands for a person, also the number of a room.
  const isKeyed = first !== title && name !== (record.cells.find((cell) => cell.trim() !== '')?.trim() ?? '')
  return isKeyed || (mayBeName(name) && mayBeName(first))
}

/** 'Meter: kitchen': the meter that a line of its own names for the rows below; null where it names none. */
function meterInLine(line: string): string | null {
  const match = /^"?\s*([^:=]{2,30}?)\s*[:=]\s*(.{1,60}?)\s*"?$/.exec(line)
  return match && headerWords(match[1]).role === 'meter' ? match[2] : null
}

/** A line of one text with digits in it. */
function isUnknownDay(record: CsvRecord): boolean {
  const { filled, words } = shapeOf(record)
  return filled === 1 && words === 1 && /\d/.test(record.text)
}

function isBlank({ text, cells }: CsvRecord): boolean {
  if (text.length > cells.length - 1)
    for (const cell of cells) if (cell !== '' && cell.trim() !== '') return false
  return true
}

function isPartOfHeader(line: CsvRecord, { header, group, beside }: TableStart): boolean {
  return line === header || line === group || beside.includes(line)
}

/** Whether a line above a table without glucose may speak of other tables too: it is no part of its header or title. */
function isOfAllTables(line: CsvRecord, start: TableStart): boolean {
  return !isPartOfHeader(line, start) && titleMeaning(line.text) === null
}

function unitOfLines(lines: readonly CsvRecord[]): TableHead['preambleUnit'] {
  const units = new Set(
    lines
      .map(({ text }) => unitIn(text) ?? (isGramsPerLitre(text) ? 'g/L' : null))
      .filter((unit) => unit !== null),
  )
  return units.size === 1 ? ([...units][0] ?? null) : null
}
