import type { CandidateColumn, NoPlan, TablePlan } from '../columns'
import { isGramsPerLitre, unitIn } from '../glucoseCell'
import type { LogColumn } from '../logReport'
import type { NamedColumns } from '../namedColumns'
import type { CsvRecord } from '../records'
import { conceptsOf } from '../words/concepts'
import { kindMeaning } from '../words/kinds'
import { type ColumnProfile } from './columnProfile'
import { decimalColumns, decimalsParted, joinedDecimals } from './decimalsParted'
import { findKinds, kindsDiffer } from './findKinds'
import { findMoment } from './findMoment'
import { findValues } from './findValues'
import { isDayHeading, isSumRow, shapeOf } from './rowShape'
import { mayNamePersons, saysPatient, saysWhoMeasured } from '../words/persons'
import type { TableColumn } from './tableColumn'
import { columnsOf, datedRows, nameRoles, profilesOf, repeatsHeader, settleByContent } from './tableColumns'
import { plain } from '../words/plain'
import { isNoTick, isTick } from '../words/rowMarks'
import { weekdaysNamed } from '../words/weekdays'
import { planDaysAcross, titleMeaning } from './planDaysAcross'
import { finish } from './finishPlan'
import { isOwnFile, OWN_COLUMNS, type TableHead } from './tableHead'

/** Decides what each column of a table holds, by words and content together. */
export function planTable(table: TableHead, answer: NamedColumns | null): TablePlan {
  const { start } = table
  const named = answer ?? (isOwnFile(start.header) ? OWN_COLUMNS : null)
  const dayAbove = start.dayHeading !== null || table.rows.some(isDayHeading)
  const filled = datedRows(
    table.rows.filter(
      (record) =>
        shapeOf(record).filled > 0 &&
        !isDayHeading(record) &&
        !isSumRow(record) &&
        !repeatsHeader(record, start.header),
    ),
    start.header,
    dayAbove,
  )
  const decimals = decimalColumns(start.header)
  const parted = decimalsParted(filled, decimals)
  const rows =
    parted !== null
      ? filled.map((record) => ({
          ...record,
          cells: joinedDecimals(record.cells, decimals, parted),
        }))
      : filled
  const titleUnit = unitIn(start.title) ?? (isGramsPerLitre(start.title) ? 'g/L' : table.preambleUnit)
  const columns = columnsOf(start, rows, titleUnit === 'g/L')
  const missingName = named && nameRoles(columns, named)
  const line = start.header?.line ?? rows.at(0)?.line ?? null
  const open = (
    missing: NoPlan['missing'],
    likeliest: readonly number[] = [],
    more: Partial<NoPlan> = {},
  ): NoPlan => ({
    kind: 'open',
    missing,
    header: start.header,
    line,
    candidates: candidatesOf(columns, rows, likeliest),
    ...more,
  })
  if (missingName !== null) return open('named-column', [], { name: missingName })
  if (start.daysAcross && start.header !== null)
    return planDaysAcross(table, start.header, rows, columns, open, parted)
  const profiles = profilesOf(columns, rows)
  settleByContent(columns, profiles)
  const when = findMoment(columns, columns, profiles, dayAbove)
  // In a file of readings that this program wrote each row is one, whatever the log was called that it came from.
  const kindColumn = isOwnFile(start.header)
    ? null
    : findKinds(
        columns.filter(({ index }) => index !== when?.halfDay),
        profiles,
      )
  // Beside a column of glucose texts under another name are what was done or who did it, unless one of them says glucose.
  const entryKind = kindColumn !== null && isBesideGlucose(columns, profiles, kindColumn) ? null : kindColumn
  if (entryKind !== null) columns[entryKind].role = 'kind'
  const meanings = entryKind === null ? [] : [...profiles[entryKind].distinct.keys()].map(kindMeaning)
  const kindsSayGlucose = meanings.includes('glucose') || meanings.includes('sensor')
  const other = (): TablePlan => ({
    kind: 'other',
    header: start.header,
    date: when?.date ?? null,
    columns: logColumns(columns),
  })
  if (meanings.length > 0 && meanings.every((meaning) => meaning === 'other') && named === null)
    return other()
  const title = titleMeaning(start.title)
  if (
    named === null &&
    (title === 'sum' || (title === 'other' && !columns.some(({ words }) => words.glucose === 3)))
  )
    return other()
  const unitColumn = columns.find(({ role }) => role === 'unit')?.index ?? null
  // The rows of other kinds say nothing of the glucose's column.
  const telling = rows.filter(
    ({ cells }) =>
      (!kindsSayGlucose ||
        entryKind === null ||
        ['glucose', 'sensor'].includes(kindMeaning((cells[entryKind] ?? '').trim()))) &&
      (unitColumn === null || isGlucoseUnitCell((cells[unitColumn] ?? '').trim())),
  )
  const values = findValues(columns, telling.length > 0 ? profilesOf(columns, telling) : profiles, {
    saysGlucose: title === 'glucose' || kindsSayGlucose,
    hasUnits: unitColumn !== null && rows.some(({ cells }) => unitIn(cells[unitColumn] ?? '') !== null),
    hasHeader: start.header !== null,
    hasTime:
      when !== null && (when.time !== null || (when.date !== null && profiles[when.date].holdsMoments)),
    taken: [when?.date, when?.time, when?.minute, when?.halfDay, entryKind].filter(
      (index) => typeof index === 'number',
    ),
  })
  if (
    named === null &&
    values.kind === 'one' &&
    when?.time === null &&
    hasUnreadTimes(columns, profiles, when.date)
  ) {
    return open('one-time-column')
  }
  if (values.kind === 'one' && when !== null && when.rivalTime !== null && named === null)
    return open('one-time-column', [when.time ?? 0, when.rivalTime])
  const person = columns.find(
    (column) => column.index !== entryKind && isPersonColumn(column, profiles[column.index]),
  )
  if (person && values.kind !== 'none' && named?.kinds == null) {
    return open('kinds', [], {
      kinds: { column: person.index + 1, names: [...profiles[person.index].distinct.keys()], people: true },
    })
  }
  const codes = columns.find(
    (column) => column.index !== entryKind && isCodeColumn(column, codesIn(column.index, rows)),
  )
  if (codes && values.kind === 'one' && named?.kinds == null) {
    return open('kinds', [], {
      kinds: { column: codes.index + 1, names: [...new Set(codesIn(codes.index, rows))] },
    })
  }
  if (values.kind === 'none')
    return kindsSayGlucose ? open('glucose', numericColumns(columns, profiles)) : other()
  if (when === null) return values.kind === 'open' ? open('glucose', values.candidates) : open('date')
  if (values.kind === 'open') {
    if (values.bare !== undefined)
      return open('moment-or-other', values.candidates, { name: columns[values.bare[0]].header })
    const words = values.candidates.filter((index) => columns[index].words.glucose > 0).length
    return words > 1
      ? open('one-glucose-column', values.candidates, {
          together: [values.together ?? words, values.candidates.length],
        })
      : open('glucose', values.candidates)
  }
  if (when.rival !== null && named === null && values.kind === 'one')
    return open('one-date-column', [when.date ?? 0, when.rival])
  if (
    entryKind !== null &&
    !named?.kinds &&
    values.kind === 'one' &&
    columns[values.glucose].words.glucose < 3 &&
    title !== 'glucose'
  ) {
    const asked = unknownKinds(profiles[entryKind], profiles[values.glucose])
    if (asked) return open('kinds', [values.glucose], { kinds: { column: entryKind + 1, names: asked } })
  }
  return finish(table, columns, profiles, when, values, {
    entryKind,
    dayAbove,
    kindsNamed: named?.kinds ?? null,
    parted,
    isSensor: title === 'sensor',
    saysGlucose: title === 'glucose' || kindsSayGlucose,
  })
}

