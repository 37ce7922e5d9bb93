import { dayNumber, dayOf } from '../units/wallClock'
import { clockNotes } from './clockSense'
import { DELIMITERS } from './dialect'
import { type Duplicate, findDuplicates } from './duplicates'
import { decodedText } from './encoding'
import { fhirRowTexts } from './fhir/readFhir'
import { type LogEntry, type RepeatedRow, resolveEntries } from './entries'
import type { LogNote, LogReport, SetAsideRow, UnusedColumn } from './logReport'
import type { ImportContext } from './logSource'
import type { ReadLog } from './readLog'
import { FLAG, type Readings, ReadingsBuilder } from './readings'
import { records } from './records'
import { mayBeLow, resolveRows } from './resolveRows'
import { DAY, type RowFates, type RowTable, UTC_OF_OPEN_DAY } from './rowTable'
import { type Shift, shiftsOf } from './shifts'
import { copied } from './textColumn'

/** Several logs merged: what each held, and every reading counted once. */
export interface Logbook {
  readonly sources: readonly LogReport[]
  readonly readings: Readings
  readonly duplicatesAcrossLogs: number
  /** Insulin, carbohydrates and events as the logs have them, in order of time. */
  readonly entries: readonly LogEntry[]
}

/** Dated before 2005 in a log of later years, a row shows a clock that fell back to its factory date. */
const CLOCK_RESET_BEFORE = dayNumber(2005, 1, 1) ?? NaN

/** Readings on the median day from which on a log is one of a sensor. */
const SENSOR_READINGS_A_DAY = 48

/** Duplicates from which on two logs without a meter column are taken for one meter. */
const DUPLICATES_OF_ONE_METER = 3

/** Merges logs that are read: resolves times and units, sets aside what cannot be, counts repeats of a row once. */
export function mergeLogs(
  logs: readonly ReadLog[],
  context: ImportContext,
  shifts: readonly Shift[] = [],
): Logbook {
  const draft = new ReadingsBuilder(logs.reduce((sum, { table }) => sum + table.n, 0))
  const fates = logs.map(({ table }) => table.fates.copy(table.n))
  logs.forEach((log, source) => resolveRows(log, fates[source], source, context, shifts, draft))
  const order = draft.inOrder()
  const tables = logs.map(({ table }) => table)
  const left = new Uint8Array(draft.n)
  const leave = (place: number, reason: 'clock-reset' | 'duplicate'): void => {
    left[place] = 1
    fates[draft.source[place]].setAside(draft.row[place], reason)
  }
  for (const place of fellBackToFactoryDate(draft, tables)) leave(place, 'clock-reset')
  for (const place of equalDayOnlyRows(draft, tables, left)) leave(place, 'duplicate')
  const sensor = sensorLogs(draft, logs.length)
  for (let place = 0; place < draft.n; place++) {
    if (sensor[draft.source[place]]) draft.flags[place] |= FLAG.sensor
  }
  const duplicates = findDuplicates(draft, order, left)
  for (const { place } of duplicates) leave(place, 'duplicate')
  const across = duplicates.filter(({ place, of }) => draft.source[place] !== draft.source[of])

  nameMeters(draft, logs.length, across)
  const repeated = repeatedRows(draft, tables, duplicates)
  const readings = draft.build(order.filter((place) => left[place] === 0))
  return {
    sources: logs.map((log, source) => reportOf(log, fates[source], source, readings, context, shifts)),
    readings,
    duplicatesAcrossLogs: across.length,
    entries: resolveEntries(logs, context.zone, shifts, repeated),
  }
}

/** Places of readings dated before 2005 in logs whose median reading is later. */
function fellBackToFactoryDate(draft: ReadingsBuilder, tables: readonly RowTable[]): readonly number[] {
  const early: number[][] = tables.map(() => [])
  const total = tables.map(() => 0)
  for (let place = 0; place < draft.n; place++) {
    const source = draft.source[place]
    // A person types readings without a meter's clock.
    if (draft.flags[place] & FLAG.typed) continue
    total[source]++
    if (dayOf(draft.at[place]) < CLOCK_RESET_BEFORE) early[source].push(place)
  }
  return early.filter((places, source) => places.length <= total[source] >> 1).flat()
}

