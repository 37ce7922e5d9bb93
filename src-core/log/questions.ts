import { fromMgDl, type GlucoseUnit, toMgDl } from '../units/glucose'
import {
  columnLabel,
  kindLabel,
  kindsUnknownMessage,
  DATE_ORDER_ANSWER,
  DATE_ORDER_LABEL,
  DATE_ORDER_QUESTION,
  NO_DATE_COLUMN_MESSAGE,
  noGlucoseColumnMessage,
  noSuchColumnMessage,
  rowExample,
  SEVERAL_DATE_COLUMNS,
  SEVERAL_GLUCOSE_COLUMNS,
  SEVERAL_TABLES,
  SEVERAL_TIME_COLUMNS,
  HALF_DAYS_LABEL,
  HALF_DAYS_QUESTION,
  UNIT_ANSWER,
  UNIT_QUESTION,
  unitEffect,
} from '../wording/importMessages'
import { dayText, spanText } from '../wording/dates'
import type { ColumnPlan, NoPlan } from './columns'
import { dayInOrder, type OrderOpen } from './decideDateOrder'
import type { UnitOpen } from './decideUnit'
import type { DayOrder } from './logReport'
import type { Choice, Question, Refusal, RefusalCode } from './refusal'
import { DAY, type RowTable, VALUE } from './rowTable'

// What a log leaves open, as data: what is asked, the choices, a piece of the log read each way, what would change.

const LONGEST_CELLS = 60

/** A log that was not read, with the line and the question where there are any. */
export function refusal(
  log: string,
  code: RefusalCode,
  message: string,
  more: { readonly line?: number | null; readonly question?: Question } = {},
): Refusal {
  return { log, code, message, line: more.line ?? null, question: more.question ?? null }
}

/** Asks which column holds what was not found; `preview` shows two rows as an answer would read them. */
export function columnRefusal(log: string, plan: NoPlan, preview: (columns: string) => string): Refusal {
  const code =
    plan.missing === 'date' || plan.missing === 'one-date-column' ? 'no-date-column' : 'no-glucose-column'
  const message = columnMessage(plan)
  const question: Question = { option: '--columns', text: message, choices: columnChoices(plan, preview) }
  return refusal(log, code, message, { line: plan.line, question })
}

function columnMessage(plan: NoPlan): string {
  switch (plan.missing) {
    case 'date':
      return NO_DATE_COLUMN_MESSAGE
    case 'one-date-column':
      return SEVERAL_DATE_COLUMNS
    case 'named-column':
      return noSuchColumnMessage(plan.name ?? '')
    case 'one-glucose-column':
      return SEVERAL_GLUCOSE_COLUMNS
    case 'one-time-column':
      return SEVERAL_TIME_COLUMNS
    case 'half-days':
      return HALF_DAYS_QUESTION
    case 'one-table':
      return SEVERAL_TABLES
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
      label: columnLabel(index, header),
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

/** Asks for the unit of the values that name none. */
export function unitRefusal(log: string, plan: ColumnPlan, table: RowTable, unit: UnitOpen): Refusal {
  const text = UNIT_QUESTION[unit.open]
  const rows = rowsWithoutUnit(table)
  const mean = rows.reduce((sum, row) => sum + table.value[row], 0) / rows.length
  const choice = (answer: GlucoseUnit): Choice => {
    const other = answer === 'mg/dL' ? 'mmol/L' : 'mg/dL'
    const inOther = (value: number): number => fromMgDl(toMgDl(value, answer), other)
    const [row] = rows
    const example =
      rows.length === 0
        ? ''
        : rowExample(table.line[row], [table.value[row], answer], [inOther(table.value[row]), other])
    const effect = rows.length === 0 ? '' : unitEffect([mean, answer], [inOther(mean), other])
    return { answer, label: answer, example, effect }
  }
  return refusal(log, 'unit-unknown', `${text} ${UNIT_ANSWER}`, {
    line: plan.header?.line ?? null,
    question: { option: '--log-unit', text, choices: [choice('mg/dL'), choice('mmol/L')] },
  })
}

function rowsWithoutUnit(table: RowTable): readonly number[] {
  const rows: number[] = []
  for (let row = 0; row < table.n; row++) {
    const counts = table.valueKind[row] === VALUE.number && table.reasonOf(row) === null
    if (counts && table.unitOf(row) === null) rows.push(row)
  }
  return rows
}

/** Asks for the order of day and month. */
export function dateRefusal(log: string, table: RowTable, dates: OrderOpen): Refusal {
  const choices = dates.open.flatMap((order): Choice[] => {
    const day = dayInOrder(table.numbersOf(dates.row), order)
    if (day === null) return []
    const example = dayText(day, 'with-year')
    return [{ answer: order, label: DATE_ORDER_LABEL[order], example, effect: daysRead(table, order) }]
  })
  const read = choices.map(({ example, label }) => `${example} (${label})`).join(' or ')
  const message = `${DATE_ORDER_QUESTION} The date on this line may be ${read}. ${DATE_ORDER_ANSWER}`
  return refusal(log, 'date-order-unknown', message, {
    line: table.line[dates.row],
    question: { option: '--dates', text: DATE_ORDER_QUESTION, choices },
  })
}

/** '1 February to 12 June 2026': what the open dates span in this order. */
function daysRead(table: RowTable, order: DayOrder): string {
  let from = Infinity
  let to = -Infinity
  for (let row = 0; row < table.n; row++) {
    if (table.dayKind[row] !== DAY.numbers) continue
    const day = dayInOrder(table.numbersOf(row), order)
    if (day === null) continue
    from = Math.min(from, day)
    to = Math.max(to, day)
  }
  return spanText(from, to)
}
