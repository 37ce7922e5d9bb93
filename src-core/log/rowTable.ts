import type { GlucoseUnit } from '../units/glucose'
import type { CellMoment } from './dateCell'
import type { GlucoseCell } from './glucoseCell'
import type { SetAsideReason } from './logReport'
import { grown } from './readings'
import { TextColumn } from './textColumn'

/** What a row says of its day, before the order of day and month is known. */
export const DAY = { none: 0, unreadable: 1, known: 2, numbers: 3, instant: 4 } as const
/** What a row's glucose cell holds. */
export const VALUE = { none: 0, unreadable: 1, number: 2, above: 3, below: 4 } as const

/** Stands in the value column of an unreadable cell that may tell of a low. */
export const MAY_BE_LOW = 1

const NO_TIME = -1
const UNREADABLE_TIME = -2
const NO_OFFSET = -32_768
/** In the offset column: the row is an instant in UTC whose day is known only with the order of its date. */
export const UTC_OF_OPEN_DAY = 32_767

/** Insulin, carbohydrate or another event of a row, as the log has it. */
export interface RowEntry {
  readonly row: number
  /** The column's header, or the kind of entry. */
  readonly label: string | number
  readonly text: string
  /** Whether it is one only if the row's kind of entry turns out not to be glucose. */
  readonly byKind: boolean
}

/** Which rows of a log are set aside, and why. */
export class RowFates {
  readonly #reasons: SetAsideReason[]
  /** Index + 1 in `#reasons` of why the row is set aside; 0 where it is not. */
  #fate: Uint8Array

  constructor(fate: Uint8Array, reasons: readonly SetAsideReason[] = []) {
    this.#fate = fate
    this.#reasons = [...reasons]
  }

  setAside(row: number, reason: SetAsideReason): void {
    let at = this.#reasons.indexOf(reason)
    if (at < 0) at = this.#reasons.push(reason) - 1
    this.#fate[row] = at + 1
  }

  takeBack(row: number): void {
    this.#fate[row] = 0
  }

  reasonOf(row: number): SetAsideReason | null {
    const fate = this.#fate[row]
    return fate === 0 ? null : this.#reasons[fate - 1]
  }