/** Places of readings without a time whose row stands letter for letter in the same log before. */
function equalDayOnlyRows(
  draft: ReadingsBuilder,
  tables: readonly RowTable[],
  left: Uint8Array,
): readonly number[] {
  const rows = tables.map((table) => new Set(table.equalRows.map(({ row }) => row)))
  if (rows.every(({ size }) => size === 0)) return []
  const places: number[] = []
  for (let place = 0; place < draft.n; place++) {
    if (left[place] === 0 && rows[draft.source[place]].has(draft.row[place])) places.push(place)
  }
  return places
}

/** The rows that stand before in the same log: letter for letter where they have no time, else by their reading. */
function repeatedRows(
  { source, row }: ReadingsBuilder,
  tables: readonly RowTable[],
  duplicates: readonly Duplicate[],
): readonly RepeatedRow[] {
  const repeated: RepeatedRow[] = tables.flatMap(({ equalRows }, log) =>
    equalRows.map((equal) => ({ source: log, row: equal.row, of: equal.first })),
  )
  /** The place in each log that is one with a kept reading, by both. */
  const firsts = new Map<string, number>()
  for (const { place, of } of duplicates) {
    const log = source[place]
    const key = `${of} ${log}`
    const first = source[of] === log ? of : firsts.get(key)
    if (first === undefined) firsts.set(key, place)
    else repeated.push({ source: log, row: row[place], of: row[first] })
  }
  return repeated
}

/** Gives logs that name no meter 'meter A', 'meter B'; logs that share readings are one meter. */
function nameMeters(draft: ReadingsBuilder, logs: number, across: readonly Duplicate[]): void {
  const unnamed = draft.meters.values.indexOf('')
  if (unnamed < 0) return
  const names = namesOfMeters(draft, logs, across)
  for (let place = 0; place < draft.n; place++) {
    if (draft.meter[place] === unnamed) draft.meter[place] = draft.meters.indexOf(names[draft.source[place]])
  }
}

/** Name of each log's unnamed meter: another log's, where they share readings, else the next letter. */
function namesOfMeters(draft: ReadingsBuilder, logs: number, across: readonly Duplicate[]): string[] {
  const nameOf = (place: number): string => draft.meters.values[draft.meter[place]]
  const shared = new Map<string, number>()
  const identity: (number | string)[] = Array.from({ length: logs }, (_, log) => log)
  for (const { place, of } of across) {
    // The log whose meter is unnamed, and whose meter it may be.
    const log = draft.source[nameOf(place) === '' ? place : of]
    const other = nameOf(place) === '' ? of : place
    if (nameOf(of) !== '' && nameOf(place) !== '') continue
    const pair = JSON.stringify([log, nameOf(other) || draft.source[other]])
    const count = (shared.get(pair) ?? 0) + 1
    shared.set(pair, count)
    if (count === DUPLICATES_OF_ONE_METER) identity[log] = nameOf(other) || identity[draft.source[other]]
  }
  const letters = new Map<number, string>()
  return identity.map((meter) => {
    if (typeof meter === 'string') return meter
    const letter = letters.get(meter) ?? letterOf(letters.size)
    letters.set(meter, letter)
    return `meter ${letter}`
  })
}

/** A, B, ... Z, AA, AB, ... */
function letterOf(index: number): string {
  const last = String.fromCharCode(65 + (index % 26))
  return index < 26 ? last : letterOf(Math.floor(index / 26) - 1) + last
}

/** Which logs are a sensor's, by how many readings they hold on their median day. */
function sensorLogs(draft: ReadingsBuilder, logs: number): readonly boolean[] {
  const counts = Array.from({ length: logs }, () => new Map<number, number>())
  for (let place = 0; place < draft.n; place++) {
    if (draft.flags[place] & FLAG.sensor) continue
    const ofDay = counts[draft.source[place]]
    const day = dayOf(draft.at[place])
    ofDay.set(day, (ofDay.get(day) ?? 0) + 1)
  }
  return counts.map((ofDay) => {
    const sorted = [...ofDay.values()].sort((a, b) => a - b)
    return sorted.length > 0 && sorted[sorted.length >> 1] >= SENSOR_READINGS_A_DAY
  })
}

