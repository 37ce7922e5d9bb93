import type { Counted } from '../model/counted'
import { LIMITS, type LimitPair } from '../reference/limits'
import { fromMgDl, type GlucoseUnit, toMgDl } from '../units/glucose'
import { dayOf, type DayNumber, isoDay, isoMoment, type WallSeconds } from '../units/wallClock'
import { TextColumn } from './textColumn'

/** A numeric column that must not be written to. */
export interface NumberColumn {
  readonly length: number
  readonly [index: number]: number
}

/** Bits of a reading's flags. */
export const FLAG = {
  /** Logged in mmol/L (else mg/dL). */
  mmol: 1,
  /** A marker at the meter's upper limit (HI, '>500'); the value is that limit. */
  aboveRange: 2,
  /** A marker at the meter's lower limit (LO, '<20'); the value is that limit. */
  belowRange: 4,
  /** The log gives the day alone; `at` is its midnight. */
  dayOnly: 8,
  /** The log gives seconds. */
  seconds: 16,
  /** The log gives an offset from UTC, or an instant. */
  offset: 32,
  /** A step of a technique trial whose conditions were changed on purpose. */
  changedConditions: 64,
  /** From a log of a sensor, not of finger-sticks. */
  sensor: 128,
  /** A person typed what it should have been. */
  corrected: 256,
  /** A person typed it: it comes from no meter. */
  typed: 512,
  /** A marker without a printed limit; the value is the usual one (`MEASURING_RANGE_MG_DL`). */
  assumedLimit: 1024,
} as const

/**
 * Glucose readings held in columns, in order of time (ties by source, then line). Indexes run from 0 to
 * `n` - 1 in every column.
 */
export interface Readings {
  readonly n: number
  /** Wall-clock time; midnight of the day where `FLAG.dayOnly` is set. */
  readonly at: NumberColumn
  /** Glucose, mg/dL, unrounded. */
  readonly mgDl: NumberColumn
  /** The number as logged, in the unit as logged. */
  readonly logged: NumberColumn
  readonly flags: NumberColumn
  /** Index of the log. */
  readonly source: NumberColumn
  /** 1-based line of the log's file on which the row starts. */
  readonly line: NumberColumn
  /** Minutes east of UTC where `FLAG.offset` is set, else 0. */
  readonly offsetMinutes: NumberColumn
  /** Minutes by which `at` was moved, on demand, from what the log says; mostly 0. */
  readonly shiftMinutes: NumberColumn
  /** Index into `meters`. */
  readonly meter: NumberColumn
  readonly meters: readonly string[]
  /** The meal as the log has it, '' where it has none. */
  meal(index: number): string
  /** The note as the log has it, '' where it has none. */
  note(index: number): string
}

/** One reading on its way into the columns. */
export interface ReadingRow {
  readonly at: WallSeconds
  readonly logged: number
  readonly unit: GlucoseUnit
  /** Sum of `FLAG` bits; `FLAG.mmol` is set from `unit`. */
  readonly flags: number
  readonly source: number
  readonly line: number
  /** Index of the row among the log's; left out, 0. */
  readonly row?: number
  readonly offsetMinutes: number
  /** Minutes by which the logged time was moved on demand; left out, none. */
  readonly shiftMinutes?: number
  readonly meter: string
  readonly meal: string
  readonly note: string
}

const FIRST_CAPACITY = 1024

/** Collects readings in any order; `build` returns them in order of time. */
export class ReadingsBuilder {
  /** How many were added. The columns are in the order of adding. */
  n = 0
  at: Float64Array
  logged: Float64Array
  flags: Uint16Array
  source: Uint16Array
  line: Uint32Array
  /** Index of the row among its log's. */
  row: Uint32Array
  offset: Int16Array
  shift: Int32Array
  /** Places of the meters' names. */
  meter: Uint32Array
  readonly meters = new Interner()
  readonly #meals = new TextColumn()
  readonly #notes = new TextColumn()

  /** Room for so many readings; more make it grow. */
  constructor(capacity = FIRST_CAPACITY) {
    const room = Math.max(capacity, 1)
    this.at = new Float64Array(room)
    this.logged = new Float64Array(room)
    this.flags = new Uint16Array(room)
    this.source = new Uint16Array(room)
    this.line = new Uint32Array(room)
    this.row = new Uint32Array(room)
    this.offset = new Int16Array(room)
    this.meter = new Uint32Array(room)
    this.shift = new Int32Array(room)
  }