/** A column of persons that names more than one: whose readings are wanted cannot be told. */
function isPersonColumn({ header, named }: TableColumn, profile: ColumnProfile): boolean {
  if (named || profile.distinct.size < 2) return false
  if ([...profile.distinct.keys()].some((cell) => kindMeaning(cell) === 'glucose' || saysWhoMeasured(cell)))
    return false
  if (saysPatient(header)) return true
  return mayNamePersons(header) && !profile.holdsNumbers && profile.distinct.size < 0.5 * profile.filled
}

/** Whether a column is headed as glucose, and this one, headed as no kinds, names none in its cells. */
function isBesideGlucose(
  columns: readonly TableColumn[],
  profiles: readonly ColumnProfile[],
  kinds: number,
): boolean {
  const { named, words } = columns[kinds]
  if (named || words.role === 'kind' || words.role === 'meter') return false
  const cells = [...profiles[kinds].distinct.keys()]
  const areInitials = cells.every((cell) => /^\p{Lu}{1,3}$/u.test(cell))
  const saysGlucose =
    !areInitials && cells.some((kind) => ['glucose', 'sensor', 'control'].includes(kindMeaning(kind)))
  return (
    !saysGlucose &&
    columns.some(
      ({ words: { glucose, unit, against } }) =>
        (glucose === 3 || (glucose === 2 && unit)) && against === null,
    )
  )
}

/** Longest header of codes that nobody can know, and most codes below it. A design choice. */
const CODES = { header: 3, most: 4 } as const