function reportOf(
  log: ReadLog,
  fates: RowFates,
  index: number,
  readings: Readings,
  context: ImportContext,
  shifts: readonly Shift[],
): LogReport {
  const { table, plan, source } = log
  const setAside = setAsideRows(log, fates)
  const notes = planNotes(log)
  if (log.encoding.guessed) notes.push({ code: 'character-set-guessed', label: log.encoding.label })
  if (table.forms.epoch > 0 || hasInstants(log)) {
    notes.push({ code: 'instants', zone: context.zone })
  }
  if (log.yearGiven !== null) notes.push({ code: 'year-given', ...log.yearGiven })
  for (const { odd, bySize } of log.units) {
    if (odd) {
      notes.push({ code: 'odd-values', odd, line: table.line[odd.first], mixed: bySize !== undefined })
    }
  }
  if (table.monthsAbove) notes.push({ code: 'months-above' })
  if (table.brokenQuotes.length > 0)
    notes.push({ code: 'quotes-broken', count: table.brokenQuotes.length, line: table.brokenQuotes[0] })
  if (log.plan.guardedNotes) notes.push({ code: 'own-readings' })
  if (table.placeholderTime !== null) notes.push({ code: 'placeholder-time', second: table.placeholderTime })
  if (table.timesInWords > 0) notes.push({ code: 'times-in-words', rows: table.timesInWords })
  if (table.datesFilledDown > 0) notes.push({ code: 'dates-filled-down', rows: table.datesFilledDown })
  for (const shift of shiftsOf(shifts, source.sha256)) {
    const moved = shiftedCount(readings, index, shift)
    if (moved > 0) notes.push({ code: 'moved', readings: moved, shift })
  }
  return {
    name: source.name,
    sha256: source.sha256,
    bytes: source.bytes,
    ...(source.typed && { typed: true }),
    encoding: log.encoding.label,
    delimiter: log.delimiter,
    headerLine: plan.header?.line ?? null,
    columns: plan.columns,
    tables: log.tables.map(({ told }) => told),
    notUsed: notUsedColumns(log),
    unit: log.unit,
    dateOrder: log.dateOrder,
    rows: { total: table.n, accepted: table.n - setAside.length, setAside: setAside.length },
    setAside,
    notes: notes.concat(clockNotes(readings, index)),
  }
}

/** What a careful reader should know of how the tables were read. */
function planNotes({ tables }: ReadLog): LogNote[] {
  const notes: LogNote[] = []
  for (const { plan } of tables) {
    if (plan.kind !== 'glucose') continue
    notes.push(...plan.notes)
    if (plan.gramsPerLitre) notes.push({ code: 'grams-per-litre' })
    if (plan.decimalsParted) notes.push({ code: 'decimals-parted' })
  }
  // Several tables may be read alike.
  return [...new Map(notes.map((note) => [JSON.stringify(note), note])).values()]
}

/** The columns of the tables that were read which hold something and gave nothing. */
function notUsedColumns({ tables }: ReadLog): readonly UnusedColumn[] {
  return tables.flatMap(({ plan, filled }) =>
    Object.entries(filled).map(([index, count]) => ({
      index: Number(index),
      header: plan.columns[Number(index)].header,
      filled: count,
    })),
  )
}

function shiftedCount(readings: Readings, source: number, shift: Shift): number {
  let moved = 0
  for (let i = 0; i < readings.n; i++) {
    if (readings.source[i] !== source || readings.shiftMinutes[i] !== shift.minutes) continue
    const day = dayOf(readings.at[i] - shift.minutes * 60)
    if (day >= shift.from && day <= shift.to) moved++
  }
  return moved
}

function hasInstants(log: ReadLog): boolean {
  const { table } = log
  for (let row = 0; row < table.n; row++) {
    if (table.dayKind[row] === DAY.instant || table.offsetOf(row) === UTC_OF_OPEN_DAY) return true
  }
  return false
}

/** The rows of a log again, each with its text. */
function rowTexts({
  source,
  encoding,
  delimiter,
}: ReadLog): Iterable<{ line: number; text: string; row?: number }> {
  const text = decodedText(source, encoding.label)
  return delimiter === 'none' ? fhirRowTexts(text) : records(text, DELIMITERS[delimiter])
}

function setAsideRows(log: ReadLog, fates: RowFates): readonly SetAsideRow[] {
  const { table } = log
  const setAside: SetAsideRow[] = []
  let row: number | null = fates.nextSetAside(0)
  if (row === null) return []
  // The rows' texts were not kept; they are read again for the few that are shown.
  for (const record of rowTexts(log)) {
    // Of several readings in a line each is a row.
    while (row !== null && record.line === table.line[row] && (record.row ?? row) === row) {
      const reason = fates.reasonOf(row) ?? 'empty-value'
      const maybeLow = mayBeLow(log, row, reason) && { maybeLow: true }
      setAside.push({
        line: record.line,
        reason,
        text: copied(record.text),
        ...maybeLow,
      })
      row = fates.nextSetAside(row + 1)
    }
    if (row === null) break
  }
  return setAside
}