  add(row: ReadingRow): void {
    if (this.n === this.at.length) this.#grow()
    const i = this.n++
    this.at[i] = row.at
    this.logged[i] = row.logged
    this.flags[i] = row.unit === 'mmol/L' ? row.flags | FLAG.mmol : row.flags & ~FLAG.mmol
    this.source[i] = row.source
    this.line[i] = row.line
    this.row[i] = row.row ?? 0
    this.offset[i] = row.offsetMinutes
    this.shift[i] = row.shiftMinutes ?? 0
    this.meter[i] = this.meters.indexOf(row.meter)
    this.#meals.set(i, row.meal)
    this.#notes.set(i, row.note)
  }

  /** Places of all readings in order of time; ties by source, then line. */
  inOrder(): Uint32Array {
    const { n, at, source, line } = this
    const order = new Uint32Array(n)
    for (let i = 0; i < n; i++) order[i] = i
    if (isInOrder(n, at, source, line)) return order
    return order.sort((a, b) => at[a] - at[b] || source[a] - source[b] || line[a] - line[b])
  }

  /** The readings at these places, which must be in order of time; left out, all of them. Ends the builder. */
  build(order: Uint32Array = this.inOrder()): Readings {
    const n = order.length
    // Of a long log a second copy of each column would be the most memory that it ever takes.
    const pick = isAscending(order) ? packed : picked
    const { meter, meters } = this.#metersUsed(order)
    const logged = pick(this.logged, order)
    const flags = pick(this.flags, order)
    const mgDl = new Float64Array(n)
    for (let i = 0; i < n; i++) mgDl[i] = toMgDl(logged[i], flags[i] & FLAG.mmol ? 'mmol/L' : 'mg/dL')
    const meals = this.#meals
    const notes = this.#notes
    return {
      n,
      at: pick(this.at, order),
      mgDl,
      logged,
      flags,
      source: pick(this.source, order),
      line: pick(this.line, order),
      offsetMinutes: pick(this.offset, order),
      shiftMinutes: pick(this.shift, order),
      meter,
      meters,
      meal: (index) => meals.get(order[index]),
      note: (index) => notes.get(order[index]),
    }
  }

  /** The meters in the order in which they appear. */
  #metersUsed(order: Uint32Array): { meter: Uint32Array; meters: readonly string[] } {
    const names = new Interner()
    const meter = new Uint32Array(order.length)
    const places = new Map<number, number>()
    for (let i = 0; i < order.length; i++) {
      const at = this.meter[order[i]]
      let place = places.get(at)
      if (place === undefined) {
        place = names.indexOf(this.meters.values[at])
        places.set(at, place)
      }
      meter[i] = place
    }
    return { meter, meters: names.values }
  }

  #grow(): void {
    const room = this.at.length * 2
    this.at = grown(this.at, new Float64Array(room))
    this.logged = grown(this.logged, new Float64Array(room))
    this.flags = grown(this.flags, new Uint16Array(room))
    this.source = grown(this.source, new Uint16Array(room))
    this.line = grown(this.line, new Uint32Array(room))
    this.row = grown(this.row, new Uint32Array(room))
    this.offset = grown(this.offset, new Int16Array(room))
    this.meter = grown(this.meter, new Uint32Array(room))
    this.shift = grown(this.shift, new Int32Array(room))
  }
}

type Column = Float64Array | Int32Array | Uint32Array | Uint16Array | Int16Array | Uint8Array

/** `to`, filled with what `from` holds. */
export function grown<C extends Column>(from: C, to: C): C {
  to.set(from)
  return to
}

function picked<C extends Column>(column: C, order: Uint32Array): C {
  const result = new (column.constructor as new (length: number) => C)(order.length)
  for (let i = 0; i < order.length; i++) result[i] = column[order[i]]
  return result
}

/** The same of ascending places, moved up within the column itself. */
function packed<C extends Column>(column: C, order: Uint32Array): C {
  for (let i = 0; i < order.length; i++) column[i] = column[order[i]]
  return column.subarray(0, order.length) as C
}

function isAscending(order: Uint32Array): boolean {
  for (let i = 1; i < order.length; i++) if (order[i] <= order[i - 1]) return false
  return true
}

function isInOrder(n: number, at: Float64Array, source: Uint16Array, line: Uint32Array): boolean {
  for (let i = 1; i < n; i++) {
    if ((at[i - 1] - at[i] || source[i - 1] - source[i] || line[i - 1] - line[i]) > 0) return false
  }
  return true
}

