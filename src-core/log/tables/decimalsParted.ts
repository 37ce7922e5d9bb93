import { UNIT_TELLTALE } from '../../reference/meter'
import type { CsvRecord } from '../records'
import { conceptsOf } from '../words/concepts'
import { headerWords } from '../words/headerRole'

// A comma file whose decimal commas nobody quoted: '6,4' stands in two cells, and the row has a cell too many.

/** Fewest rows that show it, and the share of the rows with a cell too many that must. */
const PARTED = { fewest: 2, share: 0.8 } as const

/** What a header says of where decimals may stand. */
export interface DecimalColumns {
  readonly width: number
  /** Columns of texts: a number in one is half of a decimal before it. */
  readonly texts: readonly number[]
  /** Columns that hold no decimals: texts, and the parts of dates and times. */
  readonly wholes: readonly number[]
  /** Columns of glucose, where decimals are looked for first. */
  readonly values: readonly number[]
}

export function decimalColumns(header: CsvRecord | null): DecimalColumns {
  const columns = (header?.cells ?? []).map((cell, index) => ({ cell, index, words: headerWords(cell) }))
  const indexes = (list: typeof columns): readonly number[] => list.map(({ index }) => index)
  return {
    width: columns.length,
    texts: indexes(
      columns.filter(({ words: { role } }) => ['note', 'meal', 'meter', 'unit'].includes(role ?? '')),
    ),
    wholes: indexes(
      columns.filter(({ cell, words: { role, glucose } }) => {
        const mayHoldNumbers =
          role === null || ['glucose', 'insulin', 'carbohydrate', 'ignored'].includes(role) || glucose > 0
        return !mayHoldNumbers || conceptsOf(cell).has('hour') || conceptsOf(cell).has('minute')
      }),
    ),
    values: indexes(columns.filter(({ words }) => words.glucose > 0)),
  }
}

/** Whether unquoted decimal commas part the values of a comma file: rows have cells too many, and fit once joined. */
export function decimalsParted(rows: readonly CsvRecord[], columns: DecimalColumns): boolean {
  const { width } = columns
  if (width === 0) return false
  const long = rows.filter(({ cells }) => cells.length > width)
  if (long.length < PARTED.fewest || long.length < 0.5 * rows.length) return false
  const joined = long.filter(({ cells }) => {
    const fitted = joinedDecimals(cells, { ...columns, texts: [] })
    return fitted !== cells && lastFilled(fitted) < width
  })
  return joined.length >= PARTED.share * long.length
}

const WHOLE = /^\d{1,3}$/
const DECIMALS = /^\d{1,2}$/
/** More ways to join a row's cells than these are no help. */
const MOST_WAYS = 64

/**
 * The cells with pairs of whole numbers joined to decimals until the row fits its columns, in the way that puts most of
 * them into columns of glucose; as they are where two such ways differ in a value, or none fits.
 */
export function joinedDecimals(cells: readonly string[], columns: DecimalColumns): readonly string[] {
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
    const inValues = ways.map((way) => way.filter((index, nth) => values.includes(index - nth)).length)
    const most = Math.max(...inValues)
    const best = ways.filter((_, i) => inValues[i] === most).map((way) => joinedAt(cells, way))
    const differ = best.some((row) => values.some((index) => row[index] !== best[0][index]))
    return differ ? cells : best[0]
  }
  return cells
}

/** Every choice of so many pairs, by the index of each pair's first cell. */
function waysToJoin(
  cells: readonly string[],
  pairs: number,
  { wholes, values }: DecimalColumns,
): readonly (readonly number[])[] {
  const ways: (readonly number[])[] = []
  const choose = (from: number, chosen: readonly number[]): void => {
    if (chosen.length === pairs) {
      ways.push(chosen)
      return
    }
    for (let i = from; i + 1 < cells.length && ways.length <= MOST_WAYS; i++)
      if (isPair(cells, i) && mayHold(i - chosen.length, cells[i])) choose(i + 2, [...chosen, i])
  }
  // Glucose in mg/dL has no decimals.
  const mayHold = (column: number, whole: string): boolean =>
    !wholes.includes(column) && !(values.includes(column) && Number(whole) > UNIT_TELLTALE.highestMmol)
  choose(0, [])
  return ways
}

function joinedAt(cells: readonly string[], way: readonly number[]): readonly string[] {
  return cells.flatMap((cell, i) => {
    if (way.includes(i)) return [`${cell.trim()}.${cells[i + 1].trim()}`]
    return way.includes(i - 1) ? [] : [cell]
  })
}

function isPair(cells: readonly string[], index: number): boolean {
  return WHOLE.test((cells[index] ?? '').trim()) && DECIMALS.test((cells[index + 1] ?? '').trim())
}

function lastFilled(cells: readonly string[]): number {
  return cells.findLastIndex((cell) => cell.trim() !== '')
}
