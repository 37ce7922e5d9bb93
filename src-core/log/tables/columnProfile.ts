import { halfOfDay, readMoment } from '../dateCell'
import { readGlucose } from '../glucoseCell'
import { mealMoment } from '../mealWords'
import type { CsvRecord } from '../records'
import { conceptsOf } from '../words/concepts'
import { plain, plainDigits } from '../words/plain'
import { cellKind, withoutUnit } from './cellKind'

/** Share of a column's filled cells that must be of one make for the column to be of it. */
export const MOST_CELLS = 0.8
/** So many moments may have a time among midnights that are none. */
const FEWEST_CLOCKED = 0.05
const CLOCK_DIGITS = /^([01]?\d|2[0-3])[0-5]\d$/
const DOT_CLOCK = /^([01]?\d|2[0-3])[.,][0-5]\d$/
/** '07-36', as it is written in Russia; where none has more minutes than a day has hours they are stretches of hours. */
const DASH_CLOCK = /^([01]?\d|2[0-3])-([0-5]\d)$/
const HOURS_A_DAY = 24
/** Fewest numbers in a row that make a column of running numbers. */
const FEWEST_COUNTED = 4
/** Distinct texts kept of a column. */
const MOST_TEXTS = 60

/** Signs and words that stand in the place of a value that is missing. */
const MISSING = /^(?:[-\u2013\u2014._*/x ]{1,5}|n\/?a|none|null|nil|nan|missing|fehlt|keine?r?|k\.?\s?a\.?)$/i

function isMissing(cell: string): boolean {
  return MISSING.test(cell)
}

/** What the filled cells of one column are, over a table's first rows. */
export class ColumnProfile {
  readonly filled: number
  readonly rows: number
  readonly days: number
  /** Days with a time of day, and those of them at midnight. */
  readonly moments: number
  readonly midnights: number
  readonly times: number
  readonly numbers: number
  readonly markers: number
  readonly units: number
  readonly texts: number
  /** Cells that may be a clock time with a dot or a dash, and those that say AM or PM alone. */
  readonly dotClocks: number
  /** Cells that may be a clock time without a sign: '0710', '705'. */
  readonly clockDigits: number
  readonly halfDays: number
  readonly momentWords: number
  /** Numbers as written, markers left out. */
  readonly values: readonly number[]
  /** How many of them have a decimal that is not 0. */
  readonly fractions: number
  /** Numbers with a unit of glucose beside them. */
  readonly withUnit: number
  /** Distinct texts, up to a limit. */
  readonly distinct: ReadonlyMap<string, number>
  readonly cells: readonly string[]

  /** `factor` brings the values into a unit that is known. */
  constructor(records: readonly CsvRecord[], index: number, factor = 1) {
    const cells = records.map((record) => (record.cells[index] ?? '').trim())
    this.cells = cells
    this.rows = records.length
    const counts = {
      filled: 0,
      days: 0,
      moments: 0,
      midnights: 0,
      times: 0,
      numbers: 0,
      markers: 0,
      units: 0,
      texts: 0,
    }
    let [dashClocks, isDashed] = [0, false]
    let [dotClocks, clockDigits, halfDays, momentWords, fractions, withUnit] = [0, 0, 0, 0, 0, 0]
    const values: number[] = []
    const distinct = new Map<string, number>()
    for (const cell of cells) {
      if (cell === '' || isMissing(cell)) continue
      counts.filled++
      const seen = distinct.get(cell)
      if (seen !== undefined || distinct.size < MOST_TEXTS) distinct.set(cell, (seen ?? 0) + 1)
      const kind = cellKind(cell)
      if (DOT_CLOCK.test(plainDigits(cell))) dotClocks++
      const dashed = DASH_CLOCK.exec(cell)
      if (dashed) dashClocks++
      isDashed ||= dashed !== null && Number(dashed[2]) > HOURS_A_DAY
      if (CLOCK_DIGITS.test(cell)) clockDigits++
      if (halfOfDay(cell) !== null) halfDays++
      if (kind === 'text' && (mealMoment(cell) !== null || conceptsOf(cell).has('partOfDay'))) momentWords++
      if (kind === 'day') counts.days++
      else if (kind === 'moment') {
        const time = readMoment(plainDigits(cell))?.time
        // A day with something else behind it tells no time.
        if (time === 'unreadable') counts.days++
        else counts.moments++
        if (typeof time === 'object' && time?.second === 0) counts.midnights++
      } else if (kind === 'time') counts.times++
      else if (kind === 'unit') counts.units++
      else if (kind === 'marker') counts.markers++
      else if (kind === 'text') counts.texts++
      if (kind === 'number') {
        counts.numbers++
        const read = readGlucose(cell)
        if (read.kind === 'number') {
          values.push(factor === 1 ? read.value : Math.round(read.value * factor))
          if (read.unit !== null) withUnit++
          if (factor === 1 && !Number.isInteger(read.value)) fractions++
        }
      }
    }
    this.filled = counts.filled
    this.days = counts.days
    this.moments = counts.moments
    this.midnights = counts.midnights
    this.times = counts.times
    this.numbers = counts.numbers
    this.markers = counts.markers
    this.units = counts.units
    this.texts = counts.texts
    this.dotClocks = dotClocks + (isDashed ? dashClocks : 0)
    this.clockDigits = clockDigits
    this.halfDays = halfDays
    this.momentWords = momentWords
    this.values = values
    this.fractions = fractions
    this.withUnit = withUnit
    this.distinct = distinct
  }

