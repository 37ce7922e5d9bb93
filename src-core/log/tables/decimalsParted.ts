import { UNIT_TELLTALE } from '../../reference/meter'
import { readMoment } from '../dateCell'
import { unitIn } from '../glucoseCell'
import type { CsvRecord } from '../records'
import { conceptsOf } from '../words/concepts'
import { headerWords } from '../words/headerRole'
import { kindMeaning } from '../words/kinds'
import { cellKind } from './cellKind'

// A comma file whose decimal commas nobody quoted: '6,4' stands in two cells, and the row has a cell too many.

/** Fewest rows that show it, and the share of the rows with a cell too many that must. */
const PARTED = { fewest: 2, share: 0.8 } as const

/** What a header says of where decimals may stand. */
export interface DecimalColumns {
  readonly width: number
  /** Columns of texts: a number in one is half of a decimal before it. */
  readonly texts: readonly number[]
  /** Those of notes, which may speak of anything. */
  readonly notes: readonly number[]
  /** Columns that hold no decimals: texts, and the parts of dates and times. */
  readonly wholes: readonly number[]
  /** Columns of glucose, where decimals are looked for first. */
  readonly values: readonly number[]
  /** Columns of days and moments, which a spreadsheet may count. */
  readonly moments: readonly number[]
}

export function decimalColumns(header: CsvRecord | null): DecimalColumns {
  const columns = (header?.cells ?? []).map((cell, index) => ({ cell, index, words: headerWords(cell) }))
  const indexes = (list: typeof columns): readonly number[] => list.map(({ index }) => index)
  return {
    width: columns.length,
    texts: indexes(
      columns.filter(({ words: { role } }) => ['note', 'meal', 'meter', 'unit'].includes(role ?? '')),
    ),
    notes: indexes(columns.filter(({ words: { role } }) => role === 'note')),
    wholes: indexes(
      columns.filter(({ cell, words: { role, glucose } }) => {
        const mayHoldNumbers =
          role === null || ['glucose', 'insulin', 'carbohydrate', 'ignored'].includes(role) || glucose > 0
        // Glucose in mg/dL has no decimals.
        const isWhole = glucose > 0 && unitIn(cell) === 'mg/dL'
        return !mayHoldNumbers || isWhole || conceptsOf(cell).has('hour') || conceptsOf(cell).has('minute')
      }),
    ),
    values: indexes(columns.filter(({ words }) => words.glucose > 0)),
    moments: indexes(
      columns.filter(({ words: { role } }) => ['date', 'timestamp', 'time'].includes(role ?? '')),
    ),
  }
}

/**
 * The columns whose values unquoted decimal commas part in a comma file: rows have cells too many, and most fit once pairs
 * are joined in these columns and in no others. Null where there are none, or where nothing tells which they are.
 */
export function decimalsParted(
  rows: readonly CsvRecord[],
  columns: DecimalColumns,
): readonly number[] | null {
  const { width } = columns
  if (width === 0 || width > MOST_COLUMNS) return null
  const long = rows.filter(({ cells }) => cells.length > width)
  if (long.length < PARTED.fewest || long.length < 0.5 * rows.length) return null
  // A weight may be joined where no glucose would be, and tells nothing.
  const telling = long.filter(({ cells }) => !cells.some(namesOther))
  return columnsThatFit(telling.length >= PARTED.fewest ? telling : long, columns)
}

function namesOther(cell: string): boolean {
  return cellKind(cell) === 'text' && kindMeaning(cell.trim()) === 'other'
}

/** Most measures of a table that are thought to hold parted decimals; the columns of glucose are one measure. */
const MOST_PARTED = 4
/** Most measures that are weighed; tables with more are of another make. */
const MOST_WEIGHED = 14
/** Columns are bits of a number. */
const MOST_COLUMNS = 30
/** Share of the glucose values that must have one decimal for glucose to be taken before another column: mmol/L has one. */
const MOST_TENTHS = 0.8

/** A way to join a row's cells: the row, and the columns that it makes decimals of, as bits. */
interface Way {
  readonly cells: readonly string[]
  readonly columns: number
}

