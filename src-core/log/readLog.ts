import type { ColumnPlan } from './columns'
import { decideDateOrder } from './decideDateOrder'
import { decideUnit, type UnitPlan } from './decideUnit'
import { DELIMITERS, type DelimiterName, findDelimiter, headOf, headRecords, logRecords } from './dialect'
import { decodedText, detectEncoding, type EncodingDecision } from './encoding'
import type { DateOrderDecision, UnitDecision } from './logReport'
import { countedChunks, type ImportContext, type LogAnswers, type LogSource } from './logSource'
import { legendOf, withLegend } from './legend'
import { hasMonthsAbove, withMonthsAbove } from './monthAbove'
import { parseNamedColumns } from './namedColumns'
import { previewOf, previewOfYear } from './preview'
import { readFhirLog } from './fhir/readFhir'
import { columnRefusal, dateRefusal, refusal, unitRefusal, yearRefusal } from './questions'
import { readTables, type ReadTable, type ReadTables } from './readTables'
import type { CsvRecord } from './records'
import type { Refusal } from './refusal'
import type { RowTable } from './rowTable'
import { headerWords } from './words/headerRole'
import { plainDigits } from './words/plain'
import { findYearlessDates, withYears, type YearlessDates, yearsPossible } from './yearless'
import { calendarDate } from '../units/wallClock'

const MS_PER_DAY = 86_400_000

/** A log whose rows are read and whose open points are decided, before duplicates are looked for. */
export interface ReadLog {
  readonly source: LogSource
  readonly encoding: EncodingDecision
  /** 'none': a file of HL7 FHIR. */
  readonly delimiter: DelimiterName | 'none'
  /** Plan of the first table that was read. */
  readonly plan: ColumnPlan
  readonly tables: readonly ReadTable[]
  readonly table: RowTable
  /** Units by table. */
  readonly units: readonly UnitPlan[]
  /** The unit of the log as a whole. */
  readonly unit: UnitDecision
  readonly dateOrder: DateOrderDecision
  /** The year of the first of dates that name none, and whether a title above them gives it, not a person. */
  readonly yearGiven: { readonly year: number; readonly titled: boolean } | null
}

