import type { GlucoseUnit } from '../../units/glucose'
import type { CandidateColumn, ColumnPlan, NoPlan, PlanNote, TablePlan, ValueSlot } from '../columns'
import { readMoment, readTimeCell } from '../dateCell'
import { isForeignUnit, isGramsPerLitre, unitIn } from '../glucoseCell'
import type { ColumnRole, LogColumn } from '../logReport'
import type { NamedColumns } from '../namedColumns'
import type { CsvRecord } from '../records'
import { dateOrderInHeader } from '../words/dateOrderInHeader'
import { kindMeaning } from '../words/kinds'
import { isTagHeader } from '../words/tags'
import { conceptsOf } from '../words/concepts'
import { headerWords, isClockHeader } from '../words/headerRole'
import { plain, plainDigits } from '../words/plain'
import { isSumNote, LONGEST_SUM_WORDS } from '../words/sums'
import type { CellKind } from './cellKind'
import { ColumnProfile } from './columnProfile'
import { decimalsParted, joinedDecimals } from './decimalsParted'
import { findKinds, kindsDiffer } from './findKinds'
import { findMoment, type MomentColumns } from './findMoment'
import { findValues, holdsOthers, looksLikeGlucose, momentsOf, takeTurns } from './findValues'
import { isDayHeading, shapeOf } from './rowShape'
import type { TableColumn } from './tableColumn'
import type { TableStart } from './tableStart'

/** Longest header cell that is read as words. */
const LONGEST_HEADER_CELL = 120
const CELLS_SHOWN = 3

/** A table as far as it was looked at: its start and first rows. */
export interface TableHead {
  readonly start: TableStart
  readonly rows: readonly CsvRecord[]
  /** Unit that lines above all tables name; null where they name none or both. */
  readonly preambleUnit: GlucoseUnit | null
}

/** Columns of a file of readings that this program wrote: what the log had counts, not what was made of it. */
const OWN_COLUMNS: NamedColumns = {
  roles: new Map([
    ['timestamp', ['logged_at']],
    ['glucose', ['logged_value']],
    ['unit', ['logged_unit']],
  ]),
  kinds: null,
  clock: null,
}

function isOwnFile(header: CsvRecord | null): boolean {
  return (
    header !== null &&
    ['logged_value', 'logged_unit', 'logged_at'].every((name) => header.cells.includes(name))
  )
}

