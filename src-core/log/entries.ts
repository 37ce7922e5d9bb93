import type { ReadLog } from './readLog'
import { FLAG } from './readings'
import { momentReader } from './resolveRows'
import { type Shift, shiftOn, shiftsOf } from './shifts'

/** Insulin, a meal's carbohydrates or another event, as a log has it. For the diary; nothing is computed with it. */
export interface LogEntry {
  /** Wall-clock seconds; midnight of the day where the log gives no time. */
  readonly at: number
  readonly dayOnly: boolean
  readonly source: number
  readonly line: number
  /** The column's header, or the kind of entry; the column's number where it has no header. */
  readonly label: string | number
  readonly text: string
}

/** A row of a log that stands again further down in the same log. */
export interface RepeatedRow {
  readonly source: number
  readonly row: number
  /** The row it repeats. */
  readonly of: number
}

/**
 * The entries of all logs that have a date, in order of time. An entry of the same minute, kind and text in two logs
 * is one: where a log holds it twice it stands twice, however many other logs hold it too. What a repeated row says
 * again is given once.
 */
export function resolveEntries(
  logs: readonly ReadLog[],
  zone: string,
  shifts: readonly Shift[],
  repeatedRows: readonly RepeatedRow[] = [],
): readonly LogEntry[] {
  /** How often each entry stands in the log that holds it most often, of those looked at so far. */
  const most = new Map<string, number>()
  const entries: LogEntry[] = []
  logs.forEach((log, source) => {
    const counts = new Map<string, number>()
    const isTold = toldBefore(repeatedRows.filter((repeated) => repeated.source === source))
    for (const { row, entry } of entriesOf(log, source, zone, shifts)) {
      const key = keyOf(entry)
      if (isTold(row, key)) continue
      const count = (counts.get(key) ?? 0) + 1
      counts.set(key, count)
      if (count <= (most.get(key) ?? 0)) continue
      most.set(key, count)
      entries.push(entry)
    }
  })
  return entries.sort((a, b) => a.at - b.at || a.source - b.source || a.line - b.line)
}

/** The dated entries of one log, in the order of its rows. */
function* entriesOf(
  log: ReadLog,
  source: number,
  zone: string,
  shifts: readonly Shift[],
): Generator<{ readonly row: number; readonly entry: LogEntry }> {
  const { table } = log
  const own = shiftsOf(shifts, log.source.sha256)
  const momentOf = momentReader(log, zone)
  for (const { row, label, text, byKind } of table.entries) {
    const reason = table.fates.reasonOf(row)
    if (byKind ? reason !== 'not-glucose' : reason === 'repeated-header') continue
    const moment = momentOf(row)
    if (moment === null) continue
    const at = moment.at + shiftOn(moment, own) * 60
    const dayOnly = (moment.flags & FLAG.dayOnly) !== 0
    yield { row, entry: { at, dayOnly, source, line: table.line[row], label, text } }
  }
}

/** Tells of an entry whether the row that its row repeats has it too; to be asked in the order of the rows. */
function toldBefore(repeatedRows: readonly RepeatedRow[]): (row: number, key: string) => boolean {
  const first = new Map(repeatedRows.map(({ row, of }) => [row, of]))
  const told = new Map<number, Set<string>>(repeatedRows.map(({ of }) => [of, new Set()]))
  return (row, key) => {
    const keys = told.get(first.get(row) ?? row)
    if (keys === undefined) return false
    if (first.has(row) && keys.has(key)) return true
    keys.add(key)
    return false
  }
}

/** Minute, kind and text of an entry; case, blanks and the way a number is written aside. */
function keyOf({ at, dayOnly, label, text }: LogEntry): string {
  const number = /^\d+([.,]\d+)?$/.test(text) ? String(Number(text.replace(',', '.'))) : loose(text)
  return JSON.stringify([
    dayOnly,
    Math.floor(at / 60),
    typeof label === 'number' ? label : loose(label),
    number,
  ])
}

function loose(text: string): string {
  return text.trim().replace(/\s+/g, ' ').toLowerCase()
}