/** Reads one log, or says why it was refused and what answers that. `count` is told the bytes as they are read. */
export function readLog(
  source: LogSource,
  answers: LogAnswers,
  context: ImportContext,
  count: (bytes: number) => void = () => undefined,
): ReadLog | readonly Refusal[] {
  const counted = { chunks: () => countedChunks(source, count) }
  const encoding = detectEncoding(counted)
  if ('notText' in encoding) {
    return encoding.notText === 'empty'
      ? [refusal(source.name, 'empty-file', { key: 'empty-file' })]
      : [refusal(source.name, 'not-text', { key: 'not-text', form: encoding.notText })]
  }
  const beginning = firstNonBlank(decodedText(source, encoding.label))
  if (beginning === '') return [refusal(source.name, 'empty-file', { key: 'empty-file' })]
  if (beginning.startsWith('{')) return readFhirLog(source, encoding, answers, counted)
  if (/^(<|\[\s*[[{])/.test(beginning)) return [refusal(source.name, 'unreadable-file', { key: 'markup' })]

  const named = answers.columns === undefined ? null : parseNamedColumns(answers.columns)
  if (named && 'unreadable' in named) {
    return [refusal(source.name, 'no-glucose-column', { key: 'unreadable-columns', part: named.unreadable })]
  }
  const head = headOf(() => decodedText(source, encoding.label))
  const delimiter = findDelimiter(head, named)
  const beginningRecords = headRecords(head, DELIMITERS[delimiter])
  const tooLarge = (line: number) => [
    refusal(source.name, 'field-too-large', { key: 'field-too-large' }, { line }),
  ]
  const last = beginningRecords.at(-1)
  if (last?.isTooLarge) return tooLarge(last.line)
  const legend = legendOf(beginningRecords)
  const monthsAbove = hasMonthsAbove(beginningRecords)
  const numberOrder = answers.dates === 'ymd' ? null : (answers.dates ?? null)
  let yearless = monthsAbove ? null : findYearlessDates(beginningRecords, numberOrder, false)
  const today = calendarDate(Math.floor(context.nowMs / MS_PER_DAY))
  const yearOf = (dates: YearlessDates): number | null =>
    named?.year ??
    (dates.isTitled && yearsPossible(dates, today)[0] === dates.titleYear ? dates.titleYear : null)
  const askYear = (dates: YearlessDates): readonly Refusal[] => {
    const years = yearsPossible(dates, today)
    const preview = (each: number) => previewOfYear(head, delimiter, dates, each)
    return [yearRefusal(source.name, dates, years, preview)]
  }
  const tablesWith = (dates: YearlessDates | null, bytes: Pick<LogSource, 'chunks'>): ReadTables => {
    const written = logRecords(decodedText(bytes, encoding.label), DELIMITERS[delimiter])
    const whole = legend.size === 0 ? written : withLegend(written, legend)
    const all = monthsAbove ? withMonthsAbove(whole) : whole
    const year = dates === null ? null : yearOf(dates)
    const dated = dates === null || year === null ? all : withYears(all, dates, year)
    return readTables(dated, named, DELIMITERS[delimiter], encoding.lines)
  }
  if (yearless !== null && yearOf(yearless) === null) return askYear(yearless)
  let found = tablesWith(yearless, counted)
  if (
    !monthsAbove &&
    yearless === null &&
    !(found.tables.some(isRead) && found.open === null && hasReadDates(found.rows))
  ) {
    yearless = findYearlessDates(beginningRecords, numberOrder, true)
    if (yearless !== null && yearOf(yearless) === null) return askYear(yearless)
    if (yearless !== null) found = tablesWith(yearless, source)
  }
  const { rows, tables, open, tooLargeAt } = found
  if (tooLargeAt !== null) return tooLarge(tooLargeAt)
  rows.monthsAbove = monthsAbove
  const read = tables.filter(isRead)
  const blanks = read.length === 0 ? firstOfBlanks(beginningRecords) : null
  if (blanks !== null) return [refusal(source.name, 'unreadable-file', { key: 'blanks' }, { line: blanks })]
  // A table that cannot be told is asked about, unless another one is sure and this has no word of glucose.
  if (open !== null && (read.length === 0 || open.missing !== 'glucose')) {
    return [columnRefusal(source.name, open, (columns) => previewOf(head, delimiter, columns))]
  }
  const [first] = read
  if (read.length === 0 && tables.length === 0 && head.length < 400_000 && headerOf(beginningRecords)) {
    return [refusal(source.name, 'no-readings', { key: 'no-readings' }, { line: 1 })]
  }
  if (read.length === 0) {
    return [
      columnRefusal(
        source.name,
        {
          kind: 'open',
          missing: 'glucose',
          candidates: [],
          header: null,
          line: tables.at(0)?.told.headerLine ?? null,
        },
        () => [],
      ),
    ]
  }
  if (!hasReading(rows)) {
    const pair = firstPair(beginningRecords, first)
    const line = pair ?? first.plan.header?.line ?? null
    const key = pair === null ? 'no-readings' : 'two-values'
    return [refusal(source.name, 'no-readings', { key }, { line })]
  }
  const units = tables.map(({ plan }, part) => {
    const to = rows.partStarts.at(part + 1) ?? rows.n
    return plan.kind === 'other' || !hasReading(rows, rows.partStarts[part], to)
      ? ({ decision: { value: 'mg/dL', basis: 'values' }, ofUnmarkedRows: 'mg/dL' } satisfies UnitPlan)
      : decideUnit(rows, {
          from: rows.partStarts[part],
          to,
          header: plan.headerUnit,
          hasUnitColumn: plan.unit !== null,
          foreign: plan.foreignUnit,
          trusted: source.typed === true || plan.guardedNotes,
          answer: answers.unit ?? null,
          instead: answers.instead?.unit ?? null,
        })
  })
  // A day more: it may be tomorrow already where the log was written.
  const latestDay = Math.floor(context.nowMs / MS_PER_DAY) + 1
  const dateOrder = decideDateOrder(rows, {
    header: first.plan.headerOrder,
    answer: answers.dates ?? null,
    instead: answers.instead?.dates ?? null,
    thisYear: new Date(context.nowMs).getUTCFullYear(),
    latestDay,
  })
  const openUnit = units.find((unit) => 'open' in unit)
  const refusals: Refusal[] = []
  if (openUnit) refusals.push(unitRefusal(source.name, first.plan, rows, openUnit))
  if ('open' in dateOrder) refusals.push(dateRefusal(source.name, rows, dateOrder, latestDay))
  const decided = units.filter((unit): unit is UnitPlan => !('open' in unit))
  if ('open' in dateOrder || refusals.length > 0) return refusals
  const year = yearless === null ? null : yearOf(yearless)
  return {
    source,
    encoding,
    delimiter,
    plan: first.plan,
    tables,
    table: rows,
    units: decided,
    unit: unitOfLog(decided, tables, rows),
    dateOrder,
    yearGiven: year === null ? null : { year, titled: named?.year == null },
  }
}

/** '110/145', '6.4 - 8.1': two values in one cell. */
const PAIR = /^\d{1,3}(?:[.,]\d{1,2})?\s*(?:[-–—/;|]|to|bis|und|and|et|y|e|en|\s)\s*\d{1,3}(?:[.,]\d{1,2})?$/
const MOST_ARE_PAIRS = 0.5

/** The first line whose cell of glucose holds two values, where most of the table's filled ones do; null elsewhere. */
function firstPair(
  records: readonly CsvRecord[],
  { plan, told }: ReadTable & { readonly plan: ColumnPlan },
): number | null {
  const filled = records
    .filter(({ line }) => line >= told.firstLine && line <= told.lastLine)
    .flatMap(({ line, cells }) =>
      plan.slots.map(({ glucose }) => ({ line, cell: plainDigits(cells[glucose] ?? '').trim() })),
    )
    .filter(({ cell }) => cell !== '')
  const pairs = filled.filter(({ cell }) => PAIR.test(cell))
  return pairs.length > MOST_ARE_PAIRS * filled.length ? pairs[0].line : null
}

/** Fewest lines that tell, and the share of them that must be parted by blanks alone. */
const BLANKS = { fewest: 3, share: 0.6 } as const

/** The first line of a table whose columns are parted by blanks: no line has a delimiter, most have several blanks and a number. */
function firstOfBlanks(records: readonly CsvRecord[]): number | null {
  const lines = records.filter(({ text }) => text.trim() !== '')
  if (lines.length < BLANKS.fewest || lines.some(({ cells }) => cells.length > 1)) return null
  const parted = lines.filter(({ text }) => /\d/.test(text) && text.trim().split(/\s+/).length > 2)
  const wide = lines.filter(({ text }) => /\S\s{2,}\S/.test(text))
  return parted.length >= BLANKS.share * lines.length && wide.length > 0 ? lines[0].line : null
}

/** Whether a file without rows has a header of date and glucose. */
function headerOf(records: readonly CsvRecord[]): boolean {
  return records.some(({ cells }) => {
    const roles = cells.map((cell) => headerWords(cell).role)
    return roles.includes('glucose') && (roles.includes('date') || roles.includes('timestamp'))
  })
}

function isRead(table: ReadTable): table is ReadTable & { readonly plan: ColumnPlan } {
  return table.plan.kind === 'glucose'
}

/** The unit of the whole log: that of its tables, 'mixed' where they differ. */
function unitOfLog(units: readonly UnitPlan[], tables: readonly ReadTable[], rows: RowTable): UnitDecision {
  const decisions = units
    .filter(
      (_, part) =>
        tables[part].plan.kind === 'glucose' &&
        hasReading(rows, rows.partStarts[part], rows.partStarts.at(part + 1)),
    )
    .map(({ decision }) => decision)
  const [first] = decisions
  return decisions.every(({ value }) => value === first.value)
    ? first
    : { value: 'mixed', basis: first.basis }
}

function firstNonBlank(text: Iterable<string>): string {
  let head = ''
  for (const piece of text) {
    head = (head + piece).trimStart()
    if (head.length > 20) break
  }
  return head.slice(0, 20)
}

/** Fewest rows that must have a date that can be read, as a share of those whose dates cannot. */
const FEWEST_READ_DATES = 1

/** Whether there are readings, and not a few alone among dates of a form that is not known. */
function hasReadDates(table: RowTable): boolean {
  let read = 0
  let unreadable = 0
  for (let i = 0; i < table.n; i++) {
    const reason = table.fates.reasonOf(i)
    if (reason === null) read++
    else if (reason === 'unreadable-date') unreadable++
  }
  return read > 0 && read >= FEWEST_READ_DATES * unreadable
}

function hasReading(table: RowTable, from = 0, to = table.n): boolean {
  for (let i = from; i < to; i++) if (table.fates.reasonOf(i) === null) return true
  return false
}
