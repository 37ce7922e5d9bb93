import type { CsvRecord } from '../records'
import { isGramsPerLitre } from '../glucoseCell'
import { conceptsOf } from '../words/concepts'
import { headerWords } from '../words/headerRole'
import { plain } from '../words/plain'
import type { CellKind } from './cellKind'
import { holdsRangesAlone, isDataRow, isDayAlone, isDayHeading, isSumRow, shapeOf } from './rowShape'

/** Where a table begins, found by shape: a row of words above rows of dates and numbers. */
export interface TableStart {
  /** The lines of text right above it, '' where there are none. */
  readonly title: string
  /** A row of names above the header that stand for several columns each. */
  readonly group: CsvRecord | null
  readonly header: CsvRecord | null
  /** Rows of units and formats right below the header. */
  readonly beside: readonly CsvRecord[]
  /** A line with a day alone, right above the first row. */
  readonly dayHeading: CsvRecord | null
  /** Whether the days stand in the header, and each row is a time or a meal. */
  readonly daysAcross: boolean
  /** Whether nothing but the shape of one row speaks for a table. */
  readonly isLone: boolean
  /** Index of the first row among the records looked at. */
  readonly first: number
}

/** So many lines of words above the first row are looked at. */
const LINES_ABOVE = 6

/** The next table among these records; `names` are headers that a person gave. Null where none begins. */
export function findTableStart(
  records: readonly CsvRecord[],
  names: readonly string[] = [],
): TableStart | null {
  let spare: TableStart | null = null
  for (let i = 0; i < records.length; i++) {
    const record = records[i]
    const shape = shapeOf(record)
    if (shape.filled === 0) continue
    if (names.length > 0 && record.cells.some((cell) => names.includes(plain(cell)))) {
      return withHeader(records, i)
    }
    if (isDayRow(records, i)) return { ...bare(records, i), header: record, daysAcross: true, first: i + 1 }
    const dated = shape.days > 0 && shape.filled > 1
    if (!dated && !isDataRow(record) && !isClockRowBelowDay(records, i)) continue
    const start = startAbove(records, i)
    const runsOn = goesOn(records, i)
    // A dated row without a value may be a line of a preamble: it needs a header, and rows like it or plain words.
    const { header } = start
    const earlier = header === null ? null : startAtSameHeader(records, header)
    if (earlier !== null) return earlier
    const unread = header === null ? startAtReadingsHeader(records, i) : null
    if (unread !== null) return unread
    if (dated && !isDataRow(record) && (header === null || !(runsOn || headsReadings(header)))) continue
    if (start.header !== null || runsOn) return start
    if (!isPrintedLine(record)) spare ??= { ...start, isLone: true }
  }
  return spare
}

/** 'Printed;27.11.2026;10.01': a line about the file or a sum, no reading. */
function isPrintedLine({ cells }: CsvRecord): boolean {
  return cells.some((cell) => conceptsOf(cell).has('administrative') || conceptsOf(cell).has('statistic'))
}

/** '7.30;6,4' below a day and the header of both: a clock time with a dot looks like any number. */
function isClockRowBelowDay(records: readonly CsvRecord[], index: number): boolean {
  const { values, kinds } = shapeOf(records[index])
  if (values < 2) return false
  const [nearest, next] = linesAbove(records, index)
  const header = [nearest, next].find((line) => line !== undefined && headsReadings(line))
  const hasDay = [nearest, next].some((line) => line !== undefined && isDayHeading(line))
  if (header === undefined || !hasDay) return false
  return records[index].cells.some(
    (cell, i) =>
      kinds[i] === 'number' && BARE_CLOCK.test(cell.trim()) && isTemporalWord(header.cells[i] ?? ''),
  )
}
const BARE_CLOCK = /^(?:([01]?\d|2[0-3])\.|[01]\d|2[0-3])[0-5]\d$/

function bare(records: readonly CsvRecord[], first: number): TableStart {
  const above = linesAbove(records, first)
  return {
    title: titleOf(above),
    group: null,
    header: null,
    beside: [],
    dayHeading: null,
    daysAcross: false,
    isLone: false,
    first,
  }
}

/** The start of the table whose first row stands at an index, with the header above it if there is one. */
function startAbove(records: readonly CsvRecord[], firstData: number): TableStart {
  // Goals and means may stand between the header and the first row: they are rows of the table, and told as such.
  let first = firstData
  while (first > 0 && (isSumLine(records[first - 1]) || isNumbersBelowHeader(records, first - 1))) first--
  const above = linesAbove(records, first)
  const dayHeading = above.length > 0 && isDayHeading(above[0]) ? above[0] : null
  const lines = dayHeading ? above.slice(1) : above
  const beside: CsvRecord[] = []
  while (lines.length > beside.length && isBeside(lines[beside.length])) beside.push(lines[beside.length])
  const header =
    lines.length > beside.length && isHeaderLike(lines[beside.length], records[firstData])
      ? lines[beside.length]
      : null
  if (header === null) return { ...bare(records, first), title: titleOf(lines), dayHeading }
  const over = lines.at(beside.length + 1)
  const group = over !== undefined && isGroupRow(over, header) ? over : null
  const rest = lines.slice(beside.length + (group ? 2 : 1))
  // Where the header stands again below each day, the day stands above it.
  const dayOver = dayHeading ?? (rest.length > 0 && isDayAlone(rest[0]) ? rest[0] : null)
  return {
    title: titleOf(rest.filter((line) => line !== dayOver)),
    group,
    header,
    beside: beside.reverse(),
    dayHeading: dayOver,
    daysAcross: false,
    isLone: false,
    first,
  }
}

