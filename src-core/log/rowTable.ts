import type { GlucoseUnit } from '../units/glucose'
import type { CellMoment } from './dateCell'
import type { GlucoseCell } from './glucoseCell'
import { growableColumn } from './growableColumn'
import type { SetAsideReason } from './logReport'

/** What a row says of its day, before the order of day and month is known. */
export const DAY = { none: 0, unreadable: 1, known: 2, numbers: 3, instant: 4 } as const
/** What a row's glucose cell holds. */
export const VALUE = { none: 0, unreadable: 1, number: 2, above: 3, below: 4 } as const

const NO_TIME = -1
const UNREADABLE_TIME = -2
const NO_OFFSET = -32_768

/**
 * A log's rows as far as each row alone tells them, in columns: the order of day and month and the unit are
 * the whole log's to decide. Rows are in the order of the file.
 */
export class RowTable {
  n = 0
  readonly line = growableColumn(Uint32Array)
  /** Index + 1 in `reasons` of why the row is set aside already; 0 where it is not. */
  readonly fate = growableColumn(Uint8Array)
  readonly dayKind = growableColumn(Uint8Array)
  /** Day number, or three packed numbers, or an instant in milliseconds. */
  readonly day = growableColumn(Float64Array)
  /** Seconds from 00:00, or one of the negative markers above. */
  readonly second = growableColumn(Int32Array)
  readonly hasSeconds = growableColumn(Uint8Array)
  readonly offset = growableColumn(Int16Array)
  readonly valueKind = growableColumn(Uint8Array)
  /** The number or the marker's limit as written; NaN for a marker without one. */
  readonly value = growableColumn(Float64Array)
  readonly decimals = growableColumn(Uint8Array)
  /** 0 none, 1 mg/dL, 2 mmol/L. */
  readonly unit = growableColumn(Uint8Array)
  readonly forms = { ymd: 0, name: 0, serial: 0, epoch: 0 }
  readonly notes = new Map<number, string>()
  readonly meals = new Map<number, string>()
  readonly meters = new Map<number, string>()
  readonly reasons: SetAsideReason[] = []

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
    const i = this.n++
    this.line.set(i, row.line)
    if (row.fate) this.setAside(i, row.fate)
    this.#addMoment(i, row.moment)
    const { glucose } = row
    if (glucose.kind === 'number') {
      this.valueKind.set(i, VALUE.number)
      this.value.set(i, glucose.value)
      this.decimals.set(i, Math.min(glucose.decimals, 255))
    } else if (glucose.kind === 'marker') {
      this.valueKind.set(i, glucose.side === 'above' ? VALUE.above : VALUE.below)
      this.value.set(i, glucose.limit ?? NaN)
    } else if (glucose.kind === 'unreadable') {
      this.valueKind.set(i, VALUE.unreadable)
    }
    if (row.unit) this.unit.set(i, row.unit === 'mg/dL' ? 1 : 2)
    if (row.meter !== '') this.meters.set(i, row.meter)
    if (row.meal !== '') this.meals.set(i, row.meal)
    if (row.note !== '') this.notes.set(i, row.note)
  }

  setAside(index: number, reason: SetAsideReason): void {
    let at = this.reasons.indexOf(reason)
    if (at < 0) at = this.reasons.push(reason) - 1
    this.fate.set(index, at + 1)
  }

  reasonOf(index: number): SetAsideReason | null {
    const fate = this.fate.get(index)
    return fate === 0 ? null : this.reasons[fate - 1]
  }

  unitOf(index: number): GlucoseUnit | null {
    const unit = this.unit.get(index)
    return unit === 0 ? null : unit === 1 ? 'mg/dL' : 'mmol/L'
  }

  /** Seconds from 00:00; null where the row gives none, 'unreadable' where it cannot be read. */
  secondOf(index: number): number | 'unreadable' | null {
    const second = this.second.get(index)
    return second === NO_TIME ? null : second === UNREADABLE_TIME ? 'unreadable' : second
  }

  /** Minutes east of UTC where the row gives an offset. */
  offsetOf(index: number): number | null {
    const offset = this.offset.get(index)
    return offset === NO_OFFSET ? null : offset
  }

  /** The three numbers of a date whose order is open. */
  numbersOf(index: number): { a: number; b: number; c: number; fourDigitYear: boolean } {
    const packed = this.day.get(index)
    const c = Math.floor(packed / 65_536) % 16_384
    return {
      a: packed % 256,
      b: Math.floor(packed / 256) % 256,
      c,
      fourDigitYear: packed >= FOUR_DIGIT_YEAR,
    }
  }

  #addMoment(i: number, moment: CellMoment | 'unreadable' | null): void {
    this.second.set(i, NO_TIME)
    this.offset.set(i, NO_OFFSET)
    if (moment === null) return
    if (moment === 'unreadable' || moment.day.kind === 'impossible') {
      this.dayKind.set(i, DAY.unreadable)
      return
    }
    const { day, time } = moment
    if (day.kind === 'day') {
      this.dayKind.set(i, DAY.known)
      this.day.set(i, day.day)
      this.forms[day.form]++
    } else if (day.kind === 'numbers') {
      this.dayKind.set(i, DAY.numbers)
      this.day.set(i, day.a + day.b * 256 + day.c * 65_536 + (day.fourDigitYear ? FOUR_DIGIT_YEAR : 0))
    } else {
      this.dayKind.set(i, DAY.instant)
      this.day.set(i, day.ms)
      this.forms[day.form]++
      this.second.set(i, 0)
      this.hasSeconds.set(i, 1)
      return
    }
    if (time === 'unreadable') this.second.set(i, UNREADABLE_TIME)
    else if (time !== null) {
      this.second.set(i, time.second)
      if (time.hasSeconds) this.hasSeconds.set(i, 1)
      if (time.utc || time.offsetMinutes !== null) this.offset.set(i, time.offsetMinutes ?? 0)
    }
  }
}

/** Above every packed triple of numbers. */
const FOUR_DIGIT_YEAR = 2 ** 31