/** Decides what each column of a table holds, by words and content together. */
export function planTable(table: TableHead, answer: NamedColumns | null): TablePlan {
  const { start } = table
  const named = answer ?? (isOwnFile(start.header) ? OWN_COLUMNS : null)
  const filled = datedRows(
    table.rows.filter((record) => shapeOf(record).filled > 0 && !isDayHeading(record) && !isSumRow(record)),
  )
  const parted = decimalsParted(filled, start.header)
  const width = start.header?.cells.length ?? 0
  const rows = parted
    ? filled.map((record) => ({
        ...record,
        cells: joinedDecimals(record.cells, width, textColumns(start.header)),
      }))
    : filled
  const columns = columnsOf(start, rows)
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
    return planDaysAcross(table, start.header, rows, columns, open)
  const profiles = profilesOf(columns, rows)
  settleByContent(columns, profiles)
  const dayAbove = start.dayHeading !== null || table.rows.some(isDayHeading)
  const when = findMoment(columns, columns, profiles, dayAbove)
  const entryKind = findKinds(columns, profiles)
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
      kinds: { column: person.index + 1, names: [...profiles[person.index].distinct.keys()] },
    })
  }
  if (values.kind === 'none')
    return kindsSayGlucose ? open('glucose', numericColumns(columns, profiles)) : other()
  if (when === null) return values.kind === 'open' ? open('glucose', values.candidates) : open('date')
  if (values.kind === 'open') {
    const words = values.candidates.filter((index) => columns[index].words.glucose > 0).length
    return open(words > 1 ? 'one-glucose-column' : 'glucose', values.candidates)
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

/** Columns whose headers speak of texts: a number in one is no cell of it. */
function textColumns(header: CsvRecord | null): readonly number[] {
  return (header?.cells ?? []).flatMap((cell, index) =>
    ['note', 'meal', 'meter', 'unit'].includes(headerWords(cell).role ?? '') ? [index] : [],
  )
}

/** A column of persons that names more than one: whose readings are wanted cannot be told. */
function isPersonColumn({ header, named }: TableColumn, profile: ColumnProfile): boolean {
  const isPerson =
    /^(person|patient|name|who|family member|member|user|wer|nom|nombre|nome|naam|navn|namn|nimi|imie|jmeno|nev|isim|ad|ονομα|имя|名前|氏名|姓名)$/.test(
      plain(header),
    )
  return (
    !named &&
    isPerson &&
    !profile.holdsNumbers &&
    profile.distinct.size > 1 &&
    profile.distinct.size < 0.5 * profile.filled
  )
}

function profilesOf(columns: readonly TableColumn[], rows: readonly CsvRecord[]): readonly ColumnProfile[] {
  return columns.map(({ index }) => new ColumnProfile(rows, index))
}

/** Share of the rows that have a day or a time from which on the others are closing lines, not the table's own. */
const MOST_ARE_DATED = 0.5
/** Share of the rows with a day in one column that makes it the days' own; notes hold one now and then. */
const FEWEST_IN_PLACE = 0.3

/** The rows with a day or a time of their own, where most have one; no text stands where the others' days and times do. */
function datedRows(rows: readonly CsvRecord[]): readonly CsvRecord[] {
  const dated = rows.filter((record) => shapeOf(record).days + shapeOf(record).times > 0)
  if (dated.length < MOST_ARE_DATED * rows.length) return rows
  const places = [commonPlace(dated, ['day', 'moment']), commonPlace(dated, ['time'])]
  return dated.filter((record) => places.every((at) => at === null || shapeOf(record).kinds[at] !== 'text'))
}

/** The column in which most rows that hold a cell of these kinds hold it; null where they are few. */
function commonPlace(rows: readonly CsvRecord[], kinds: readonly CellKind[]): number | null {
  const counts: number[] = []
  let holding = 0
  for (const record of rows) {
    const at = shapeOf(record).kinds.flatMap((kind, i) => (kinds.includes(kind) ? [i] : []))
    if (at.length > 0) holding++
    for (const i of at) counts[i] = (counts[i] ?? 0) + 1
  }
  const most = counts.reduce((best, count) => Math.max(best, count), 0)
  const isCommon = most >= MOST_ARE_DATED * holding && most >= FEWEST_IN_PLACE * rows.length
  return isCommon ? counts.indexOf(most) : null
}

/** Whether a column is headed as the time and holds numbers that were not understood as one. */
function hasUnreadTimes(
  columns: readonly TableColumn[],
  profiles: readonly ColumnProfile[],
  date: number | null,
): boolean {
  if (date !== null && profiles[date].holdsMoments) return false
  return columns.some(
    ({ index, words }) =>
      words.role === 'time' && words.occasion >= 0 && index !== date && profiles[index].holdsNumbers,
  )
}

/** A line of means or totals among the rows; one with a day is one only where a cell says nothing else. */
function isSumRow(record: CsvRecord): boolean {
  const { kinds, days } = shapeOf(record)
  return record.cells.some((cell, i) => {
    if (kinds[i] !== 'text' || cell.length > LONGEST_SUM_WORDS) return false
    return days > 0
      ? conceptsOf(cell).has('statistic') && isSumNote(cell)
      : cell.length > 1 && /^\s*\p{L}/u.test(cell) && headerWords(cell).against === 'sum'
  })
}

function isGlucoseUnitCell(cell: string): boolean {
  return cell === '' || unitIn(cell) !== null || /^mg$/i.test(cell) || isGramsPerLitre(cell)
}

/** What a title says that its table is about. */
export function titleMeaning(title: string): 'glucose' | 'sensor' | 'other' | 'sum' | null {
  if (title === '') return null
  const { against, glucose, sensor } = headerWords(title)
  if (against === 'sum' || against === 'goal') return 'sum'
  if (against !== null) return against === 'other' ? 'other' : null
  if (sensor || conceptsOf(title).has('sensor')) return 'sensor'
  return glucose === 3 ? 'glucose' : null
}

function columnsOf(start: TableStart, rows: readonly CsvRecord[]): TableColumn[] {
  const { header, group, beside } = start
  const width = Math.max(header?.cells.length ?? 0, ...rows.map((record) => shapeOf(record).last + 1))
  let over = ''
  return Array.from({ length: width }, (_, index) => {
    const cell = (header?.cells[index] ?? '').trim()
    const above = (group?.cells[index] ?? '').trim()
    if (above !== '') over = above
    const below = beside.map(({ cells }) => (cells[index] ?? '').trim()).join(' ')
    const isText = cell.length <= LONGEST_HEADER_CELL
    const words = headerWords(isText ? cell : '', over, below)
    return {
      index,
      header: cell,
      name: [over, cell, below].filter((part) => part !== '').join(' '),
      words,
      role: words.role ?? 'ignored',
      named: false,
    }
  })
}

/** Gives the columns the roles that a person named; returns a name that no column has. */
function nameRoles(columns: TableColumn[], named: NamedColumns): string | null {
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
function settleByContent(columns: TableColumn[], profiles: readonly ColumnProfile[]): void {
  for (const column of columns) {
    if (column.named) continue
    const profile = profiles[column.index]
    const { role } = column
    if (profile.filled === 0) continue
    if (role !== 'glucose' && role !== 'note' && profile.isMostly(profile.units)) column.role = 'unit'
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

interface Rest {
  readonly entryKind: number | null
  readonly dayAbove: boolean
  readonly kindsNamed: readonly string[] | null
  readonly parted: boolean
  readonly isSensor: boolean
  readonly saysGlucose: boolean
}

function finish(
  table: TableHead,
  columns: TableColumn[],
  profiles: readonly ColumnProfile[],
  when: MomentColumns,
  values:
    | { readonly kind: 'one'; readonly glucose: number; readonly others: readonly number[] }
    | { readonly kind: 'several'; readonly glucose: readonly number[] },
  rest: Rest,
): ColumnPlan {
  const { start } = table
  const notes: PlanNote[] = []
  const indexes = values.kind === 'one' ? [values.glucose] : values.glucose
  const used = new Set<number>(indexes)
  if (values.kind === 'one') {
    if (values.others.length > 0)
      notes.push({ code: 'same-glucose-beside', column: values.glucose, columns: values.others.length + 1 })
    const sensor = columns.some(
      ({ words, index }) =>
        words.sensor &&
        words.glucose === 3 &&
        index !== values.glucose &&
        holdsOthers(profiles[index], profiles[values.glucose]),
    )
    if (sensor && !columns[values.glucose].words.sensor)
      notes.push({ code: 'sensor-beside', column: values.glucose })
  } else notes.push({ code: 'several-in-a-line', columns: indexes.length })
  const first = (role: ColumnRole): number | null =>
    columns.find((column) => column.role === role && !used.has(column.index))?.index ?? null
  const unitColumn = first('unit')
  const meal =
    columns.find(({ role, index }) => role === 'meal' && !used.has(index))?.index ??
    mealByContent(columns, profiles, used, when)
  const texts = (index: number): string => `${columns[index].name}`
  const owns = indexes.length > 1 ? momentsOf(indexes, columns, profiles) : null
  const slots = indexes.map((index): ValueSlot => {
    const own = indexes.length > 1 ? (owns?.get(index) ?? null) : null
    const column = columns[index]
    const byMoment = indexes.length > 1 && (column.words.moment || isClockHeader(column.header))
    const clock = byMoment && isClockHeader(column.header) ? clockOf(column.header) : null
    const gramsPerLitre = isGramsPerLitre(texts(index))
    return {
      glucose: index,
      date: own?.date ?? when.date,
      day: null,
      time: own?.time ?? (own === null && clock === null ? when.time : null),
      minute: (own ?? when).minute,
      halfDay: (own ?? when).halfDay,
      dotClock: (own ?? when).dotClock,
      timeInWords: isInWords(profiles, (own ?? when).time),
      clock,
      sharesTime: indexes.length > 1 && own === null && clock === null,
      meal: indexes.length === 1 || !byMoment ? meal : null,
      mealText:
        byMoment && clock === null
          ? [groupOf(start, index), column.header].filter((part) => part !== '').join(' ')
          : '',
      headerUnit: gramsPerLitre ? 'mg/dL' : (unitIn(texts(index)) ?? null),
      gramsPerLitre,
    }
  })
  for (const slot of slots)
    for (const index of [slot.date, slot.time, slot.minute, slot.halfDay, slot.meal])
      if (index !== null) used.add(index)
  const hasTimes = when.time !== null || (when.date !== null && profiles[when.date].holdsMoments)
  if (hasTimes && slots.some(({ sharesTime }) => sharesTime) && !takeTurns(indexes, profiles))
    notes.push({ code: 'time-of-several' })
  if (values.kind === 'one' && when.time !== null && columns[when.time].words.role === null)
    notes.push({ code: 'time-by-content', column: when.time })
  const units = new Set(slots.flatMap(({ headerUnit }) => (headerUnit === null ? [] : [headerUnit])))
  // A unit that one of several headers names is that of all.
  const ownUnit = units.size === 1 ? ([...units][0] ?? null) : null
  const titleUnit = unitIn(start.title) ?? table.preambleUnit
  const contradicted = ownUnit !== null && titleUnit !== null && ownUnit !== titleUnit
  const noteColumn = columns.find(
    ({ role, header, index }) => role === 'note' && !used.has(index) && !isTagHeader(header),
  )
  const status = columns.find(({ words, index }) => words.status && !used.has(index))?.index ?? null
  const dates = [...new Set(slots.map(({ date }) => date))].flatMap((date) =>
    date === null ? [] : [columns[date].name],
  )
  const gramsPerLitre = slots.some((slot) => slot.gramsPerLitre)
  const main = columns[indexes[0]]
  return {
    kind: 'glucose',
    header: start.header,
    columns: columns.map(({ index, header, role }) => ({
      index,
      header,
      role: keptRole(index, role, slots, rest.entryKind, meal),
    })),
    slots: contradicted ? slots.map((slot) => ({ ...slot, headerUnit: null })) : slots,
    dayAbove: rest.dayAbove && slots.some(({ date }) => date === null || profiles[date].filled === 0),
    dayHeading: start.dayHeading,
    unit: unitColumn,
    note: noteColumn?.index ?? null,
    tags: columns
      .filter((column) => column.role === 'note' && column !== noteColumn && !used.has(column.index))
      .map(({ index }) => index),
    meter:
      first('meter') ??
      (rest.entryKind !== null && columns[rest.entryKind].words.role === 'meter' ? rest.entryKind : null),
    entryKind: rest.entryKind,
    guards: columns
      .filter(({ index, role, words, header }) => {
        const isOpen =
          role === 'kind' ||
          role === 'glucose' ||
          (role === 'ignored' && words.role === null && header !== '')
        return !used.has(index) && index !== rest.entryKind && isOpen
      })
      .map(({ index }) => index),
    status,
    otherEntries: columns
      .filter(
        ({ role, index }) =>
          !used.has(index) && (role === 'insulin' || role === 'carbohydrate' || role === 'event'),
      )
      .map(({ index }) => index),
    kindsNamed: rest.kindsNamed,
    headerUnit: contradicted ? null : (ownUnit ?? (units.size === 0 ? titleUnit : null)),
    gramsPerLitre,
    foreignUnit: slots.some(({ glucose }) => isForeignUnit(texts(glucose))),
    vagueValues: !conceptsOf(main.name).has('glucose'),
    decimalsParted: rest.parted,
    headerOrder: dates.map(dateOrderInHeader).find((order) => order !== null) ?? null,
    sensorColumn: main.words.sensor || rest.isSensor,
    saysGlucose:
      rest.saysGlucose ||
      indexes.some(
        (index) => columns[index].words.glucose === 3 || columns[index].words.unit || columns[index].named,
      ),
    guardedNotes: isOwnFile(start.header),
    notes,
  }
}

/** Whether a column of times holds words for parts of the day and no clock times. */
function isInWords(profiles: readonly ColumnProfile[], time: number | null): boolean {
  return time !== null && profiles[time].momentWords > 0 && profiles[time].isMostly(profiles[time].texts)
}

function groupOf({ group }: TableStart, index: number): string {
  if (group === null) return ''
  for (let i = Math.min(index, group.cells.length - 1); i >= 0; i--) {
    const cell = group.cells[i].trim()
    if (cell !== '') return cell
  }
  return ''
}

/** A column of words for meals under a header of other words. */
function mealByContent(
  columns: readonly TableColumn[],
  profiles: readonly ColumnProfile[],
  used: ReadonlySet<number>,
  when: MomentColumns,
): number | null {
  const wordsForTime =
    when.time !== null && profiles[when.time].isMostly(profiles[when.time].momentWords) ? when.time : null
  if (wordsForTime !== null) return wordsForTime
  return (
    columns.find(
      ({ index, role, words }) =>
        !used.has(index) &&
        (role === 'ignored' || role === 'kind') &&
        words.against === null &&
        profiles[index].isMostly(profiles[index].momentWords),
    )?.index ?? null
  )
}

function clockOf(header: string): ValueSlot['clock'] {
  const text = plainDigits(header).trim()
  const match = /([01]?\d|2[0-3])([:.h]\s?[0-5]\d|\s?(?:h|uhr|am|pm|時|点))/i.exec(text)
  if (!match) return null
  const time = readTimeCell(
    match[0]
      .replace(/\s?(uhr|時|点)$/i, ':00')
      .replace(/h$/i, ':00')
      .replace('.', ':'),
  )
  return typeof time === 'object' ? time : null
}

function keptRole(
  index: number,
  role: ColumnRole,
  slots: readonly ValueSlot[],
  entryKind: number | null,
  meal: number | null,
): ColumnRole {
  if (slots.some(({ glucose }) => glucose === index)) return 'glucose'
  const slot = slots.find(({ date, time, minute, halfDay }) => [date, time, minute, halfDay].includes(index))
  if (slot)
    return index === slot.date ? (slot.time === null && slot.clock === null ? 'timestamp' : 'date') : 'time'
  if (index === entryKind) return 'kind'
  if (index === meal) return 'meal'
  if (role === 'glucose' || role === 'date' || role === 'timestamp' || role === 'time' || role === 'kind')
    return 'ignored'
  return role
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

function firstCells(rows: readonly CsvRecord[], index: number): readonly string[] {
  return rows
    .map((record) => (record.cells[index] ?? '').trim())
    .filter((cell) => cell !== '')
    .slice(0, CELLS_SHOWN)
}

/** A table whose days stand in the header: each row is a time or a meal. */
function planDaysAcross(
  table: TableHead,
  header: CsvRecord,
  rows: readonly CsvRecord[],
  columns: readonly TableColumn[],
  open: (missing: NoPlan['missing']) => NoPlan,
): TablePlan {
  const { kinds } = shapeOf(header)
  const label = columns[0]
  const days = columns.filter(({ index }) => kinds[index] === 'day' || kinds[index] === 'moment')
  const profiles = columns.map(({ index }) => new ColumnProfile(rows, index))
  const isGlucose = days.every(
    ({ index }) =>
      profiles[index].filled === 0 || (profiles[index].holdsNumbers && profiles[index].fitsGlucose),
  )
  const titles = `${table.start.title} ${label.header}`.trim()
  const title = titleMeaning(titles)
  const moments = profiles[0].isMostly(profiles[0].momentWords)
  if (!isGlucose || title === 'other' || title === 'sum') {
    return {
      kind: 'other',
      header,
      date: null,
      columns: columns.map(({ index, header: name, role }) => ({ index, header: name, role })),
    }
  }
  const isTime = profiles[label.index].holdsTimes
  const unit = unitIn(titles)
  const varied = days.some(({ index }) => looksLikeGlucose(profiles[index]))
  if (title !== 'glucose' && unit === null && !(moments && varied)) return open('glucose')
  const titleUnit = unit ?? table.preambleUnit
  const slots = days.map(({ index }): ValueSlot => ({
    glucose: index,
    date: null,
    day: readMoment(plainDigits(header.cells[index])),
    time: isTime ? label.index : null,
    minute: null,
    halfDay: null,
    dotClock: false,
    timeInWords: false,
    clock: null,
    sharesTime: false,
    meal: isTime ? null : label.index,
    mealText: '',
    headerUnit: null,
    gramsPerLitre: false,
  }))
  return {
    kind: 'glucose',
    header,
    columns: columns.map(({ index, header: name }) => ({
      index,
      header: name,
      role:
        index === label.index
          ? isTime
            ? 'time'
            : 'meal'
          : days.some((day) => day.index === index)
            ? 'glucose'
            : 'ignored',
    })),
    slots,
    dayAbove: false,
    dayHeading: null,
    unit: null,
    note: null,
    tags: [],
    meter: null,
    entryKind: null,
    guards: [],
    status: null,
    otherEntries: [],
    kindsNamed: null,
    headerUnit: titleUnit,
    gramsPerLitre: false,
    foreignUnit: false,
    vagueValues: false,
    decimalsParted: false,
    headerOrder: null,
    sensorColumn: false,
    saysGlucose: true,
    guardedNotes: false,
    notes: [{ code: 'several-in-a-line', columns: slots.length }],
  }
}
