import { MEASURING_RANGE_MG_DL, POSSIBLE_MG_DL } from '../reference/meter'
import { LIMITS, limitIn } from '../reference/limits'
import { roundHalfAway } from '../units/rounding'
import { fromMgDl, type GlucoseUnit, toMgDl } from '../units/glucose'
import { wallSeconds, zoneOffsets } from '../units/timeZone'
import { calendarDate, dayOf, SECONDS_PER_DAY } from '../units/wallClock'
import { SET_ASIDE_DETAIL } from '../wording/importMessages'
import { dayInOrder } from './decideDateOrder'
import { DELIMITERS } from './dialect'
import { decodedText } from './encoding'
import type { LogReport, SetAsideReason, SetAsideRow } from './logReport'
import type { ImportContext } from './logSource'
import type { ReadLog } from './readLog'
import { FLAG, type Readings, ReadingsBuilder } from './readings'
import { records } from './records'
import { DAY, VALUE } from './rowTable'

/** Several logs merged: what each held, and every reading counted once. */
export interface Logbook {
  readonly sources: readonly LogReport[]
  readonly readings: Readings
  readonly duplicatesAcrossLogs: number
}

/** A row that will be a reading unless it is a duplicate. */
interface Candidate {
  readonly log: number
  readonly row: number
  readonly at: number
  readonly logged: number
  readonly unit: GlucoseUnit
  readonly flags: number
  readonly offset: number
  /** As a column names it; '' where the log does not. */
  readonly meter: string
}

/** Dated before this year in a log of later years, a row shows a clock that fell back to its factory date. */
const CLOCK_RESET_BEFORE_YEAR = 2005
const FUTURE_ALLOWED_MS = 24 * 3_600_000

/** Readings on the median day from which on a log is one of a sensor. */
const SENSOR_READINGS_A_DAY = 48

/** Duplicates from which on two logs without a meter column are taken for one meter. */
const DUPLICATES_OF_ONE_METER = 3

/** Merges logs that are read: resolves times and units, sets aside what cannot be, counts repeats of a row once. */
export function mergeLogs(logs: readonly ReadLog[], context: ImportContext): Logbook {
  const candidates = logs.map((log, index) => candidatesOf(log, index, context))
  const { kept, duplicates } = withoutDuplicates(candidates)
  for (const { log, row } of duplicates) logs[log].table.setAside(row, 'duplicate')
  const across = duplicates.filter(({ log, of }) => log !== of)
  const meterNames = namesOfMeters(logs.length, across)
  const sensor = candidates.map(isSensorLog)
  const builder = new ReadingsBuilder()
  for (const candidate of kept) {
    const { table, plan } = logs[candidate.log]
    builder.add({
      at: candidate.at,
      logged: candidate.logged,
      unit: candidate.unit,
      flags: candidate.flags | (sensor[candidate.log] || plan.sensorColumn ? FLAG.sensor : 0),
      source: candidate.log,
      line: table.line.get(candidate.row),
      offsetMinutes: candidate.offset,
      meter: candidate.meter || meterNames[candidate.log],
      meal: table.meals.get(candidate.row) ?? '',
      note: table.notes.get(candidate.row) ?? '',
    })
  }
  return {
    sources: logs.map((log) => reportOf(log, context)),
    readings: builder.build(),
    duplicatesAcrossLogs: across.length,
  }
}

function candidatesOf(log: ReadLog, logIndex: number, context: ImportContext): Candidate[] {
  const { table } = log
  const offsetAt = zoneOffsets(context.zone)
  const latest = wallSeconds(context.nowMs + FUTURE_ALLOWED_MS, offsetAt(context.nowMs + FUTURE_ALLOWED_MS))
  const resolved: Candidate[] = []
  for (let row = 0; row < table.n; row++) {
    if (table.reasonOf(row) !== null) continue
    const moment = momentOf(log, row, offsetAt)
    if (moment === null) {
      table.setAside(row, 'unreadable-date')
      continue
    }
    const value = valueOf(log, row)
    if (value === null) {
      table.setAside(row, 'impossible-value')
      continue
    }
    if (moment.at > latest) {
      table.setAside(row, 'future-date')
      continue
    }
    const flags = moment.flags | value.flags
    const meter = table.meters.get(row) ?? ''
    resolved.push({ log: logIndex, row, at: moment.at, ...value, flags, offset: moment.offset, meter })
  }
  return withoutResetClock(log, resolved)
}

