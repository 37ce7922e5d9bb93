import { LIMITS, limitIn } from '../reference/limits'
import { MEASURING_RANGE_MG_DL, POSSIBLE_MG_DL } from '../reference/meter'
import { type GlucoseUnit, toMgDl } from '../units/glucose'
import { wallSeconds, zoneOffsets } from '../units/timeZone'
import { SECONDS_PER_DAY } from '../units/wallClock'
import { dayInOrder } from './decideDateOrder'
import { valueUnder } from './decideUnit'
import type { SetAsideReason } from './logReport'
import type { ImportContext } from './logSource'
import type { ReadLog } from './readLog'
import { FLAG, type ReadingsBuilder } from './readings'
import { DAY, MAY_BE_LOW, type RowFates, THOUSANDTHS, UTC_OF_OPEN_DAY, VALUE } from './rowTable'
import { type Shift, shiftOn, shiftsOf } from './shifts'
import { TYPED_METER } from './typedByHand'

const FUTURE_ALLOWED_MS = 24 * 3_600_000

/** A row's moment, as logged and as counted. */
interface Moment {
  readonly at: number
  readonly flags: number
  readonly offset: number
}

/**
 * Turns a log's rows into readings now that unit and order of date are decided; rows whose date or value
 * cannot be are set aside in `fates`, which a merge has for itself. Meters that the log does not name are ''.
 */
export function resolveRows(
  log: ReadLog,
  fates: RowFates,
  source: number,
  context: ImportContext,
  shifts: readonly Shift[],
  readings: ReadingsBuilder,
): void {
  const { table } = log
  const own = shiftsOf(shifts, log.source.sha256)
  const momentOf = momentReader(log, context.zone)
  const nowOffset = zoneOffsets(context.zone)(context.nowMs + FUTURE_ALLOWED_MS)
  const latest = wallSeconds(context.nowMs + FUTURE_ALLOWED_MS, nowOffset)
  for (let row = 0; row < table.n; row++) {
    if (fates.reasonOf(row) !== null) continue
    const moment = momentOf(row)
    if (moment === null) {
      fates.setAside(row, 'unreadable-date')
      continue
    }
    const value = valueOf(log, row)
    if (value === null) {
      fates.setAside(row, 'impossible-value')
      continue
    }
    const shiftMinutes = shiftOn(moment, own)
    const at = moment.at + shiftMinutes * 60
    if (at > latest) {
      fates.setAside(row, 'future-date')
      continue
    }
    const meter = table.meters.get(row)
    readings.add({
      at,
      logged: value.logged,
      unit: value.unit,
      flags:
        moment.flags |
        value.flags |
        (isTypedRow(log, meter) ? FLAG.typed : 0) |
        (table.ofSensor.has(row) ? FLAG.sensor : 0),
      source,
      line: table.line[row],
      row,
      offsetMinutes: moment.offset,
      shiftMinutes,
      meter,
      meal: table.meals.get(row),
      note: table.notes.get(row),
    })
  }
}

/** In a table of readings that this program wrote the meter's cell tells what was typed. */
function isTypedRow({ source, plan }: ReadLog, meter: string): boolean {
  return source.typed === true || (plan.guardedNotes && meter === TYPED_METER)
}

/** Reads the moments of a log's rows; null where the date or the time does not exist. */
export function momentReader(log: ReadLog, zone: string): (row: number) => Moment | null {
  const { table, dateOrder } = log
  const offsetAt = zoneOffsets(zone)
  const secondsFlag = (row: number): number => (table.hasSeconds[row] ? FLAG.seconds : 0)
  const order = dateOrder.value === 'mdy' || dateOrder.value === 'ymd' ? dateOrder.value : 'dmy'
  return (row) => {
    const kind = table.dayKind[row]
    if (kind === DAY.instant) {
      const instant = table.day[row]
      const offset = offsetAt(instant)
      return { at: wallSeconds(instant, offset), flags: FLAG.offset | secondsFlag(row), offset }
    }
    if (kind !== DAY.known && kind !== DAY.numbers) return null
    const day = kind === DAY.known ? table.day[row] : dayInOrder(table.numbersOf(row), order)
    if (day === null) return null
    const second = table.secondOf(row)
    if (second === 'unreadable') return null
    const offset = table.offsetOf(row)
    if (offset === UTC_OF_OPEN_DAY) {
      const instant = (day * SECONDS_PER_DAY + (second ?? 0)) * 1000
      const there = offsetAt(instant)
      return { at: wallSeconds(instant, there), flags: FLAG.offset | secondsFlag(row), offset: there }
    }
    const flags =
      (second === null ? FLAG.dayOnly : 0) | secondsFlag(row) | (offset === null ? 0 : FLAG.offset)
    return { at: day * SECONDS_PER_DAY + (second ?? 0), flags, offset: offset ?? 0 }
  }
}

