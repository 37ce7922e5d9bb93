import { withMomentsTogether } from './momentsInParts'
import type { NamedColumns } from './namedColumns'
import { type CsvRecord, records } from './records'
import { readTables } from './readTables'
import { cellKind } from './tables/cellKind'
import { isDataRow, shapeOf } from './tables/rowShape'

/** The delimiters that logs use, in the order in which they are preferred where nothing tells. */
export const DELIMITERS = { comma: ',', semicolon: ';', tab: '\t', pipe: '|' } as const
export type DelimiterName = keyof typeof DELIMITERS

/** How much of a log's beginning decides on the delimiter: characters and records. */
const HEAD_CHARACTERS = 400_000
const HEAD_RECORDS = 400

/** A beginning cut by one delimiter, with what its rows alone score. */
interface Cut {
  readonly name: DelimiterName
  readonly head: readonly CsvRecord[]
  readonly score: number
}

/** What a table of readings scores, the most that can be added to what the rows alone do. */
const TABLE_OF_READINGS = 4

/** The delimiter under which a log's beginning is a table with readings, with the most rows that have dates. */
export function findDelimiter(head: string, named: NamedColumns | null): DelimiterName {
  const names = (Object.keys(DELIMITERS) as DelimiterName[]).filter(
    (name) => name === 'comma' || head.includes(DELIMITERS[name]),
  )
  if (names.length === 1) return names[0]
  const cuts = names.map((name): Cut => {
    const records = headRecords(head, DELIMITERS[name])
    return { name, head: records, score: scoreOfRows(records, DELIMITERS[name]) }
  })
  let best = { name: names[0], score: -Infinity }
  // Tables are read where they can still decide; of equal scores the delimiter that is preferred counts.
  for (const { name, head: records, score } of cuts.toSorted((a, b) => b.score - a.score)) {
    if (score + TABLE_OF_READINGS < best.score) break
    const whole = score < 0 ? score : score + scoreOfTables(records, named, DELIMITERS[name])
    if (whole > best.score || (whole === best.score && names.indexOf(name) < names.indexOf(best.name)))
      best = { name, score: whole }
  }
  return best.name
}

/** Rows that have the usual number of cells and dates in them; -1 for a beginning that cannot be cut so. */
function scoreOfRows(head: readonly CsvRecord[], delimiter: string): number {
  if (head.at(-1)?.isTooLarge) return -1
  const rows = head.filter((record) => shapeOf(record).filled > 0)
  if (rows.length === 0) return 0
  const counts = new Map<number, number>()
  for (const { cells } of rows) counts.set(cells.length, (counts.get(cells.length) ?? 0) + 1)
  const [usual, times] = [...counts].reduce((best, entry) => (entry[1] > best[1] ? entry : best))
  const regular = usual > 1 ? times / rows.length : 0
  const dated = rows.filter(
    (record) => record.cells.length > 1 && (shapeOf(record).days > 0 || isDataRow(record)),
  )
  const uncut = dated.filter(({ cells }) => cells.some((cell) => isUncut(cell, delimiter)))
  return regular + (2 * dated.length - 2 * uncut.length) / rows.length + Math.min(usual, 10) / 100
}

/** A table of readings counts most. */
function scoreOfTables(head: readonly CsvRecord[], named: NamedColumns | null, delimiter: string): number {
  const { tables, open } = readTables(head, named, delimiter, head.length)
  if (tables.some(({ plan }) => plan.kind === 'glucose')) return TABLE_OF_READINGS
  return open ? 2 : tables.length > 0 ? 1 : 0
}

/** '17.08.2026 7:44;7': a day with another delimiter behind it was not cut where it should be. A comma may stand in one. */
function isUncut(cell: string, delimiter: string): boolean {
  const others = Object.values(DELIMITERS).filter((each) => each !== delimiter && each !== DELIMITERS.comma)
  if (!others.some((each) => cell.includes(each))) return false
  const kind = cellKind(cell)
  return kind === 'day' || kind === 'moment'
}

/** The beginning of a log's text. */
export function headOf(text: () => Iterable<string>): string {
  let head = ''
  for (const piece of text()) {
    head += piece
    if (head.length >= HEAD_CHARACTERS) break
  }
  return head
}

/** The records of a log's text, with moments that it gives in parts put together. */
export function logRecords(text: Iterable<string>, delimiter: string): Iterable<CsvRecord> {
  return withMomentsTogether(records(text, delimiter))
}

/** The records of a beginning. */
export function headRecords(head: string, delimiter: string): readonly CsvRecord[] {
  const parsed: CsvRecord[] = []
  for (const record of logRecords([head], delimiter)) {
    parsed.push(record)
    if (parsed.length === HEAD_RECORDS) break
  }
  // The last record of a text that was cut may be half of one.
  if (head.length >= HEAD_CHARACTERS && parsed.length > 1 && parsed.length < HEAD_RECORDS) parsed.pop()
  return parsed
}
