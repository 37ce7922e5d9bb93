import { UNIT_TELLTALE } from '../reference/meter'
import { fromMgDl, type GlucoseUnit, toMgDl } from '../units/glucose'
import {
  columnLabel,
  kindLabel,
  kindsUnknownMessage,
  momentOrOtherMessage,
  dateOrderAnswer,
  DATE_ORDER_LABEL,
  DATE_ORDER_QUESTION,
  NO_DATE_COLUMN_MESSAGE,
  noGlucoseColumnMessage,
  noSuchColumnMessage,
  rowExample,
  rowsInFuture,
  shownHeader,
  SEVERAL_DATE_COLUMNS,
  SEVERAL_GLUCOSE_COLUMNS,
  SEVERAL_NAMES,
  SEVERAL_NAMES_LABEL,
  SEVERAL_TABLES,
  SEVERAL_TIME_COLUMNS,
  HALF_DAYS_LABEL,
  HALF_DAYS_QUESTION,
  oddValuesQuestion,
  UNIT_QUESTION,
  unitAnswerLabel,
  unitAnswerText,
  unitEffect,
  yearLabel,
  yearMessage,
} from '../wording/importMessages'
import { dayText, spanText } from '../wording/dates'
import type { ColumnPlan, NoPlan } from './columns'
import { dayInOrder, type OrderOpen } from './decideDateOrder'
import { asWrittenInGrams, isMmolAmongGrams, type UnitOpen } from './decideUnit'
import type { DayOrder } from './logReport'
import type { UnitAnswer } from './logSource'
import type { Choice, Message, Question, Refusal, RefusalCode } from './refusal'
import { DAY, type RowTable, VALUE } from './rowTable'
import type { YearlessDates } from './yearless'

// What a log leaves open, as data: what is asked, the choices, a piece of the log read each way, what would change.

const LONGEST_CELLS = 60

/** A log that was not read, with the line and the question where there are any. */
export function refusal(
  log: string,
  code: RefusalCode,
  message: Message,
  more: { readonly line?: number | null; readonly question?: Question } = {},
): Refusal {
  return { log, code, message, line: more.line ?? null, question: more.question ?? null }
}

/** Asks which column holds what was not found; `preview` shows two rows as an answer would read them. */
export function columnRefusal(log: string, plan: NoPlan, preview: (columns: string) => string): Refusal {
  const code =
    plan.missing === 'date' || plan.missing === 'one-date-column' ? 'no-date-column' : 'no-glucose-column'
  const message = columnMessage(plan)
  const question: Question = { option: '--columns', choices: columnChoices(plan, preview) }
  return refusal(log, code, message, { line: plan.line, question })
}

function columnMessage(plan: NoPlan): Message {
  switch (plan.missing) {
    case 'date':
      return NO_DATE_COLUMN_MESSAGE
    case 'one-date-column':
      return SEVERAL_DATE_COLUMNS
    case 'named-column':
      return noSuchColumnMessage(plan.name ?? '')
    case 'one-glucose-column':
      return SEVERAL_GLUCOSE_COLUMNS
    case 'moment-or-other':
      return momentOrOtherMessage(shownHeader(plan.name ?? ''), plan.candidates[0].index + 1)
    case 'one-time-column':
      return SEVERAL_TIME_COLUMNS
    case 'half-days':
      return HALF_DAYS_QUESTION
    case 'one-table':
      return SEVERAL_TABLES
    case 'whose':
      return SEVERAL_NAMES
    case 'kinds':
      return kindsUnknownMessage(plan.kinds?.column ?? 0, plan.kinds?.names ?? [])
    case 'glucose':
      return noGlucoseColumnMessage(
        plan.candidates.every(({ header }) => header === '') && plan.candidates.length > 0,
      )
  }
}

/** Choices offered at most: more are no question but a puzzle. */
const MOST_CHOICES = 3

function columnChoices(plan: NoPlan, preview: (columns: string) => string): readonly Choice[] {
  if (plan.kinds) {
    const { column, names } = plan.kinds
    return names.slice(0, MOST_CHOICES).map((name) => {
      const answer = `kind=${String(column)}:${name}`
      return { answer, label: kindLabel(name), example: preview(answer), effect: '' }
    })
  }
  if (plan.missing === 'half-days') {
    return (['12', '24'] as const).map((hours) => {
      const answer = `clock=${hours}`
      return { answer, label: HALF_DAYS_LABEL[hours], example: preview(answer), effect: '' }
    })
  }
  if (plan.missing === 'whose') {
    const [{ index }] = plan.candidates
    const answer = `glucose=${String(index + 1)}`
    return [{ answer, label: SEVERAL_NAMES_LABEL, example: preview(answer), effect: '' }]
  }
  const role =
    plan.missing === 'one-time-column'
      ? 'time'
      : plan.missing === 'date' || plan.missing === 'one-date-column'
        ? 'date'
        : 'glucose'
  const answers = plan.candidates.map(({ index, header, cells }) => {
    const answer = `${role}=${String(index + 1)}`
    const shown = preview(answer)
    return {
      answer,
      label: columnLabel(index, shownHeader(header)),
      example: shown === '' ? cells.join(' · ').slice(0, LONGEST_CELLS) : shown,
      effect: '',
      readable: shown !== '',
    }
  })
  // What would give readings comes first; the rest stands in the list of columns.
  const sorted = [
    ...answers.filter(({ readable }) => readable),
    ...answers.filter(({ readable }) => !readable),
  ]
  return sorted
    .slice(0, MOST_CHOICES)
    .map(({ answer, label, example, effect }) => ({ answer, label, example, effect }))
}