  isMostly(count: number): boolean {
    return this.filled > 0 && count >= MOST_CELLS * this.filled
  }

  get holdsDates(): boolean {
    return this.isMostly(this.days + this.moments)
  }

  /** Whether its dates come with a time of day that is not always midnight. */
  get holdsMoments(): boolean {
    return (
      this.isMostly(this.days + this.moments) &&
      this.moments - this.midnights > FEWEST_CLOCKED * this.moments &&
      this.moments >= MOST_CELLS * this.filled
    )
  }

  /** Whether its numbers come with a unit of glucose. */
  get holdsUnits(): boolean {
    return this.isMostly(this.withUnit)
  }

  get holdsTimes(): boolean {
    return this.isMostly(this.times)
  }

  get holdsNumbers(): boolean {
    return this.numbers + this.markers > 0 && this.isMostly(this.numbers + this.markers)
  }

  get isConstant(): boolean {
    return this.filled >= 3 && this.distinct.size === 1
  }

  /** Numbers that rise or fall by one and the same step from row to row. */
  get isCounter(): boolean {
    const { values } = this
    if (values.length < FEWEST_COUNTED) return false
    const step = values[1] - values[0]
    return Math.abs(step) === 1 && values.every((value, i) => i === 0 || value - values[i - 1] === step)
  }

  /** Coefficient of variation of the numbers, as a fraction; 0 below two of them. */
  get spread(): number {
    const { values } = this
    const n = values.length
    if (n < 2) return 0
    const mean = values.reduce((sum, value) => sum + value, 0) / n
    const variance = values.reduce((sum, value) => sum + (value - mean) ** 2, 0) / (n - 1)
    return mean > 0 ? Math.sqrt(variance) / mean : 0
  }

  get median(): number {
    const sorted = [...this.values].sort((a, b) => a - b)
    return sorted.length === 0 ? NaN : sorted[sorted.length >> 1]
  }

  /** Whether the numbers could be glucose in one of the units. */
  get fitsGlucose(): boolean {
    return fitsGlucose(this.values)
  }
}

/** Sizes that readings of glucose have, by unit: wide bounds about what meters show. A design choice. */
const SIZES = { mmol: [1, 34], mgDl: [20, 650] } as const
const FEWEST_THAT_FIT = 0.9
/** mg/dL has no decimals; so large a share may have some all the same (means, conversions). */
const MOST_FRACTIONS = 0.2

/** Whether numbers could be glucose in one of the units; true of none. */
export function fitsGlucose(values: readonly number[]): boolean {
  const share = (test: (value: number) => boolean): number =>
    values.filter(test).length / Math.max(1, values.length)
  if (values.length === 0) return true
  const mmol = share((value) => value >= SIZES.mmol[0] && value <= SIZES.mmol[1])
  const mgDl = share((value) => value >= SIZES.mgDl[0] && value <= SIZES.mgDl[1])
  const whole = share((value) => Number.isInteger(value))
  return (
    mmol >= FEWEST_THAT_FIT ||
    (mgDl >= FEWEST_THAT_FIT && whole >= 1 - MOST_FRACTIONS) ||
    (mmol + mgDl >= FEWEST_THAT_FIT && mmol > 0 && mgDl > 0)
  )
}

/** Whether two headers say the same, numbers and units left out: 'Glucose 2 (mg/dL)' heads the same as 'Glucose'. */
export function sameName(a: string, b: string): boolean {
  const strip = (text: string): string => plain(withoutUnit(text).replace(/\d+/g, ' '))
  return strip(a) === strip(b)
}
