import type {
  ColumnRole,
  DateOrderDecision,
  LogReport,
  SetAsideReason,
  UnitDecision,
} from '../../log/logReport'
import { SET_ASIDE_REASONS } from '../../log/logReport'
import type { LogAnswers } from '../../log/logSource'
import { parseNamedColumns } from '../../log/namedColumns'
import { shownHeader } from './importMessages'
import { count, listed } from './numbers'

/** Why a row gave no reading, as it follows a count: '3 without a value'. */
export const SET_ASIDE_WORDS: Readonly<Record<SetAsideReason, string>> = {
  'not-glucose': 'other than glucose (insulin, food, events)',
  'control-solution': 'with control solution',
  'empty-value': 'without a value',
  'unreadable-value': 'with an unreadable value',
  'impossible-value': 'with an impossible value',
  'empty-date': 'without a date',
  'unreadable-date': 'with an unreadable date',
  'future-date': 'dated in the future',
  'clock-reset': 'from a meter whose clock had been reset',
  duplicate: 'held twice',
  'repeated-header': 'that repeat the header',
  footer: 'at the foot of the file',
  'ragged-row': 'that do not fit the columns',
  'other-table': 'of other tables in the file (no glucose)',
}

const UNIT_BASIS: Readonly<Record<UnitDecision['basis'], string>> = {
  header: 'from the column’s header',
  cell: 'from the cells',
  column: 'from the column of units',
  values: 'judged by the values',
  answer: 'as answered',
}

const DATE_ORDER: Readonly<Record<DateOrderDecision['value'], string>> = {
  ymd: 'year, month, day',
  dmy: 'day, month, year',
  mdy: 'month, day, year',
  epoch: 'seconds or milliseconds since 1970',
  serial: 'spreadsheet day numbers',
  name: 'months by name',
}

const DATE_BASIS: Readonly<Record<DateOrderDecision['basis'], string>> = {
  form: 'from their form',
  header: 'from the column’s header',
  rows: 'from rows that allow no other order',
  answer: 'as answered',
}

/** First digits of the hash, enough to tell two logs apart. */
const SHORT_HASH_LENGTH = 8

export function shortHash(sha256: string): string {
  return sha256.slice(0, SHORT_HASH_LENGTH)
}

/** 'log 1'. */
export function logName(source: number): string {
  return `log ${source + 1}`
}

/** 'Unit mg/dL, from the column’s header.' */
export function unitDecisionText(unit: UnitDecision): string {
  return `Unit ${unit.value}, ${UNIT_BASIS[unit.basis]}.`
}

/** 'Dates day, month, year, from rows that allow no other order.' */
export function dateDecisionText(order: DateOrderDecision): string {
  return `Dates: ${DATE_ORDER[order.value]}, ${DATE_BASIS[order.basis]}.`
}

/** What a column holds, in words. */
export const ROLE_NAME: Readonly<Partial<Record<ColumnRole, string>>> = {
  timestamp: 'date and time',
  date: 'date',
  time: 'time',
  glucose: 'glucose',
  unit: 'unit',
  meal: 'meal',
  note: 'note',
  meter: 'meter',
  kind: 'kind of entry',
  insulin: 'insulin',
  carbohydrate: 'carbohydrates',
  event: 'events',
}
/** More columns than these are counted, not named. */
const COLUMNS_NAMED = 8

function columnText({ index, header }: { readonly index: number; readonly header: string }): string {
  return header === '' ? `column ${index + 1}` : `\u2018${shownHeader(header)}\u2019`
}

/** 'Date from ‘Datum’, glucose from ‘Wert’. Not used: ‘Puls’ (31 cells). 1 table without glucose: lines 3 to 9.' */
export function columnsText(report: Pick<LogReport, 'columns' | 'notUsed' | 'tables'>): string {
  const read = Object.entries(ROLE_NAME).flatMap(([role, name]) => {
    const columns = report.columns.filter((column) => column.role === role)
    return columns.length === 0 ? [] : [`${name} from ${listed(named(columns.map(columnText)))}`]
  })
  const unused = report.notUsed.map((column) => `${columnText(column)} (${count(column.filled, 'cell')})`)
  const others = report.tables.filter((table) => !table.read)
  const sentences = [
    read.length === 0 ? '' : `${capital(read.join(', '))}.`,
    unused.length === 0 ? '' : `Not used: ${listed(named(unused))}.`,
    others.length === 0
      ? ''
      : `${count(others.length, 'table')} without glucose: ${listed(named(others.map((table) => `lines ${table.firstLine} to ${table.lastLine}`)))}.`,
  ]
  return sentences.filter((sentence) => sentence !== '').join(' ')
}