  /** The first row from `row` on that is set aside; null where there is none. */
  nextSetAside(row: number): number | null {
    for (let next = row; next < this.#fate.length; next++) if (this.#fate[next] !== 0) return next
    return null
  }

  /** Those of the first rows, to go on alone: the same rows may be merged anew, with other logs. */
  copy(rows: number): RowFates {
    return new RowFates(this.#fate.slice(0, rows), this.#reasons)
  }

  grow(room: number): void {
    this.#fate = grown(this.#fate, new Uint8Array(room))
  }
}

/** Three numbers of a date whose order is open. */
export interface OpenDay {
  readonly a: number
  readonly b: number
  readonly c: number
  readonly fourDigitYear: boolean
}

/** A date whose order is open and the weekdays that a word beside it may name, as bits from Monday on. */
export interface DayOfWeek {
  readonly day: OpenDay
  readonly weekdays: number
  rows: number
}

/** Decimals that may be three digits behind a thousands separator instead. */
export const THOUSANDTHS = 3

/**
 * A log's rows as far as each row alone tells them, in columns: the order of day and month and the unit are
 * the whole log's to decide. Rows are in the order of the file.
 */
export class RowTable {
  n = 0
  line: Uint32Array
  dayKind: Uint8Array
  /** Day number, or three packed numbers, or an instant in milliseconds. */
  day: Float64Array
  hasSeconds: Uint8Array
  valueKind: Uint8Array
  /** The number or the marker's limit as written; NaN for a marker without one. */
  value: Float64Array
  decimals: Uint8Array
  /** Rows whose value was written in g/L (here in mg/dL), with the decimals that it had there. */
  readonly gramDecimals = new Map<number, number>()
  readonly #thousandths: (boolean | undefined)[] = []
  readonly forms = { ymd: 0, name: 0, serial: 0, epoch: 0 }
  readonly meals = new TextColumn()
  readonly meters = new TextColumn()
  readonly notes = new TextColumn()
  /** Cells of other kinds of entry, kept as text. */
  readonly entries: RowEntry[] = []
  /** Rows without a time of day that repeat an earlier row letter for letter, with that row. */
  readonly equalRows: { readonly row: number; readonly first: number }[] = []
  /** Rows set aside for a kind of entry that may have been glucose all the same. */
  readonly ofUnsureKind = new Set<number>()
  /** Rows that say of themselves that they are a sensor's. */
  readonly ofSensor = new Set<number>()
  /** Rows without a date that name a meal or a part of the day. */
  readonly ofNamedMoment = new Set<number>()
  /** First row of each table of the file. */
  readonly partStarts: number[] = []
  /** Dates whose order is open with the weekday beside them, each once. */
  readonly weekdays = new Map<string, DayOfWeek>()
  /** Rows that give a day as '11/05-2026', the day first. */
  daysFirst = 0
  /** Rows in use that name a part of the day in place of a time. */
  timesInWords = 0
  /** How many rows took their day from a row above. */
  datesFilledDown = 0
  /** Whether the rows give the number of the day and lines above them the month. */
  monthsAbove = false
  /** Lines whose quoted field was taken for none, because a row of its own stands within it. */
  readonly brokenQuotes: number[] = []
  /** The one time in seconds from 00:00 that stood in every row and was none; null where times are times. */
  placeholderTime: number | null = null
  /** Which rows are set aside as far as the log alone tells; a merge takes a copy. */
  readonly fates: RowFates
  /** Seconds from 00:00, or one of the negative markers above. */
  #second: Int32Array
  #offset: Int16Array
  /** 0 none, 1 mg/dL, 2 mmol/L. */
  #unit: Uint8Array

  /** Room for so many rows; more make it grow. */
  constructor(capacity: number) {
    const room = Math.max(capacity, 1)
    this.line = new Uint32Array(room)
    this.dayKind = new Uint8Array(room)
    this.day = new Float64Array(room)
    this.hasSeconds = new Uint8Array(room)
    this.valueKind = new Uint8Array(room)
    this.value = new Float64Array(room)
    this.decimals = new Uint8Array(room)
    this.fates = new RowFates(new Uint8Array(room))
    this.#second = new Int32Array(room)
    this.#offset = new Int16Array(room)
    this.#unit = new Uint8Array(room)
  }

  /** Keeps the weekday beside a date whose order is open; the other days of a log are the same for many rows. */
  #addWeekday(day: OpenDay, weekdays: number): void {
    const key = `${day.a} ${day.b} ${day.c} ${weekdays}`
    const known = this.weekdays.get(key)
    if (known === undefined) this.weekdays.set(key, { day, weekdays, rows: 1 })
    else known.rows++
  }

  /** Begins the rows of the file's next table. */
  addPart(): void {
    this.partStarts.push(this.n)
  }

  /** Index of the table that a row belongs to. */
  partOf(row: number): number {
    let part = this.partStarts.length - 1
    while (part > 0 && this.partStarts[part] > row) part--
    return part
  }

  /** Whether most numbers of a row's table have three decimals, which are then no digits behind a thousands separator. */
  hasThousandths(row: number): boolean {
    const part = this.partOf(row)
    this.#thousandths[part] ??= this.#mostHaveThousandths(
      this.partStarts[part],
      this.partStarts.at(part + 1) ?? this.n,
    )
    return this.#thousandths[part]
  }

