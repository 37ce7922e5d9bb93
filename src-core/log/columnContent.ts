import { MG_PER_DL_IN_ONE_MMOL_PER_L } from '../units/glucose'
import { readMoment, readTimeCell } from './dateCell'
import { readGlucose } from './glucoseCell'
import type { CsvRecord } from './records'

/** Share of a column's filled cells that must read as dates or times for it to be taken for such a column. */
const MOST_CELLS = 0.8

/** What the first rows of a log hold, column by column. */
export class ColumnContent {
  constructor(private readonly records: readonly CsvRecord[]) {}

  /** The filled cells of a column. */
  cells(index: number): readonly string[] {
    return this.records.map(({ cells }) => (cells[index] ?? '').trim()).filter((cell) => cell !== '')
  }

  isEmpty(index: number): boolean {
    return this.cells(index).length === 0
  }

  holdsDates(index: number): boolean {
    return this.#mostly(index, (cell) => readMoment(cell) !== null)
  }

  /** Whether the column's dates come with the time of day. */
  holdsTimesOfDay(index: number): boolean {
    return this.#mostly(index, (cell) => {
      const moment = readMoment(cell)
      return moment !== null && (moment.time !== null || moment.day.kind === 'instant')
    })
  }

  holdsTimes(index: number): boolean {
    const looksLikeTime = /\d\s?([:.h]\s?\d|[ap]\.?\s?m?\b)/i
    return this.#mostly(index, (cell) => looksLikeTime.test(cell) && typeof readTimeCell(cell) === 'object')
  }

  /** How many cells hold a number. */
  values(index: number): number {
    return this.cells(index).filter((cell) => readGlucose(cell).kind === 'number').length
  }

  /** Whether most of what the column holds are numbers, however many cells are empty. */
  holdsNumbers(index: number): boolean {
    return this.#mostly(index, (cell) => !Number.isNaN(Number(cell.replace(',', '.'))))
  }

  /** Whether any row has a reading in this column that is not the other column's, in its unit or the other. */
  holdsOtherReadings(index: number, other: number): boolean {
    return this.records.some(({ cells }) => {
      const here = readGlucose(cells[index] ?? '')
      if (here.kind !== 'number') return false
      const there = readGlucose(cells[other] ?? '')
      return there.kind !== 'number' || !isSameValue(here.value, there.value)
    })
  }

  #mostly(index: number, test: (cell: string) => boolean): boolean {
    const cells = this.cells(index)
    return cells.length > 0 && cells.filter(test).length >= MOST_CELLS * cells.length
  }
}

/** Rounding in either unit moves the ratio of two units by less than this. */
const RATIO_TOLERANCE = 0.05

function isSameValue(a: number, b: number): boolean {
  const ratio = Math.max(a, b) / Math.min(a, b)
  return a === b || Math.abs(ratio / MG_PER_DL_IN_ONE_MMOL_PER_L - 1) < RATIO_TOLERANCE
}