function valueOf(log: ReadLog, row: number): { logged: number; unit: GlucoseUnit; flags: number } | null {
  const { table } = log
  const plan = log.units[table.partOf(row)]
  const kind = table.valueKind[row]
  const [number, unit] = valueUnder(plan, table, row)
  if (kind !== VALUE.number) {
    const flags = kind === VALUE.above ? FLAG.aboveRange : FLAG.belowRange
    if (!Number.isNaN(number)) return isPossible(number, unit) ? { logged: number, unit, flags } : null
    const { highest, lowest } = MEASURING_RANGE_MG_DL
    const assumed = kind === VALUE.above ? highest : lowest
    return { logged: assumed, unit: 'mg/dL', flags: flags | FLAG.assumedLimit }
  }
  return !isGrouped(log, row) && isPossible(number, unit) ? { logged: number, unit, flags: 0 } : null
}

/**
 * Whether three decimals may be digits behind a thousands separator: '1.483' in mg/dL is no one and a half; '1,200' among
 * 5.6 and 7.2 mmol/L, and what would be a low there, is none that a meter wrote, '5.551' may be a conversion.
 */
function isGrouped({ table, units }: ReadLog, row: number): boolean {
  if (table.decimals[row] !== THOUSANDTHS || table.valueKind[row] !== VALUE.number) return false
  const [number, unit] = valueUnder(units[table.partOf(row)], table, row)
  if (number >= MEASURING_RANGE_MG_DL.lowest) return false
  if (unit === 'mg/dL') return true
  const endsInZero = Number.isInteger(Number((number * 100).toPrecision(12)))
  return (endsInZero || number < LIMITS.low.mmol) && !table.hasThousandths(row)
}

/** Whether an impossible number would be a low without its separator, or in the other unit. */
function hidesLow(log: ReadLog, row: number): boolean {
  const { table, units } = log
  if (table.valueKind[row] !== VALUE.number) return false
  const [number, unit] = valueUnder(units[table.partOf(row)], table, row)
  if (unit !== 'mmol/L') return false
  return isGrouped(log, row)
    ? number < LIMITS.low.mmol
    : number >= MEASURING_RANGE_MG_DL.lowest && number < LIMITS.low.mgDl
}

function isPossible(value: number, unit: GlucoseUnit): boolean {
  const mgDl = toMgDl(value, unit)
  return mgDl >= POSSIBLE_MG_DL.least && mgDl <= POSSIBLE_MG_DL.most
}

const DATELESS_OR_CONTROL: readonly SetAsideReason[] = [
  'empty-date',
  'unreadable-date',
  'ragged-row',
  'future-date',
  'clock-reset',
  'control-solution',
]

/** Reasons of rows that may be readings of the person all the same, where the table says so of a row. */
const UNSURE: readonly SetAsideReason[] = ['not-glucose', 'footer', 'withdrawn', 'laboratory']

/** Whether a row that gave no reading may hold a low: no usable date, tagged as control solution, or unreadable. */
export function mayBeLow(log: ReadLog, row: number, reason: SetAsideReason): boolean {
  const { table } = log
  if (reason === 'unreadable-value') return table.value[row] === MAY_BE_LOW
  if (reason === 'impossible-value') return hidesLow(log, row)
  const unsure = UNSURE.includes(reason) && table.ofUnsureKind.has(row)
  if (!unsure && !DATELESS_OR_CONTROL.includes(reason)) return false
  if (table.valueKind[row] === VALUE.below) return true
  if (table.valueKind[row] !== VALUE.number) return false
  const value = valueOf(log, row)
  return value !== null && value.logged < limitIn(LIMITS.low, value.unit)
}