/** Goals without a name, right below a header: ranges or numbers, no day and no word. */
function isNumbersBelowHeader(records: readonly CsvRecord[], index: number): boolean {
  const record = records[index]
  const { filled, days, times, values, kinds } = shapeOf(record)
  if (days + times > 0 || kinds.at(0) !== 'blank' || filled === 0) return false
  if (values < filled && !holdsRangesAlone(record.cells)) return false
  const above = records.slice(0, index).findLast((line) => shapeOf(line).filled > 0)
  return above !== undefined && isHeaderLike(above, null) && shapeOf(above).filled > filled
}

/** A line of goals, means or totals that names no column. */
export function isSumLine(record: CsvRecord): boolean {
  // A header may name a mean: it has no value beside it.
  return (
    shapeOf(record).days === 0 &&
    /\d/.test(record.text) &&
    isSumRow(record) &&
    !record.cells.some(isTemporalWord)
  )
}

/** The start at an earlier line with the same header, whose rows were not known as such; null where there is none. */
function startAtSameHeader(records: readonly CsvRecord[], header: CsvRecord): TableStart | null {
  const at = records.findIndex((record) => record.line < header.line && sameWords(record, header))
  if (at < 0) return null
  const above = linesAbove(records, at)
  const dayHeading = above.length > 0 && isDayHeading(above[0]) ? above[0] : null
  return { ...withHeader(records, at), dayHeading, title: titleOf(dayHeading ? above.slice(1) : above) }
}

/** The start at a header of readings close above, whose first rows are none by their shape; null where there is none. */
function startAtReadingsHeader(records: readonly CsvRecord[], first: number): TableStart | null {
  for (let at = first - 1; at >= Math.max(0, first - LINES_ABOVE); at--) {
    if (isDataRow(records[at])) return null
    if (shapeOf(records[at]).numbers === 0 && isHeaderLike(records[at], null) && headsReadings(records[at])) {
      const above = linesAbove(records, at)
      const dayHeading = above.length > 0 && isDayHeading(above[0]) ? above[0] : null
      return { ...withHeader(records, at), dayHeading, title: titleOf(dayHeading ? above.slice(1) : above) }
    }
  }
  return null
}

function sameWords(a: CsvRecord, b: CsvRecord): boolean {
  const { words, last } = shapeOf(a)
  if (words < 2 || last !== shapeOf(b).last) return false
  return b.cells.every((cell, i) => plain(cell) === plain(a.cells[i] ?? ''))
}

/** Whether a header names both a moment and a value of glucose. */
function headsReadings({ cells }: CsvRecord): boolean {
  return cells.some(isTemporalWord) && cells.some((cell) => headerWords(cell).glucose >= 2)
}

/** The start below a header that a person named. */
function withHeader(records: readonly CsvRecord[], at: number): TableStart {
  let first = at + 1
  const beside: CsvRecord[] = []
  while (first < records.length && (isBeside(records[first]) || shapeOf(records[first]).filled === 0)) {
    if (shapeOf(records[first]).filled > 0) beside.push(records[first])
    first++
  }
  return { ...bare(records, at), header: records[at], beside, first }
}

/** The filled records right above an index, nearest first, up to a row of data. */
function linesAbove(records: readonly CsvRecord[], index: number): readonly CsvRecord[] {
  const lines: CsvRecord[] = []
  for (let i = index - 1; i >= 0 && lines.length < LINES_ABOVE; i--) {
    if (shapeOf(records[i]).filled === 0) continue
    if (isDataRow(records[i])) break
    lines.push(records[i])
  }
  return lines
}

/** The nearest lines of one text each; key and value pairs of a preamble belong to no title. */
function titleOf(above: readonly CsvRecord[]): string {
  const titles: string[] = []
  for (const line of above) {
    const { filled, words } = shapeOf(line)
    if (filled !== 1 || words !== 1) break
    titles.unshift(line.cells.find((cell) => cell.trim() !== '')?.trim() ?? '')
  }
  return titles.join(' ')
}

