import type {
  ColumnName,
  ColumnRole,
  DateOrderDecision,
  SetAsideReason,
  UnitDecision,
} from '../../log/logReport'
import type { Named } from '../../model/named'
import type { Answered, columnsTold, fingerprint, rowsTold } from '../../told/logs'
import { capitalised } from '../phrases'
import { columnLabel, DATE_ORDER_LABEL } from './importMessages'
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
  duplicate: 'recorded twice',
  'repeated-header': 'that repeat the header',
  footer: 'at the foot of the file',
  'ragged-row': 'that do not fit the columns',
  'other-table': 'of other tables in the file (no glucose)',
  laboratory: 'of a laboratory',
  withdrawn: 'entered in error or cancelled',
  derived: 'that are means or sums of readings',
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
export const ROLE_NAME: Readonly<Record<ColumnRole, string>> = {
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
  ignored: 'nothing',
}

/** 'a, b and 3 more'. */
export function listedWithMore<T>({ named, more }: Named<T>, text: (one: T) => string): string {
  return listed([...named.map(text), ...(more > 0 ? [`${more} more`] : [])])
}

function columnText(column: ColumnName): string {
  return column.header === '' ? columnLabel(column) : `‘${columnLabel(column)}’`
}

/** 'Date from ‘Datum’, glucose from ‘Wert’. Not used: ‘Puls’ (31 cells). 1 table without glucose: lines 3 to 9.' */
/** In place of columns. */
const OF_FHIR = 'HL7 FHIR: each Observation is a row, and its line the number of its entry.'

export function columnsText({ isFhir, read, notUsed, otherTables }: ReturnType<typeof columnsTold>): string {
  const roles = read.map(
    ({ role, columns }) => `${ROLE_NAME[role]} from ${listedWithMore(columns, columnText)}`,
  )
  const unused = listedWithMore(
    notUsed,
    (column) => `${columnText(column)} (${count(column.filled, 'cell')})`,
  )
  const lines = listedWithMore(otherTables, ({ firstLine, lastLine }) => `lines ${firstLine} to ${lastLine}`)
  return [
    ...(isFhir ? [OF_FHIR] : []),
    ...(read.length === 0 ? [] : [`${capitalised(roles.join(', '))}.`]),
    ...(notUsed.n === 0 ? [] : [`Not used: ${unused}.`]),
    ...(otherTables.n === 0 ? [] : [`${count(otherTables.n, 'table')} without glucose: ${lines}.`]),
  ].join(' ')
}

/** 'glucose (now ‘Wert’)'. */
export function roleNowText(role: ColumnRole, columns: Named<ColumnName>): string {
  return `${ROLE_NAME[role]} (now ${listedWithMore(columns, columnText) || 'none'})`
}

/** '9 rows without a value'. */
export function setAsideText(rows: number, reason: SetAsideReason): string {
  return `${count(rows, 'row')} ${SET_ASIDE_WORDS[reason]}`
}

const CLOCK_ANSWERED = { '12': 'second part of each day after noon', '24': 'times as written' } as const

/** What a person answered about one log: 'unit mg/dL', 'glucose from column 3'. */
export function answerText(answered: Answered): string {
  switch (answered.of) {
    case 'unit':
      return answered.unit === 'mixed' ? 'both units mixed' : `unit ${answered.unit}`
    case 'dates':
      return `dates ${DATE_ORDER_LABEL[answered.order]}`
    case 'columns':
      return `${ROLE_NAME[answered.role]} from ${listed(answered.columns.map(columnText))}`
    case 'kinds':
      return `glucose is ${listed(answered.kinds.map((kind) => `‘${kind}’`))}`
    case 'clock':
      return CLOCK_ANSWERED[answered.hours]
    case 'year':
      return `first date in ${answered.year}`
  }
}

/** '452 rows: 440 readings, 12 set aside (9 without a value and 3 recorded twice).' */
export function rowsText({ total, accepted, setAside, reasons }: ReturnType<typeof rowsTold>): string {
  const why = listed(reasons.map(({ reason, n }) => `${n} ${SET_ASIDE_WORDS[reason]}`))
  return `${count(total, 'row')}: ${count(accepted, 'reading')}, ${setAside} set aside${why === '' ? '' : ` (${why})`}.`
}

/** 'log 1: 7f3a91c2', or of many '11 logs: 7f3a 91c2 ... and 3 more'. */
export function fingerprintText({ n, named, more, brief }: ReturnType<typeof fingerprint>): string {
  return brief
    ? `${n} logs: ${named.join(' ')}${more > 0 ? ` and ${more} more` : ''}`
    : named.map((hash, i) => `${logName(i)}: ${hash}`).join(' · ')
}
