import {
  type ColumnName,
  COLUMN_ROLES,
  type ColumnRole,
  type DayOrder,
  type LogReport,
  SET_ASIDE_REASONS,
  setAsideByReason,
} from '../log/logReport'
import type { LogAnswers, UnitAnswer } from '../log/logSource'
import { parseNamedColumns } from '../log/namedColumns'
import { type Named, namedAtMost, shortName } from '../model/named'

// What is told of each log: which of its columns hold what, how many rows gave readings, what a person answered.

/** More columns, or tables, are counted, not named. */
const MOST_NAMED = 8

/** The columns by what they hold, those not used, and tables without glucose; headers are short. */
export function columnsTold(log: Pick<LogReport, 'columns' | 'notUsed' | 'tables' | 'delimiter'>) {
  return {
    /** A file of HL7 FHIR has no columns. */
    isFhir: log.delimiter === 'none',
    read: COLUMN_ROLES.filter((role) => role !== 'ignored')
      .map((role) => ({ role, columns: columnsOf(log, (held) => held === role) }))
      .filter(({ columns }) => columns.n > 0),
    notUsed: namedAtMost(log.notUsed.map(withShortHeader), MOST_NAMED),
    otherTables: namedAtMost(
      log.tables.filter(({ read }) => !read),
      MOST_NAMED,
    ),
  }
}

/** The columns of some roles. */
export function columnsOf(
  { columns }: Pick<LogReport, 'columns'>,
  isOfRole: (role: ColumnRole) => boolean,
): Named<ColumnName> {
  return namedAtMost(columns.filter(({ role }) => isOfRole(role)).map(withShortHeader), MOST_NAMED)
}

function withShortHeader<C extends ColumnName>(column: C): C {
  return { ...column, header: shortName(column.header) }
}

/** How many rows gave readings, and why the others did not. */
export function rowsTold(log: LogReport) {
  const byReason = setAsideByReason(log)
  const reasons = SET_ASIDE_REASONS.map((reason) => ({ reason, n: byReason.get(reason)?.length ?? 0 }))
  return { ...log.rows, reasons: reasons.filter(({ n }) => n > 0) }
}

/** More lines of a reason are counted, not named. */
const MOST_LINES = 5

/** The rows set aside by reason, of which a few are named by their lines. */
export function setAsideTold(log: LogReport) {
  return [...setAsideByReason(log)].map(([reason, rows]) => ({ reason, rows: namedAtMost(rows, MOST_LINES) }))
}

/** One thing that a person answered about a log. */
export type Answered =
  | { readonly of: 'unit'; readonly unit: UnitAnswer }
  | { readonly of: 'dates'; readonly order: DayOrder }
  | { readonly of: 'columns'; readonly role: ColumnRole; readonly columns: readonly ColumnName[] }
  | { readonly of: 'kinds'; readonly kinds: readonly string[] }
  | { readonly of: 'clock'; readonly hours: '12' | '24' }
  | { readonly of: 'year'; readonly year: number }

/** All that was answered; what was chosen instead of what the log says counts. */
export function answersTold({ unit, dates, columns = '', instead }: LogAnswers): readonly Answered[] {
  const chosen = instead?.unit ?? unit
  const order = instead?.dates ?? dates
  const told: Answered[] = []
  if (chosen) told.push({ of: 'unit', unit: chosen })
  if (order) told.push({ of: 'dates', order })
  const named = parseNamedColumns(columns)
  if ('unreadable' in named) return told
  for (const [role, names] of named.roles) told.push({ of: 'columns', role, columns: names.map(columnNamed) })
  if (named.kinds) told.push({ of: 'kinds', kinds: named.kinds })
  if (named.clock) told.push({ of: 'clock', hours: named.clock })
  if (named.year !== null) told.push({ of: 'year', year: named.year })
  return told
}

/** A column as a person named it: by its number or its header. */
function columnNamed(name: string): ColumnName {
  return /^\d+$/.test(name) ? { index: Number(name) - 1, header: '' } : { index: -1, header: shortName(name) }
}

/** Digits of a log's hash, enough to tell two logs apart, and among many logs two prints. */
const HASH_DIGITS = { one: 8, brief: 4 } as const
const MOST_HASHES = { full: 3, brief: 8 } as const

export function shortHash(sha256: string): string {
  return sha256.slice(0, HASH_DIGITS.one)
}

/** A few digits of each log's hash, to tell two prints apart; `brief`: of more logs than have room in full. */
export function fingerprint(sources: readonly Pick<LogReport, 'sha256'>[]) {
  const brief = sources.length > MOST_HASHES.full
  const digits = brief ? HASH_DIGITS.brief : HASH_DIGITS.one
  return {
    brief,
    ...namedAtMost(
      sources.map(({ sha256 }) => sha256.slice(0, digits)),
      MOST_HASHES.brief,
    ),
  }
}