/** Gives each distinct text a number. */
class Interner {
  readonly values: string[] = []
  readonly #indexes = new Map<string, number>()

  indexOf(text: string): number {
    let index = this.#indexes.get(text)
    if (index === undefined) {
      index = this.values.push(text) - 1
      this.#indexes.set(text, index)
    }
    return index
  }
}

/** The unit in which a reading was logged. */
export function loggedUnit(readings: Readings, index: number): GlucoseUnit {
  return readings.flags[index] & FLAG.mmol ? 'mmol/L' : 'mg/dL'
}

/** Whether any of the `FLAG` bits in `bits` is set. */
export function hasFlag(readings: Readings, index: number, bits: number): boolean {
  return (readings.flags[index] & bits) !== 0
}

/**
 * Whether a reading is below a limit, held against it in the unit it was logged in, unrounded. A marker at
 * the meter's lower limit counts as below that limit itself.
 */
export function isBelow(readings: Readings, index: number, limit: LimitPair): boolean {
  const flags = readings.flags[index]
  const value = readings.logged[index]
  const bound = flags & FLAG.mmol ? limit.mmol : limit.mgDl
  return value < bound || (value === bound && (flags & FLAG.belowRange) !== 0)
}

/** Whether a reading is above a limit; the counterpart of `isBelow`. */
export function isAbove(readings: Readings, index: number, limit: LimitPair): boolean {
  const flags = readings.flags[index]
  const value = readings.logged[index]
  const bound = flags & FLAG.mmol ? limit.mmol : limit.mgDl
  return value > bound || (value === bound && (flags & FLAG.aboveRange) !== 0)
}

/** Whether a reading is a low: below 70 mg/dL (3.9 mmol/L), a LO marker included. */
export function isLow(readings: Readings, index: number): boolean {
  // A LO marker whose printed limit lies above 70 says only 'below that limit'.
  return isBelow(readings, index, LIMITS.low)
}

/** Whether a reading is a HI or LO marker, not a number that the meter showed. */
export function isMarker(readings: Readings, index: number): boolean {
  return hasFlag(readings, index, FLAG.aboveRange | FLAG.belowRange)
}

/** How many of some readings, by their indexes, are LO and HI. */
export function countMarkers(readings: Readings, indexes: readonly number[]): Counted {
  const flagged = (flag: number) => indexes.filter((index) => hasFlag(readings, index, flag)).length
  return {
    n: indexes.length,
    belowRange: flagged(FLAG.belowRange),
    aboveRange: flagged(FLAG.aboveRange),
  }
}

/** Whether the log gives the reading's time of day. */
export function hasClockTime(readings: Readings, index: number): boolean {
  return !hasFlag(readings, index, FLAG.dayOnly)
}

/** The reading's value in `unit`, unrounded; as logged where it was logged in that unit. */
export function valueIn(readings: Readings, index: number, unit: GlucoseUnit): number {
  return loggedUnit(readings, index) === unit ? readings.logged[index] : fromMgDl(readings.mgDl[index], unit)
}

/** `YYYY-MM-DDTHH:MM`, with seconds only where the log has them, the day alone where it gives no time. */
export function momentText(readings: Readings, index: number): string {
  return textOfMoment(readings, index, readings.at[index])
}

/** The same of the time that the log itself gives, whatever it was moved by. */
export function loggedMomentText(readings: Readings, index: number): string {
  return textOfMoment(readings, index, readings.at[index] - readings.shiftMinutes[index] * 60)
}

function textOfMoment(readings: Readings, index: number, at: WallSeconds): string {
  if (!hasClockTime(readings, index)) return isoDay(dayOf(at))
  return isoMoment(at, hasFlag(readings, index, FLAG.seconds))
}

/** A run of days, both ends included. */
export interface DaySpan {
  readonly from: DayNumber
  readonly to: DayNumber
}

/** Indexes `[start, end)` of the readings within a run of days. */
export function rangeOfDays(readings: Readings, span: DaySpan): { start: number; end: number } {
  return { start: firstOnOrAfter(readings, span.from), end: firstOnOrAfter(readings, span.to + 1) }
}

function firstOnOrAfter(readings: Readings, day: DayNumber): number {
  let low = 0
  let high = readings.n
  while (low < high) {
    const middle = (low + high) >>> 1
    if (dayOf(readings.at[middle]) < day) low = middle + 1
    else high = middle
  }
  return low
}
