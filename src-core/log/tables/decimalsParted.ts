import type { CsvRecord } from '../records'

/** Fewest rows that show it, and the share of the rows with a cell too many that must. */
const PARTED = { fewest: 2, share: 0.8 } as const

/** Whether unquoted decimal commas part the values of a comma file: rows have cells too many, and fit once joined. */
export function decimalsParted(
  rows: readonly CsvRecord[],
  header: CsvRecord | null,
  wholes: readonly number[],
): boolean {
  if (header === null) return false
  const width = header.cells.length
  const long = rows.filter(({ cells }) => cells.length > width)
  if (long.length < PARTED.fewest || long.length < 0.5 * rows.length) return false
  const joined = long.filter(({ cells }) => {
    const fitted = joinedDecimals(cells, width, [], wholes)
    return fitted !== cells && lastFilled(fitted) < width
  })
  return joined.length >= PARTED.share * long.length
}

const WHOLE = /^\d{1,3}$/
const DECIMALS = /^\d{1,2}$/

/**
 * The cells with pairs of short whole numbers joined to decimals, from the left, until the row fits its columns; a
 * number where a column of `texts` stands is half of one too, with the cells behind it left out. The columns `wholes`
 * hold no decimals. A row that does not come to fit is left as it is.
 */
export function joinedDecimals(
  cells: readonly string[],
  width: number,
  texts: readonly number[],
  wholes: readonly number[],
): readonly string[] {
  let excess = Math.max(lastFilled(cells) + 1, cells.length) - width
  if (excess <= 0 && texts.some((index) => isPair(cells, index - 1))) excess = 1
  if (excess <= 0) return cells
  const joined: string[] = []
  let left = excess
  for (let i = 0; i < cells.length; i++) {
    if (left > 0 && !wholes.includes(joined.length) && isPair(cells, i)) {
      joined.push(`${cells[i].trim()}.${cells[i + 1].trim()}`)
      left--
      i++
    } else joined.push(cells[i])
  }
  return left === excess ? cells : joined
}

function isPair(cells: readonly string[], index: number): boolean {
  return WHOLE.test((cells[index] ?? '').trim()) && DECIMALS.test((cells[index + 1] ?? '').trim())
}

function lastFilled(cells: readonly string[]): number {
  return cells.findLastIndex((cell) => cell.trim() !== '')
}
