import { type ColumnPlan, type NoPlan, planColumns } from './columns'
import type { NamedColumns } from './namedColumns'
import { readMoment } from './dateCell'
import { type CsvRecord, FieldTooLarge, records } from './records'

/** The delimiters that logs use, in the order in which they are preferred where nothing tells. */
export const DELIMITERS = { comma: ',', semicolon: ';', tab: '\t', pipe: '|' } as const
export type DelimiterName = keyof typeof DELIMITERS

/** How much of a log's beginning decides on delimiter and columns: characters and records. */
const HEAD_CHARACTERS = 400_000
const HEAD_RECORDS = 200

export interface Dialect {
  readonly delimiter: DelimiterName
  readonly plan: ColumnPlan | NoPlan
}

/** Finds delimiter and columns from the log's beginning. */
export function findDialect(text: () => Iterable<string>, named: NamedColumns | null): Dialect {
  const head = firstCharacters(text())
  let best: Dialect | null = null
  let bestScore = -1
  let fault: FieldTooLarge | null = null
  for (const name of Object.keys(DELIMITERS) as DelimiterName[]) {
    try {
      const parsed = firstRecords(head, DELIMITERS[name])
      const plan = planColumns(parsed, named)
      const score = dialectScore(parsed, plan)
      if (score > bestScore) {
        best = { delimiter: name, plan }
        bestScore = score
      }
    } catch (error) {
      if (!(error instanceof FieldTooLarge)) throw error
      fault = error
    }
  }
  if (best) {
    if ('missing' in best.plan) throwWhereTooLarge(text(), DELIMITERS[best.delimiter])
    return best
  }
  throw fault ?? new Error('no delimiter was tried')
}

/** A beginning without columns may be the start of one endless line: that is what should be said. */
function throwWhereTooLarge(text: Iterable<string>, delimiter: string): void {
  const some = records(text, delimiter)
  for (let seen = 0; seen < HEAD_RECORDS; seen++) if (some.next().done) return
}

/** A plan with a header counts most, then rows that have the usual number of cells and dates in them. */
function dialectScore(head: readonly CsvRecord[], plan: ColumnPlan | NoPlan): number {
  const rows = head.filter((record) => record.text.trim() !== '')
  if (rows.length === 0) return 0
  const counts = new Map<number, number>()
  for (const { cells } of rows) counts.set(cells.length, (counts.get(cells.length) ?? 0) + 1)
  const [usual, times] = [...counts].reduce((best, entry) => (entry[1] > best[1] ? entry : best))
  const regular = usual > 1 ? times / rows.length : 0
  const dated = rows.filter(
    ({ cells }) => cells.length > 1 && cells.some((cell) => readMoment(cell) !== null),
  )
  const planned = 'missing' in plan ? 0 : plan.header ? 4 : 2
  return planned + regular + (2 * dated.length) / rows.length + Math.min(usual, 10) / 100
}

function firstCharacters(text: Iterable<string>): string {
  let head = ''
  for (const piece of text) {
    head += piece
    if (head.length >= HEAD_CHARACTERS) break
  }
  return head
}

function firstRecords(head: string, delimiter: string): readonly CsvRecord[] {
  const parsed: CsvRecord[] = []
  for (const record of records([head], delimiter)) {
    parsed.push(record)
    if (parsed.length === HEAD_RECORDS) break
  }
  // The last record of a text that was cut may be half of one.
  if (head.length >= HEAD_CHARACTERS && parsed.length > 1 && parsed.length < HEAD_RECORDS) parsed.pop()
  return parsed
}