/** Whether a record may be the header of the row below it: words and no day, over cells that are none. */
export function isHeaderLike(record: CsvRecord, below: CsvRecord | null): boolean {
  const { kinds, filled, words, days, numbers, times } = shapeOf(record)
  if (words === 0 || days > 0 || holdsRangesAlone(record.cells)) return false
  if (filled === 1) return below !== null && record.cells.length > 1 && shapeOf(below).filled === 1
  if (numbers > 0 || times > 0) {
    // '07:00' and '2' head columns of hours; a clock time beside a number is a reading.
    if (filled < 3 || (numbers > 0 && times > 0)) return false
    const under = below === null ? null : shapeOf(below).kinds
    const named = record.cells.some(
      (cell, i) => kinds[i] === 'text' && isTemporalWord(cell) && (under === null || isTemporal(under[i])),
    )
    if (!named) return false
  }
  if (below === null) return true
  const row = shapeOf(below)
  // A note of words alone stands above no row; a header stands above every kind of cell.
  return row.kinds.some(
    (kind, i) => kind !== 'blank' && kind !== 'text' && kinds[i] !== undefined && kinds[i] !== 'blank',
  )
}

function isTemporal(kind: CellKind | undefined): boolean {
  return kind === 'day' || kind === 'moment' || kind === 'time'
}

function isTemporalWord(cell: string): boolean {
  const concepts = conceptsOf(cell)
  return concepts.has('date') || concepts.has('time') || concepts.has('moment')
}

/** The form of a date or a time and nothing else: '(DD.MM.YYYY)', 'hh:mm'. */
const FORMAT = /^[([]?\s*(?:[dmyjtahgsrnpå]{1,4}[-./: ]+){1,5}[dmyjtahgsrnpå]{1,4}\.?\s*[)\]]?$/iu

/** A row of units or formats below a header: a unit of glucose or the form of a date, no word for a column. */
function isBeside(record: CsvRecord): boolean {
  const { kinds, days, numbers, times, filled } = shapeOf(record)
  if (filled === 0 || days > 0 || numbers > 0 || times > 0) return false
  const texts = record.cells.filter(
    (cell, i) => kinds[i] === 'text' && !FORMAT.test(cell.trim()) && !isGramsAlone(cell),
  )
  const told = filled - texts.length
  return told > 0 && !texts.some((cell) => namesColumn(cell))
}

/** Longer cells say more than a unit. */
const LONGEST_GRAMS = 7

/** 'g/l' and no more: a unit, though none in which meters show values. */
function isGramsAlone(cell: string): boolean {
  return isGramsPerLitre(cell) && cell.trim().length <= LONGEST_GRAMS && !/\p{L}{3}/u.test(cell)
}

function namesColumn(cell: string): boolean {
  const { role, against } = headerWords(cell)
  return role !== null && role !== 'unit' && !(against === 'other' && cell.trim().length <= 5)
}

/** A row of names right above a header that each stand over several columns: fewer names, with gaps between them. */
function isGroupRow(record: CsvRecord, header: CsvRecord): boolean {
  const { filled, days, numbers, times, words, last } = shapeOf(record)
  if (words === 0 || days > 0 || numbers > 0 || times > 0 || record.line + 1 !== header.line) return false
  const gaps = record.cells.slice(0, last + 1).some((cell, i) => i > 0 && cell.trim() === '')
  return gaps && filled > 1 && filled < shapeOf(header).filled
}

/** Whether the days stand in this row and the rows below it are times or meals. */
export function isDayRow(records: readonly CsvRecord[], index: number): boolean {
  const { kinds, days, numbers, filled } = shapeOf(records[index])
  if (days < 2 || numbers > 0 || filled - days > 2 || (kinds[0] === 'day' && days === filled && filled < 3))
    return false
  if (kinds[0] === 'day' || kinds[0] === 'moment') return false
  const below = records.slice(index + 1).find((record) => shapeOf(record).filled > 0)
  if (below === undefined) return false
  const row = shapeOf(below)
  return (
    row.days === 0 &&
    row.values > 0 &&
    (row.kinds[0] === 'text' || row.kinds[0] === 'time' || BARE_CLOCK.test(below.cells[0].trim()))
  )
}

/** Whether the next filled record is of the same make: a table goes on, a line of a preamble does not. */
function goesOn(records: readonly CsvRecord[], index: number): boolean {
  const next = records.slice(index + 1).find((record) => shapeOf(record).filled > 0)
  if (next === undefined) return false
  const [here, there] = [shapeOf(records[index]), shapeOf(next)]
  return here.kinds.some(
    (kind, i) => (kind === 'day' || kind === 'moment' || kind === 'time') && there.kinds[i] === kind,
  )
}

/** Whether a new table begins at the first of these records, below rows of another one. */
export function startsTable(records: readonly CsvRecord[]): boolean {
  const [record] = records
  const { filled, words } = shapeOf(record)
  if (words === 0 || filled < 2) return isDayRow(records, 0)
  let i = 1
  while (
    i < records.length &&
    (shapeOf(records[i]).filled === 0 ||
      isBeside(records[i]) ||
      isDayHeading(records[i]) ||
      isSumRow(records[i]))
  )
    i++
  if (i >= records.length) return false
  const below = records[i]
  const isRow = shapeOf(below).days > 0 || isDataRow(below)
  if (isRow) return isHeaderLike(record, below)
  // A row of groups stands above the header.
  return (
    isHeaderLike(record, null) &&
    isHeaderLike(below, null) &&
    isGroupRow(record, below) &&
    startsTable(records.slice(i))
  )
}
