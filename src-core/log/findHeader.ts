import type { NamedColumns } from './namedColumns'
import type { ColumnRole } from './logReport'
import type { CsvRecord } from './records'
import { plain, roleOfHeader } from './vocabulary'

/** The columns of a log on the way to a plan; `weak` where the header names values, not glucose. */
export type Columns = { index: number; header: string; role: ColumnRole; weak: boolean }[]

/** Among how many records the header is looked for. */
const HEADER_WITHIN = 100
/** Longest header cell that is read as words. */
const LONGEST_HEADER_CELL = 80

/** The record that looks most like a header; null where none does. */
export function findHeader(head: readonly CsvRecord[], named: NamedColumns | null): CsvRecord | null {
  let best: CsvRecord | null = null
  let bestScore = 0
  const names = named ? [...named.roles.values()].filter((name) => !isNumber(name)).map(plain) : []
  for (const record of head.slice(0, HEADER_WITHIN)) {
    const score = headerScore(record, names)
    if (score > bestScore) {
      best = record
      bestScore = score
    }
  }
  return best
}

/** How much a record looks like the header; 0 where it cannot be one. */
function headerScore(record: CsvRecord, names: readonly string[]): number {
  let glucose = 0
  let date = 0
  let others = 0
  let named = 0
  for (const cell of record.cells) {
    if (cell === '' || cell.length > LONGEST_HEADER_CELL) continue
    if (names.length > 0 && names.includes(plain(cell))) named += 4
    // A row of data holds numbers and dates; the words of a header hold none outside brackets.
    if (/\d/.test(cell.replace(/[([{].*$/, '').replace(/\b[ah]?1c\b/i, '')) && !/^x?\d+$/.test(cell)) continue
    const role = roleOfHeader(cell)
    if (role === 'glucose') glucose = 4
    else if (role === 'weak-glucose') glucose = Math.max(glucose, 1.5)
    else if (role === 'timestamp' || role === 'date') date = Math.max(date, 2)
    else if (role === 'time') date = Math.max(date, 1.5)
    else if (role !== null) others += 0.25
  }
  if (named > 0) return 10 + named + glucose + date
  return date > 0 && (glucose > 0 || others > 0 || record.cells.length > 2)
    ? glucose + date + Math.min(others, 1)
    : 0
}

/** The columns with the roles that their headers name. */
export function rolesOfHeader(header: CsvRecord): Columns {
  return header.cells.map((cell, index) => {
    const role = cell.length > LONGEST_HEADER_CELL ? null : roleOfHeader(cell)
    return {
      index,
      header: cell.trim(),
      role: role === 'weak-glucose' ? 'glucose' : (role ?? 'ignored'),
      weak: role === 'weak-glucose',
    }
  })
}

/** Whether a column is named by its number, counted from 1. */
export function isNumber(name: string): boolean {
  return /^\d+$/.test(name)
}
