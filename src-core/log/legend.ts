import type { CsvRecord } from './records'
import { conceptsOf } from './words/concepts'

// Codes that the log itself explains in a line above or below its table: 'T: B = blood; C = control solution'.

/** Longer files are not looked through to their end. */
const LINES = { above: 30, below: 10 } as const
/** 'B = blood' and the like; a meaning begins with a letter. */
const PAIR = /^"?\s*([\p{L}\p{N}][\p{L}\p{N}.-]{0,11})\s*=\s*(\p{L}.{1,60}?)\s*"?$/u
/** Small numbers may be values. */
const SMALL_NUMBER = /^\d{1,3}$/
/** Up to so many letters a code may be a word that has another meaning by itself. */
const SHORT = 3

/** What codes mean by the log's own lines, '' for none; `records`: its beginning, or all of it. */
export function legendOf(records: readonly CsvRecord[]): ReadonlyMap<string, string> {
  const lines = records.length <= LINES.above + LINES.below ? records : [...records.slice(0, LINES.above), ...records.slice(-LINES.below)]
  return new Map(lines.flatMap(({ text }) => (text.includes('=') ? pairsIn(text) : [])))
} // prettier-ignore

/** The pairs of a line that holds nothing else; a word with a colon may lead it. */
function pairsIn(line: string): readonly (readonly [string, string])[] {
  const parts = line
    .replace(/^\s*[#"]?\s*(?:\p{L}{1,20}\s*:)?/u, '')
    .split(/[;,|\t]/)
    .filter((part) => part.trim() !== '')
  const pairs = parts.map((part) => PAIR.exec(part))
  if (pairs.length === 0 || pairs.includes(null)) return []
  return pairs.flatMap((pair) =>
    pair === null || SMALL_NUMBER.test(pair[1]) || (pair[1].length > SHORT && conceptsOf(pair[1]).size > 0)
      ? []
      : [[pair[1], pair[2]] as const],
  )
}

/** The records with the codes in their cells written out. */
export function* withLegend(
  records: Iterable<CsvRecord>,
  legend: ReadonlyMap<string, string>,
): Generator<CsvRecord> {
  for (const record of records) {
    const { cells } = record
    if (!cells.some((cell) => legend.has(cell.trim()))) yield record
    else yield { ...record, cells: cells.map((cell) => legend.get(cell.trim()) ?? cell) }
  }
}