/** The fewest measures whose columns hold the pairs so that most rows fit; of two such choices the one of glucose. */
function columnsThatFit(long: readonly CsvRecord[], columns: DecimalColumns): readonly number[] | null {
  const ofRows = long.map(({ cells }) => waysOf(cells, columns))
  const seen = ofRows.flat().reduce((bits, way) => bits | way.columns, 0)
  const glucose = bitsOf(columns.values) & seen
  const others = Array.from({ length: columns.width }, (_, i) => 1 << i).filter((bit) => (seen & bit) !== 0 && (glucose & bit) === 0)
  const measures = glucose === 0 ? others : [glucose, ...others]
  if (measures.length === 0 || measures.length > MOST_WEIGHED) return null
  let best: { readonly bits: number; readonly measures: number }[] = []
  let most = PARTED.share * long.length
  for (const choice of choices(measures)) {
    const fits = ofRows.filter((ways) => ways.some((way) => (way.columns & ~choice.bits) === 0)).length
    if (fits < most || fits === 0) continue
    if (fits > most) best = []
    most = fits
    // Fewer measures come first: more of them tell as much only where the rows say so.
    if (best.length === 0 || choice.measures === best[0].measures) best.push(choice)
  }
  const chosen = best.length < 2 ? best.at(0)?.bits : ofGlucose(best.map(({ bits }) => bits), glucose, ofRows, columns)
  return chosen === undefined ? null : Array.from({ length: columns.width }, (_, i) => i).filter((i) => (chosen & (1 << i)) !== 0)
} // prettier-ignore

function bitsOf(indexes: readonly number[]): number {
  return indexes.reduce((bits, index) => bits | (1 << index), 0)
}

function waysOf(cells: readonly string[], columns: DecimalColumns): readonly Way[] {
  const excess = Math.max(lastFilled(cells) + 1, cells.length) - columns.width
  const ways = waysToJoin(cells, excess, columns)
  if (ways.length > MOST_WAYS) return []
  return ways
    .map((way) => ({
      cells: joinedAt(cells, way),
      columns: way.reduce((bits, index, nth) => bits | (1 << (index - nth)), 0),
    }))
    .filter((way) => lastFilled(way.cells) < columns.width)
}

/** Every choice of one to `MOST_PARTED` of these measures with its columns as bits, fewer measures first. */
function choices(
  measures: readonly number[],
): readonly { readonly bits: number; readonly measures: number }[] {
  let last = [{ bits: 0, measures: 0, next: 0 }]
  const all: typeof last = []
  for (let size = 1; size <= MOST_PARTED; size++) {
    last = last.flatMap(({ bits, next }) =>
      measures.slice(next).map((each, i) => ({ bits: bits | each, measures: size, next: next + i + 1 })),
    )
    all.push(...last)
  }
  return all
}

/** Of several choices that fit alike the one with glucose; none where their values differ all the same. */
function ofGlucose(
  best: readonly number[],
  glucose: number,
  ofRows: readonly (readonly Way[])[],
  { values }: DecimalColumns,
): number | undefined {
  const valuesUnder = (bits: number): readonly string[] =>
    ofRows.flatMap((ways) => {
      const way = ways.find((each) => (each.columns & ~bits) === 0)
      return values.map((index) => way?.cells[index] ?? '')
    })
  const read = best.map(valuesUnder)
  if (read.every((each) => each.every((value, i) => value === read[0][i]))) return best[0]
  const withGlucose = best.filter((bits) => (bits & glucose) !== 0)
  if (withGlucose.length !== 1) return undefined
  const decimals = valuesUnder(withGlucose[0]).filter((value) => /^\d+\.\d+$/.test(value))
  const tenths = decimals.filter((value) => /\.\d$/.test(value)).length
  return tenths >= MOST_TENTHS * decimals.length ? withGlucose[0] : undefined
}

/** Longer cells are texts that name a unit. */
const LONGEST_UNIT = 9
const WHOLE = /^\d{1,3}$/
const DECIMALS = /^\d{1,2}$/
/** More ways to join a row's cells than these are no help. */
const MOST_WAYS = 64

