import { type LogReport, setAsideByReason, type SetAsideRow } from '../log/logReport'
import { CHANGEABLE_ROLES, type ChangeableRole } from '../log/namedColumns'
import { isRole } from '../log/waysToRead'
import type { Shift } from '../log/shifts'
import { columnsOf, columnsTold, rowsTold } from '../told/logs'
import type { Words } from '../wording/words'

/** What was decided about one log, and what was not read. */
export interface LogView {
  readonly name: string
  readonly sha256: string
  /** Every guess with what it rests on, in one line. */
  readonly guesses: string
  /** The same guesses one by one, each of which a person may change. */
  readonly how: HowReadView
  /** How many rows became readings. */
  readonly rows: string
  /** How many of its readings lie in none of the periods of the report. */
  readonly outside: number
  readonly notes: readonly string[]
  readonly setAside: readonly SetAsideView[]
}

export interface HowReadView {
  readonly dates: string
  readonly unit: string
  readonly columns: string
  /** What a column may be said to hold, and which does. */
  readonly roles: readonly { readonly role: ChangeableRole; readonly label: string }[]
  /** A stretch whose clock looks wrong, as it may be moved. */
  readonly suggested: Pick<Shift, 'from' | 'to' | 'minutes'> | null
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
export function logView(words: Words, log: LogReport, outside: number): LogView {
  const dates = words.logs.dateDecisionText(log.dateOrder)
  const unit = words.logs.unitDecisionText(log.unit)
  const columns = words.logs.columnsText(columnsTold(log))
  return {
    name: log.name,
    sha256: log.sha256,
    guesses: `${dates} ${unit} ${columns}`,
    how: { dates, unit, columns, roles: rolesOf(words, log), suggested: suggestedMove(log) },
    rows: words.logs.rowsText(rowsTold(log)),
    outside,
    notes: log.notes.map((note) => words.importMessages.noteText(note, 'window')),
    setAside: [...setAsideByReason(log)].map(([reason, rows]) => ({
      heading: words.logs.setAsideText(rows.length, reason),
      rows: rows.slice(0, MOST_LISTED),
      unlisted: Math.max(0, rows.length - MOST_LISTED),
    })),
  }
}

function rolesOf(words: Words, log: LogReport): HowReadView['roles'] {
  return CHANGEABLE_ROLES.map((role) => {
    const columns = columnsOf(log, (held) => isRole(held, role))
    return { role, label: words.logs.roleNowText(role, columns) }
  })
}

function suggestedMove({ notes }: LogReport): HowReadView['suggested'] {
  for (const note of notes) {
    if (note.code === 'half-day-off' || note.code === 'years-off') return note.shift
  }
  return null
}