function momentOf(
  log: ReadLog,
  row: number,
  offsetAt: (instantMs: number) => number,
): { at: number; flags: number; offset: number } | null {
  const { table, dateOrder } = log
  const kind = table.dayKind.get(row)
  if (kind === DAY.instant) {
    const instant = table.day.get(row)
    const offset = offsetAt(instant)
    return { at: wallSeconds(instant, offset), flags: FLAG.offset | FLAG.seconds, offset }
  }
  const order = dateOrder.value === 'mdy' || dateOrder.value === 'ymd' ? dateOrder.value : 'dmy'
  const day = kind === DAY.known ? table.day.get(row) : dayInOrder(table.numbersOf(row), order)
  if (day === null) return null
  const second = table.secondOf(row)
  if (second === 'unreadable') return null
  const offset = table.offsetOf(row)
  const flags =
    (second === null ? FLAG.dayOnly : 0) |
    (table.hasSeconds.get(row) ? FLAG.seconds : 0) |
    (offset === null ? 0 : FLAG.offset)
  return { at: day * SECONDS_PER_DAY + (second ?? 0), flags, offset: offset ?? 0 }
}

function valueOf(log: ReadLog, row: number): { logged: number; unit: GlucoseUnit; flags: number } | null {
  const { table } = log
  const unit = table.unitOf(row) ?? log.unit.ofUnmarkedRows
  const kind = table.valueKind.get(row)
  const number = table.value.get(row)
  if (kind !== VALUE.number) {
    const flags = kind === VALUE.above ? FLAG.aboveRange : FLAG.belowRange
    if (!Number.isNaN(number)) return isPossible(number, unit) ? { logged: number, unit, flags } : null
    const { highest, lowest } = MEASURING_RANGE_MG_DL
    return { logged: kind === VALUE.above ? highest : lowest, unit: 'mg/dL', flags }
  }
  // '1.483' in mg/dL is one thousand four hundred with a separator, not one and a half.
  const grouped = table.decimals.get(row) === 3 && unit === 'mg/dL' && number < MEASURING_RANGE_MG_DL.lowest
  return !grouped && isPossible(number, unit) ? { logged: number, unit, flags: 0 } : null
}

function isPossible(value: number, unit: GlucoseUnit): boolean {
  const mgDl = toMgDl(value, unit)
  return mgDl >= POSSIBLE_MG_DL.least && mgDl <= POSSIBLE_MG_DL.most
}

function withoutResetClock(log: ReadLog, candidates: Candidate[]): Candidate[] {
  if (candidates.length === 0) return candidates
  const times = Float64Array.from(candidates, ({ at }) => at).sort()
  const year = (at: number): number => calendarDate(dayOf(at)).year
  if (year(times[0]) >= CLOCK_RESET_BEFORE_YEAR) return candidates
  if (year(times[times.length >> 1]) < CLOCK_RESET_BEFORE_YEAR) return candidates
  return candidates.filter(({ at, row }) => {
    if (year(at) >= CLOCK_RESET_BEFORE_YEAR) return true
    log.table.setAside(row, 'clock-reset')
    return false
  })
}

interface Duplicate {
  readonly log: number
  readonly row: number
  /** The log whose row is kept. */
  readonly of: number
}

/** The same minute, meter and value again: the row of the later log, or the later row of one log, goes. */
function withoutDuplicates(logs: readonly Candidate[][]): { kept: Candidate[]; duplicates: Duplicate[] } {
  const kept: Candidate[] = []
  const duplicates: Duplicate[] = []
  const keptInMinute = new Map<number, Candidate[]>()
  for (const candidates of logs) {
    const takenByThisLog = new Set<Candidate>()
    for (const candidate of candidates) {
      const minute = Math.floor(candidate.at / 60)
      const others = keptInMinute.get(minute)
      // Of rows that tell no time, each of one log can repeat only one of another.
      const same = others?.find(
        (other) => isSameReading(other, candidate) && !(isDayOnly(other) && takenByThisLog.has(other)),
      )
      if (same) {
        takenByThisLog.add(same)
        duplicates.push({ log: candidate.log, row: candidate.row, of: same.log })
        continue
      }
      kept.push(candidate)
      if (others) others.push(candidate)
      else keptInMinute.set(minute, [candidate])
    }
  }
  return { kept, duplicates }
}

function isDayOnly(candidate: Candidate): boolean {
  return (candidate.flags & FLAG.dayOnly) !== 0
}

function isSameReading(a: Candidate, b: Candidate): boolean {
  const both = a.flags & b.flags
  if (isDayOnly(a) !== isDayOnly(b) || (isDayOnly(a) && a.log === b.log)) return false
  if (both & FLAG.seconds && a.at !== b.at) return false
  if (both & FLAG.offset && a.offset !== b.offset) return false
  const markers = FLAG.aboveRange | FLAG.belowRange
  if ((a.flags & markers) !== (b.flags & markers)) return false
  if (a.meter !== b.meter && a.meter !== '' && b.meter !== '') return false
  return isSameValue(a, b)
}

/** Whether two values are one, as logged or after rounding the finer to the other's step. */
function isSameValue(a: Candidate, b: Candidate): boolean {
  if (a.unit === b.unit && a.logged === b.logged) return true
  if (a.log === b.log) return false
  return roundsTo(a, b) || roundsTo(b, a)
}

