import type { LogReport, SetAsideReason, SetAsideRow } from '../log/logReport'
import { columnsText, dateDecisionText, rowsText, SET_ASIDE_WORDS, unitDecisionText } from '../wording/logs'
import { count } from '../wording/numbers'

/** What was decided about one log, and what was not read. */
export interface LogView {
  readonly name: string
  readonly sha256: string
  /** Every guess with what it rests on, in one line. */
  readonly guesses: string
  /** How many rows became readings. */
  readonly rows: string
  /** How many of its readings lie in none of the periods of the report. */
  readonly outside: number
  readonly notes: readonly string[]
  readonly setAside: readonly SetAsideView[]
}

/** The rows set aside for one reason. */
export interface SetAsideView {
  /** '9 rows without a value'. */
  readonly heading: string
  readonly rows: readonly SetAsideRow[]
  /** Rows beyond those listed. */
  readonly unlisted: number
}

/** Rows listed for one reason; their whole count stands in the heading. */
const MOST_LISTED = 100

/** A log's guesses, notes and rows set aside. `outside`: its readings in none of the periods. */
export function logView(log: LogReport, outside: number): LogView {
  const byReason = new Map<SetAsideReason, SetAsideRow[]>()
  for (const row of log.setAside) {
    const rows = byReason.get(row.reason)
    if (rows) rows.push(row)
    else byReason.set(row.reason, [row])
  }
  return {
    name: log.name,
    sha256: log.sha256,
    guesses: `${dateDecisionText(log.dateOrder)} ${unitDecisionText(log.unit)} ${columnsText(log)}`,
    rows: rowsText(log),
    outside,
    notes: log.notes,
    setAside: [...byReason].map(([reason, rows]) => ({
      heading: `${count(rows.length, 'row')} ${SET_ASIDE_WORDS[reason]}`,
      rows: rows.slice(0, MOST_LISTED),
      unlisted: Math.max(0, rows.length - MOST_LISTED),
    })),
  }
}
