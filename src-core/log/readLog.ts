import {
  DATE_ORDER_ANSWER,
  DATE_ORDER_QUESTION,
  EMPTY_FILE_MESSAGE,
  fieldTooLargeMessage,
  MARKUP_MESSAGE,
  NO_DATE_COLUMN_MESSAGE,
  NO_READINGS_MESSAGE,
  noGlucoseColumnMessage,
  noSuchColumnMessage,
  notTextMessage,
  unreadableColumnsMessage,
  UNIT_ANSWER,
  UNIT_QUESTION,
} from '../wording/importMessages'
import { type ColumnPlan, type NoPlan, parseNamedColumns } from './columns'
import { decideDateOrder, exampleDate, type OrderOpen } from './decideDateOrder'
import { decideUnit, type UnitOpen, type UnitPlan } from './decideUnit'
import { DELIMITERS, type DelimiterName, findDialect } from './dialect'
import { decodedText, detectEncoding, type EncodingDecision } from './encoding'
import type { DateOrderDecision } from './logReport'
import type { ImportContext, LogAnswers, LogSource } from './logSource'
import { readRows } from './readRows'
import { FieldTooLarge, records } from './records'
import type { Choice, Question, Refusal, RefusalCode } from './refusal'
import type { RowTable } from './rowTable'

/** A log whose rows are read and whose open points are decided, before duplicates are looked for. */
export interface ReadLog {
  readonly source: LogSource
  readonly encoding: EncodingDecision
  readonly delimiter: DelimiterName
  readonly plan: ColumnPlan
  readonly table: RowTable
  readonly unit: UnitPlan
  readonly dateOrder: DateOrderDecision
}

/** Reads one log, or says why it was refused and what answers that. */
export function readLog(
  source: LogSource,
  answers: LogAnswers,
  context: ImportContext,
): ReadLog | readonly Refusal[] {
  try {
    return readText(source, answers, context)
  } catch (error) {
    if (!(error instanceof FieldTooLarge)) throw error
    return [refusal(source, 'field-too-large', fieldTooLargeMessage(), { line: error.line })]
  }
}

function readText(
  source: LogSource,
  answers: LogAnswers,
  context: ImportContext,
): ReadLog | readonly Refusal[] {
  const encoding = detectEncoding(source)
  if ('notText' in encoding) {
    return encoding.notText === 'empty'
      ? [refusal(source, 'empty-file', EMPTY_FILE_MESSAGE)]
      : [refusal(source, 'not-text', notTextMessage(encoding.notText))]
  }
  const beginning = firstNonBlank(decodedText(source, encoding.label))
  if (beginning === '') return [refusal(source, 'empty-file', EMPTY_FILE_MESSAGE)]
  if (/^(<|\{|\[\s*[[{])/.test(beginning)) return [refusal(source, 'unreadable-file', MARKUP_MESSAGE)]

  const named = answers.columns === undefined ? null : parseNamedColumns(answers.columns)
  if (named && 'unreadable' in named) {
    return [refusal(source, 'no-glucose-column', unreadableColumnsMessage(named.unreadable))]
  }
  const { delimiter, plan } = findDialect(decodedText(source, encoding.label), named)
  if ('missing' in plan) return [columnRefusal(source, plan)]

  const text = decodedText(source, encoding.label)
  const table = readRows(records(text, DELIMITERS[delimiter]), plan, DELIMITERS[delimiter])
  if (!hasReading(table)) {
    return [refusal(source, 'no-readings', NO_READINGS_MESSAGE, { line: plan.header?.line ?? null })]
  }

  const unit = decideUnit(table, {
    header: plan.headerUnit,
    hasUnitColumn: plan.unit !== null,
    answer: answers.unit ?? null,
  })
  const dateOrder = decideDateOrder(table, {
    header: plan.headerOrder,
    answer: answers.dates ?? null,
    thisYear: new Date(context.nowMs).getUTCFullYear(),
  })
  const open: Refusal[] = []
  if ('open' in unit) open.push(unitRefusal(source, plan, unit))
  if ('open' in dateOrder) open.push(dateRefusal(source, table, dateOrder))
  if ('open' in unit || 'open' in dateOrder) return open
  return { source, encoding, delimiter, plan, table, unit, dateOrder }
}

function firstNonBlank(text: Iterable<string>): string {
  let head = ''
  for (const piece of text) {
    head = (head + piece).trimStart()
    if (head.length > 20) break
  }
  return head.slice(0, 20)
}

function hasReading(table: RowTable): boolean {
  for (let i = 0; i < table.n; i++) if (table.reasonOf(i) === null) return true
  return false
}

function refusal(
  source: LogSource,
  code: RefusalCode,
  message: string,
  more: { readonly line?: number | null; readonly question?: Question } = {},
): Refusal {
  return { log: source.name, code, message, line: more.line ?? null, question: more.question ?? null }
}

function columnRefusal(source: LogSource, plan: NoPlan): Refusal {
  const choices: Choice[] = plan.candidates.slice(0, 50).map(({ index, header }) => ({
    answer: String(index + 1),
    label: header === '' ? `column ${String(index + 1)}` : header,
    example: '',
  }))
  const code = plan.missing === 'date' ? 'no-date-column' : 'no-glucose-column'
  const message =
    plan.missing === 'date'
      ? NO_DATE_COLUMN_MESSAGE
      : plan.missing === 'named-column'
        ? noSuchColumnMessage(plan.name ?? '')
        : noGlucoseColumnMessage(plan.candidates.every(({ header }) => header === '') && choices.length > 0)
  const question: Question = { option: '--columns', text: message, choices }
  return refusal(source, code, message, { line: plan.line, question })
}

function unitRefusal(source: LogSource, plan: ColumnPlan, unit: UnitOpen): Refusal {
  const text = UNIT_QUESTION[unit.open]
  const choices: Choice[] = [
    { answer: 'mg/dL', label: 'mg/dL', example: 'values such as 104' },
    { answer: 'mmol/L', label: 'mmol/L', example: 'values such as 5.8' },
  ]
  return refusal(source, 'unit-unknown', `${text} ${UNIT_ANSWER}`, {
    line: plan.header?.line ?? null,
    question: { option: '--log-unit', text, choices },
  })
}

function dateRefusal(source: LogSource, table: RowTable, dates: OrderOpen): Refusal {
  const labels = { dmy: 'day first', mdy: 'month first', ymd: 'year first' } as const
  const choices = dates.open.flatMap((order) => {
    const example = exampleDate(table, dates.row, order)
    return example === null ? [] : [{ answer: order, label: labels[order], example }]
  })
  const line = table.line.get(dates.row)
  const read = choices.map(({ example, label }) => `${example} (${label})`).join(' or ')
  const message = `${DATE_ORDER_QUESTION} The date on this line may be ${read}. ${DATE_ORDER_ANSWER}`
  return refusal(source, 'date-order-unknown', message, {
    line,
    question: { option: '--dates', text: DATE_ORDER_QUESTION, choices },
  })
}