/** Asks for the unit of values that name none, or that cannot be of the one named; each choice shows two rows. */
export function unitRefusal(log: string, plan: ColumnPlan, table: RowTable, unit: UnitOpen): Refusal {
  const { odd, stated } = unit
  const what = unit.open === 'odd-values' ? oddValuesQuestion(unit.odd) : UNIT_QUESTION[unit.open]
  const rows = rowsAskedAbout(table, unit)
  const choices = unit.answers.map((answer): Choice => {
    const read = rows.map((row) => ({ row, ...readAs(table, row, answer, unit) }))
    const main = answer === 'mixed' ? (stated ?? 'mg/dL') : answer
    const mean = read.reduce((sum, each) => sum + toMgDl(each.value, each.unit), 0) / read.length
    return {
      answer,
      label: unitAnswerLabel(answer, stated, odd),
      example: shownRows(read)
        .map(({ row, value, unit: own }) => rowExample(table.line[row], [value, own], inOther(value, own)))
        .join(' · '),
      effect:
        read.length === 0
          ? ''
          : unitEffect([fromMgDl(mean, main), main], inOther(fromMgDl(mean, main), main)),
    }
  })
  const line = odd === null ? (plan.header?.line ?? null) : table.line[odd.first]
  const message = { what, inTerminal: unitAnswerText(choices), inWindow: 'Which is it?' }
  return refusal(log, 'unit-unknown', message, {
    line,
    question: { option: '--log-unit', choices },
  })
}

function inOther(value: number, unit: GlucoseUnit): readonly [number, GlucoseUnit] {
  const other = unit === 'mg/dL' ? 'mmol/L' : 'mg/dL'
  return [fromMgDl(toMgDl(value, unit), other), other]
}

/** A row's value as an answer would have it read. */
function readAs(
  table: RowTable,
  row: number,
  answer: UnitAnswer,
  { stated, odd }: UnitOpen,
): { readonly value: number; readonly unit: GlucoseUnit } {
  const value = table.value[row]
  if (answer === 'mixed') {
    if (odd?.grams && isMmolAmongGrams(table, row, odd.grams.haveHundredths))
      return { value: asWrittenInGrams(value), unit: 'mmol/L' }
    const own = table.unitOf(row) ?? stated
    const fitsMmol = value < UNIT_TELLTALE.lowestMgDl || !Number.isInteger(value)
    if (value > UNIT_TELLTALE.highestMmol)
      return { value, unit: own === 'mmol/L' && fitsMmol ? own : 'mg/dL' }
    return { value, unit: fitsMmol ? 'mmol/L' : (own ?? 'mg/dL') }
  }
  return { value, unit: odd !== null && stated === null ? (table.unitOf(row) ?? answer) : answer }
}

/** One row of each size where there are two, those that contradict their unit first. */
function shownRows<Row extends { readonly value: number }>(read: readonly Row[]): readonly Row[] {
  const [first] = read
  if (read.length < 2) return read
  const isSmall = (row: Row): boolean => row.value < UNIT_TELLTALE.lowestMgDl
  return [first, read.find((row) => isSmall(row) !== isSmall(first)) ?? read[1]]
}

/** The rows whose unit is asked about, the first that contradicts its unit in front. */
function rowsAskedAbout(table: RowTable, { from, to, odd }: UnitOpen): readonly number[] {
  const rows: number[] = []
  for (let row = from; row < to; row++) {
    const counts = table.valueKind[row] === VALUE.number && table.fates.reasonOf(row) === null
    if (counts && row !== odd?.first && (odd !== null || table.unitOf(row) === null)) rows.push(row)
  }
  return odd === null ? rows : [odd.first, ...rows]
}

/** Asks for the year of the first date of a log whose dates name none. */
export function yearRefusal(
  log: string,
  { line }: YearlessDates,
  years: readonly number[],
  preview: (year: number) => string,
): Refusal {
  const choices = years.map((year): Choice => ({
    answer: `year=${String(year)}`,
    label: yearLabel(year),
    example: preview(year),
    effect: '',
  }))
  return refusal(log, 'date-order-unknown', yearMessage(years), {
    line,
    question: { option: '--columns', choices },
  })
}

/** Asks for the order of day and month. */
export function dateRefusal(log: string, table: RowTable, dates: OrderOpen, latestDay: number): Refusal {
  const choices = dates.open.flatMap((order): Choice[] => {
    const day = dayInOrder(table.numbersOf(dates.row), order)
    if (day === null) return []
    const example = dayText(day, 'with-year')
    return [
      { answer: order, label: DATE_ORDER_LABEL[order], example, effect: daysRead(table, order, latestDay) },
    ]
  })
  const read = choices.map(({ example, label }) => `${example} (${label})`).join(' or ')
  const message = {
    what: DATE_ORDER_QUESTION,
    inTerminal: `The date on this line may be ${read}. ${dateOrderAnswer(choices)}`,
    inWindow: '',
  }
  return refusal(log, 'date-order-unknown', message, {
    line: table.line[dates.row],
    question: { option: '--dates', choices },
  })
}

/** '1 February to 12 June 2026; 4 rows in the future': what the open dates span in this order. */
function daysRead(table: RowTable, order: DayOrder, latestDay: number): string {
  let future = 0
  let from = Infinity
  let to = -Infinity
  for (let row = 0; row < table.n; row++) {
    if (table.dayKind[row] !== DAY.numbers) continue
    const day = dayInOrder(table.numbersOf(row), order)
    if (day === null) continue
    from = Math.min(from, day)
    to = Math.max(to, day)
    if (day > latestDay) future++
  }
  return `${spanText(from, to)}${future === 0 ? '' : rowsInFuture(future)}`
}