  #mostHaveThousandths(from: number, to: number): boolean {
    let numbers = 0
    let thousandths = 0
    for (let i = from; i < to; i++) {
      if (this.valueKind[i] !== VALUE.number) continue
      numbers++
      if (this.decimals[i] === THOUSANDTHS) thousandths++
    }
    return thousandths > 0.5 * numbers
  }

  add(row: {
    line: number
    fate: SetAsideReason | null
    moment: CellMoment | 'unreadable' | null
    glucose: GlucoseCell
    unit: GlucoseUnit | null
    meter: string
    meal: string
    note: string
  }): void {
    if (this.n === this.line.length) this.#grow()
    const i = this.n++
    this.line[i] = row.line
    if (row.fate) this.fates.setAside(i, row.fate)
    this.#addMoment(i, row.moment)
    if (row.fate === null && row.moment !== 'unreadable' && row.moment?.inWords) this.timesInWords++
    const { glucose } = row
    if (glucose.kind === 'number') {
      this.valueKind[i] = VALUE.number
      this.value[i] = glucose.value
      this.decimals[i] = Math.min(glucose.decimals, 255)
      if (glucose.gramDecimals !== undefined) this.gramDecimals.set(i, glucose.gramDecimals)
    } else if (glucose.kind === 'marker') {
      this.valueKind[i] = glucose.side === 'above' ? VALUE.above : VALUE.below
      this.value[i] = glucose.limit ?? NaN
    } else if (glucose.kind === 'unreadable') {
      this.valueKind[i] = VALUE.unreadable
      this.value[i] = glucose.mayBeLow ? MAY_BE_LOW : NaN
    }
    if (row.unit) this.#unit[i] = row.unit === 'mg/dL' ? 1 : 2
    this.meters.set(i, row.meter)
    this.meals.set(i, row.meal)
    this.notes.set(i, row.note)
  }

  /** Takes the day of an earlier row for one that gives a time alone. */
  takeDayOf(index: number, earlier: number): void {
    this.dayKind[index] = this.dayKind[earlier]
    this.day[index] = this.day[earlier]
    if (this.fates.reasonOf(index) === 'empty-date') this.fates.takeBack(index)
  }

  /** Moves a row's time of day on. */
  addSeconds(index: number, seconds: number): void {
    this.#second[index] += seconds
  }

  /** Leaves every row its day alone: `second`, which stands in each, is no time. */
  dropTimes(second: number): void {
    this.placeholderTime = second
    this.#second.fill(NO_TIME, 0, this.n)
    this.hasSeconds.fill(0, 0, this.n)
  }

  /** The row that starts on a line of the file; rows are in the order of their lines. */
  rowAtLine(line: number): number {
    let low = 0
    let high = this.n - 1
    while (low < high) {
      const middle = (low + high) >>> 1
      if (this.line[middle] < line) low = middle + 1
      else high = middle
    }
    return low
  }

  unitOf(index: number): GlucoseUnit | null {
    const unit = this.#unit[index]
    return unit === 0 ? null : unit === 1 ? 'mg/dL' : 'mmol/L'
  }

  /** Seconds from 00:00; null where the row gives none, 'unreadable' where it cannot be read. */
  secondOf(index: number): number | 'unreadable' | null {
    const second = this.#second[index]
    return second === NO_TIME ? null : second === UNREADABLE_TIME ? 'unreadable' : second
  }

  /** Whether a row is a point in time that is the same everywhere. */
  isInstant(index: number): boolean {
    return this.dayKind[index] === DAY.instant
  }

  /** Minutes east of UTC where the row gives an offset. */
  offsetOf(index: number): number | null {
    const offset = this.#offset[index]
    return offset === NO_OFFSET ? null : offset
  }

  /** The three numbers of a date whose order is open. */
  numbersOf(index: number): OpenDay {
    const packed = this.day[index]
    const c = Math.floor(packed / 65_536) % 16_384
    return {
      a: packed % 256,
      b: Math.floor(packed / 256) % 256,
      c,
      fourDigitYear: packed >= FOUR_DIGIT_YEAR,
    }
  }

  #addMoment(i: number, moment: CellMoment | 'unreadable' | null): void {
    this.#second[i] = NO_TIME
    this.#offset[i] = NO_OFFSET
    if (moment === null) return
    if (moment === 'unreadable' || moment.day.kind === 'impossible') {
      this.dayKind[i] = DAY.unreadable
      return
    }
    const { day, time } = moment
    if (day.kind === 'missing') {
      this.dayKind[i] = DAY.none
    } else if (day.kind === 'day') {
      this.dayKind[i] = DAY.known
      this.day[i] = day.day
      this.forms[day.form]++
    } else if (day.kind === 'numbers') {
      this.dayKind[i] = DAY.numbers
      if (day.dayFirst) this.daysFirst++
      if (day.weekdays !== undefined) this.#addWeekday(day, day.weekdays)
      this.day[i] = day.a + day.b * 256 + day.c * 65_536 + (day.fourDigitYear ? FOUR_DIGIT_YEAR : 0)
    } else {
      this.dayKind[i] = DAY.instant
      this.day[i] = day.ms
      this.forms[day.form]++
      this.#second[i] = 0
      this.hasSeconds[i] = day.form === 'epoch' || (typeof time === 'object' && time?.hasSeconds) ? 1 : 0
      return
    }
    if (time === 'unreadable') this.#second[i] = UNREADABLE_TIME
    else if (time !== null) {
      this.#second[i] = time.second
      if (time.hasSeconds) this.hasSeconds[i] = 1
      if (time.utc) this.#offset[i] = UTC_OF_OPEN_DAY
      else if (time.offsetMinutes !== null) this.#offset[i] = time.offsetMinutes
    }
  }

  #grow(): void {
    const room = this.n * 2
    this.line = grown(this.line, new Uint32Array(room))
    this.dayKind = grown(this.dayKind, new Uint8Array(room))
    this.day = grown(this.day, new Float64Array(room))
    this.hasSeconds = grown(this.hasSeconds, new Uint8Array(room))
    this.valueKind = grown(this.valueKind, new Uint8Array(room))
    this.value = grown(this.value, new Float64Array(room))
    this.decimals = grown(this.decimals, new Uint8Array(room))
    this.fates.grow(room)
    this.#second = grown(this.#second, new Int32Array(room))
    this.#offset = grown(this.#offset, new Int16Array(room))
    this.#unit = grown(this.#unit, new Uint8Array(room))
  }
}

/** Above every packed triple of numbers. */
const FOUR_DIGIT_YEAR = 2 ** 31