function roundsTo(finer: Candidate, coarser: Candidate): boolean {
  const decimals = decimalsOf(coarser.logged)
  // One decimal of mmol/L is coarser than a whole mg/dL.
  if (decimals > (coarser.unit === 'mmol/L' ? 1 : 0)) return false
  const value =
    finer.unit === coarser.unit ? finer.logged : fromMgDl(toMgDl(finer.logged, finer.unit), coarser.unit)
  return roundHalfAway(value, coarser.unit === 'mmol/L' ? 1 : 0) === coarser.logged
}

function decimalsOf(value: number): number {
  const text = String(value)
  const point = text.indexOf('.')
  return point < 0 ? 0 : text.length - point - 1
}

/** 'meter A', 'meter B' for logs that name no meter; logs that share readings are one meter. */
function namesOfMeters(logs: number, across: readonly Duplicate[]): string[] {
  const shared = new Map<string, number>()
  const meterOf = Array.from({ length: logs }, (_, log) => log)
  for (const { log, of } of across) {
    const pair = `${String(of)}:${String(log)}`
    const count = (shared.get(pair) ?? 0) + 1
    shared.set(pair, count)
    if (count === DUPLICATES_OF_ONE_METER) meterOf[log] = meterOf[of]
  }
  const letters = new Map<number, string>()
  return meterOf.map((meter) => {
    let letter = letters.get(meter)
    if (letter === undefined) {
      letter = letterOf(letters.size)
      letters.set(meter, letter)
    }
    return `meter ${letter}`
  })
}

/** A, B, ... Z, AA, AB, ... */
function letterOf(index: number): string {
  const last = String.fromCharCode(65 + (index % 26))
  return index < 26 ? last : letterOf(Math.floor(index / 26) - 1) + last
}

function isSensorLog(candidates: readonly Candidate[]): boolean {
  const counts = new Map<number, number>()
  for (const { at } of candidates) counts.set(dayOf(at), (counts.get(dayOf(at)) ?? 0) + 1)
  const sorted = [...counts.values()].sort((a, b) => a - b)
  return sorted.length > 0 && sorted[sorted.length >> 1] >= SENSOR_READINGS_A_DAY
}

function reportOf(log: ReadLog, context: ImportContext): LogReport {
  const { table, plan, source } = log
  const setAside = setAsideRows(log)
  const notes = [...plan.notes]
  if (log.encoding.guessed) notes.push(`The character set was guessed: ${log.encoding.label}.`)
  if (table.forms.epoch > 0 || hasInstants(log)) {
    notes.push(`The log gives instants; they are shown in the time zone ${context.zone}.`)
  }
  return {
    name: source.name,
    sha256: source.sha256,
    bytes: source.bytes,
    encoding: log.encoding.label,
    delimiter: log.delimiter,
    headerLine: plan.header?.line ?? null,
    columns: plan.columns,
    unit: log.unit.decision,
    dateOrder: log.dateOrder,
    rows: { total: table.n, accepted: table.n - setAside.length, setAside: setAside.length },
    setAside,
    notes,
  }
}

function hasInstants(log: ReadLog): boolean {
  const { table } = log
  for (let row = 0; row < table.n; row++) if (table.dayKind.get(row) === DAY.instant) return true
  return false
}

function setAsideRows(log: ReadLog): readonly SetAsideRow[] {
  const { table } = log
  const rowAtLine = new Map<number, number>()
  for (let row = 0; row < table.n; row++) {
    if (table.reasonOf(row) !== null) rowAtLine.set(table.line.get(row), row)
  }
  if (rowAtLine.size === 0) return []
  const setAside: SetAsideRow[] = []
  // The rows' texts were not kept; they are read again for the few that are shown.
  for (const { line, text } of records(
    decodedText(log.source, log.encoding.label),
    DELIMITERS[log.delimiter],
  )) {
    const row = rowAtLine.get(line)
    const reason = row === undefined ? null : table.reasonOf(row)
    if (row === undefined || reason === null) continue
    const detail = SET_ASIDE_DETAIL[reason]
    setAside.push({ line, reason, detail, text, ...(mayBeLow(log, row, reason) && { maybeLow: true }) })
  }
  return setAside
}

const MAY_BE_LOW: readonly SetAsideReason[] = [
  'empty-date',
  'unreadable-date',
  'ragged-row',
  'future-date',
  'clock-reset',
  'control-solution',
]

/** Whether a row without a usable date, or tagged as control solution, holds the value of a low. */
function mayBeLow(log: ReadLog, row: number, reason: SetAsideReason): boolean {
  if (!MAY_BE_LOW.includes(reason)) return false
  const { table } = log
  if (table.valueKind.get(row) === VALUE.below) return true
  if (table.valueKind.get(row) !== VALUE.number) return false
  const value = valueOf(log, row)
  return value !== null && value.logged < limitIn(LIMITS.low, value.unit)
}