/** Single letters below a header of as few: they may say that a row is a reading, or that it is none. */
function isCodeColumn({ header, role, words, named }: TableColumn, cells: readonly string[]): boolean {
  const codes = [...new Set(cells)]
  if (named || header === '' || codes.length < 2 || codes.length > CODES.most) return false
  if (!words.status && (role !== 'ignored' || plain(header).length > CODES.header)) return false
  return (
    codes.every((code) => /^\p{L}$/u.test(code) && kindMeaning(code) === 'unknown') &&
    !codes.every((code) => /^[HLN]$/i.test(code)) &&
    !codes.every((code) => weekdaysNamed(code) > 0) &&
    !codes.every((code) => isTick(code) || isNoTick(code))
  )
}

/** The cells of a column that stands in all rows; none where it is blank in one. */
function codesIn(index: number, rows: readonly CsvRecord[]): readonly string[] {
  const cells = rows.map((record) => (record.cells[index] ?? '').trim())
  return cells.includes('') ? [] : cells
}

/** Whether a column is headed as the time and holds numbers that were not understood as one. */
function hasUnreadTimes(
  columns: readonly TableColumn[],
  profiles: readonly ColumnProfile[],
  date: number | null,
): boolean {
  if (date !== null && profiles[date].holdsMoments) return false
  return columns.some(
    ({ index, words, header, role }) =>
      index !== date &&
      words.occasion >= 0 &&
      (((words.role === 'time' || (words.role === 'timestamp' && isHourWord(header))) &&
        profiles[index].holdsNumbers) ||
        (role !== 'note' && words.against === null && looksLikeClocks(profiles[index]))),
  )
}

/** Whether most cells of a column in most rows have the form of a clock time beside words that nobody knows. */
function looksLikeClocks({ cells, filled, rows, holdsTimes, holdsDates }: ColumnProfile): boolean {
  if (holdsTimes || holdsDates || filled < MOST_ROWS * rows || filled < 2) return false
  return cells.filter((cell) => CLOCK_WITHIN.test(cell)).length >= MOST_ROWS * filled
}
const MOST_ROWS = 0.8
const CLOCK_WITHIN = /^\D{0,10}([01]?\d|2[0-3])[:h][0-5]\d\D{0,10}$/

/** 'Measuring time', 'hour of the day': a moment by its words, a time of day beside a column of dates. */
function isHourWord(header: string): boolean {
  const concepts = conceptsOf(header)
  return concepts.has('time') || concepts.has('moment') || concepts.has('hour')
}

function isGlucoseUnitCell(cell: string): boolean {
  return cell === '' || unitIn(cell) !== null || /^mg$/i.test(cell) || isGramsPerLitre(cell)
}

function numericColumns(
  columns: readonly TableColumn[],
  profiles: readonly ColumnProfile[],
): readonly number[] {
  return columns.filter(({ index }) => profiles[index].holdsNumbers).map(({ index }) => index)
}

/** The kinds to ask about: none of them is known, and their values may be of different measures. */
function unknownKinds(kinds: ColumnProfile, values: ColumnProfile): readonly string[] | null {
  const names = [...kinds.distinct].sort((a, b) => b[1] - a[1])
  const meanings = names.map(([kind]) => kindMeaning(kind))
  if (meanings.some((meaning) => meaning === 'glucose' || meaning === 'sensor')) return null
  const unknown = names.filter((_, i) => meanings[i] === 'unknown').map(([kind]) => kind)
  if (unknown.length < 2 && !(unknown.length === 1 && meanings.includes('other'))) return null
  const codes = unknown.every((kind) => /^\W*\d+\W*$/.test(kind) || kind.length <= 3)
  return codes || kindsDiffer(kinds, values) ? unknown : null
}

function logColumns(columns: readonly TableColumn[]): readonly LogColumn[] {
  return columns.map(({ index, header, role }) => ({ index, header, role }))
}

function candidatesOf(
  columns: readonly TableColumn[],
  rows: readonly CsvRecord[],
  likeliest: readonly number[],
): readonly CandidateColumn[] {
  const rank = (index: number): number => {
    const at = likeliest.indexOf(index)
    return at < 0 ? likeliest.length : at
  }
  return [...columns]
    .sort((a, b) => rank(a.index) - rank(b.index) || a.index - b.index)
    .map(({ index, header, role }) => ({ index, header, role, cells: firstCells(rows, index) }))
}

/** So many cells of a column are shown with the question about it. */
const CELLS_SHOWN = 3

function firstCells(rows: readonly CsvRecord[], index: number): readonly string[] {
  return rows
    .map((record) => (record.cells[index] ?? '').trim())
    .filter((cell) => cell !== '')
    .slice(0, CELLS_SHOWN)
}