function named(texts: readonly string[]): readonly string[] {
  const more = texts.length - COLUMNS_NAMED
  return more > 0 ? [...texts.slice(0, COLUMNS_NAMED), `${more} more`] : texts
}

function capital(text: string): string {
  return text.charAt(0).toUpperCase() + text.slice(1)
}

/** The columns of a role: '‘Wert’'; '' where there is none. */
export function roleText(
  report: Pick<LogReport, 'columns'>,
  isOfRole: (role: ColumnRole) => boolean,
): string {
  return listed(named(report.columns.filter(({ role }) => isOfRole(role)).map(columnText)))
}

/** 'glucose (now ‘Wert’)'. */
export function roleNowText(
  report: Pick<LogReport, 'columns'>,
  role: ColumnRole,
  isOfRole: (held: ColumnRole) => boolean,
): string {
  return `${ROLE_NAME[role] ?? role} (now ${roleText(report, isOfRole) || 'none'})`
}

/** '9 rows without a value'. */
export function setAsideText(rows: number, reason: SetAsideReason): string {
  return `${count(rows, 'row')} ${SET_ASIDE_WORDS[reason]}`
}

const ORDER_ANSWERED = { ymd: 'year first', dmy: 'day first', mdy: 'month first' } as const
const CLOCK_ANSWERED = { '12': 'second part of each day after noon', '24': 'times as written' } as const

/** What a person answered about one log, in words: ['unit mg/dL', 'glucose from column 3']. */
export function answersTold({ unit, dates, columns, instead }: LogAnswers): readonly string[] {
  const order = instead?.dates ?? dates
  const chosen = instead?.unit ?? unit
  const named = columns === undefined ? null : parseNamedColumns(columns)
  return [
    ...(chosen ? [chosen === 'mixed' ? 'both units mixed' : `unit ${chosen}`] : []),
    ...(order ? [`dates ${ORDER_ANSWERED[order]}`] : []),
    ...(named && !('unreadable' in named)
      ? [
          ...[...named.roles].map(
            ([role, names]) => `${ROLE_NAME[role] ?? role} from ${listed(names.map(nameText))}`,
          ),
          ...(named.kinds ? [`glucose is ${listed(named.kinds.map((kind) => `‘${kind}’`))}`] : []),
          ...(named.clock ? [CLOCK_ANSWERED[named.clock]] : []),
          ...(named.year === null ? [] : [`first date in ${named.year}`]),
        ]
      : []),
  ]
}

function nameText(name: string): string {
  return /^\d+$/.test(name) ? `column ${name}` : `‘${shownHeader(name)}’`
}

/** '452 rows: 440 readings, 12 set aside (9 without a value and 3 held twice).' */
export function rowsText(report: LogReport): string {
  const { total, accepted, setAside } = report.rows
  const told = `${count(total, 'row')}: ${count(accepted, 'reading')}, ${setAside} set aside`
  if (setAside === 0) return `${told}.`
  const reasons = SET_ASIDE_REASONS.map((reason) => ({
    reason,
    n: report.setAside.filter((row) => row.reason === reason).length,
  }))
    .filter(({ n }) => n > 0)
    .map(({ reason, n }) => `${n} ${SET_ASIDE_WORDS[reason]}`)
  return `${told} (${listed(reasons)}).`
}

/** A few marks of each log, to tell two prints apart: 'log 1: 7f3a91c2'. */
export function fingerprintText(sources: readonly LogReport[]): string {
  const MOST_IN_FULL = 3
  const MOST_IN_SHORT = 8
  const BRIEF_LENGTH = 4
  if (sources.length <= MOST_IN_FULL) {
    return sources.map((source, i) => `${logName(i)}: ${shortHash(source.sha256)}`).join(' · ')
  }
  const brief = sources.slice(0, MOST_IN_SHORT).map((source) => source.sha256.slice(0, BRIEF_LENGTH))
  const more = sources.length > MOST_IN_SHORT ? ` and ${sources.length - MOST_IN_SHORT} more` : ''
  return `${sources.length} logs: ${brief.join(' ')}${more}`
}