/**
 * The cells with pairs of whole numbers joined to decimals until the row fits its columns, in the `parted` columns where
 * that is a way, and so that most of them are of glucose; as they are where two such ways differ in a value, or none fits.
 */
export function joinedDecimals(
  cells: readonly string[],
  columns: DecimalColumns,
  parted: readonly number[],
): readonly string[] {
  const { width, texts, values } = columns
  let excess = Math.max(lastFilled(cells) + 1, cells.length) - width
  if (excess <= 0 && texts.some((index) => isPair(cells, index - 1))) excess = 1
  if (excess <= 0) return cells
  // Further cells too many belong to a note at the end.
  const fewest = texts.includes(width - 1) ? 1 : excess
  for (let pairs = excess; pairs >= fewest; pairs--) {
    const ways = waysToJoin(cells, pairs, columns)
    if (ways.length === 0) continue
    if (ways.length > MOST_WAYS) return cells
    const known = ways.filter((way) => way.every((index, nth) => parted.includes(index - nth)))
    const inValues = known.map((way) => way.filter((index, nth) => values.includes(index - nth)).length)
    const most = Math.max(...inValues)
    const best = known.length > 0 ? known.filter((_, i) => inValues[i] === most) : ways
    const joined = best.map((way) => joinedAt(cells, way))
    const differ = joined.some((row) => values.some((index) => row[index] !== joined[0][index]))
    return differ ? cells : joined[0]
  }
  return cells
}

/** Every choice of so many pairs, by the index of each pair's first cell. */
function waysToJoin(
  cells: readonly string[],
  pairs: number,
  { notes, wholes, values, moments }: DecimalColumns,
): readonly (readonly number[])[] {
  const ways: (readonly number[])[] = []
  const choose = (from: number, chosen: readonly number[]): void => {
    if (chosen.length === pairs) {
      ways.push(chosen)
      return
    }
    for (let i = from; i + 1 < cells.length && ways.length <= MOST_WAYS; i++)
      if (
        (isPair(cells, i) && mayHold(i - chosen.length, cells[i])) ||
        (moments.includes(i - chosen.length) && isPartedSerial(cells, i))
      )
        choose(i + 2, [...chosen, i])
  }
  // Glucose in mg/dL has no decimals; a note may speak of any unit.
  const units = cells.map((cell, i) =>
    cell.length <= LONGEST_UNIT && !notes.includes(i) ? unitIn(cell) : null,
  )
  const isMgDl = units.includes('mg/dL') && !units.includes('mmol/L')
  const mayHold = (column: number, whole: string): boolean =>
    !wholes.includes(column) &&
    !(values.includes(column) && (isMgDl || Number(whole) > UNIT_TELLTALE.highestMmol))
  choose(0, [])
  return ways
}

function joinedAt(cells: readonly string[], way: readonly number[]): readonly string[] {
  return cells.flatMap((cell, i) => {
    if (way.includes(i)) return [`${cell.trim()}.${cells[i + 1].trim()}`]
    return way.includes(i - 1) ? [] : [cell]
  })
}

/** A day as a spreadsheet counts it, and the fraction of the day behind its comma. */
const SERIAL_DAY = /^\d{5}$/
const FRACTION_OF_DAY = /^\d{3,12}$/

/** Whether a serial day and its fraction stand in two cells: '46084,486111'. */
export function isPartedSerial(cells: readonly string[], index: number): boolean {
  const cell = (cells[index] ?? '').trim()
  return (
    SERIAL_DAY.test(cell) &&
    FRACTION_OF_DAY.test((cells[index + 1] ?? '').trim()) &&
    readMoment(cell) !== null
  )
}

function isPair(cells: readonly string[], index: number): boolean {
  return WHOLE.test((cells[index] ?? '').trim()) && DECIMALS.test((cells[index + 1] ?? '').trim())
}

function lastFilled(cells: readonly string[]): number {
  return cells.findLastIndex((cell) => cell.trim() !== '')
}
