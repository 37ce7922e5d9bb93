import {
  EMPTY_FILE_MESSAGE,
  fieldTooLargeMessage,
  MARKUP_MESSAGE,
  NO_READINGS_MESSAGE,
  notTextMessage,
  unreadableColumnsMessage,
} from '../wording/importMessages'
import type { ColumnPlan } from './columns'
import { parseNamedColumns } from './namedColumns'
import { decideDateOrder } from './decideDateOrder'
import { decideUnit, type UnitPlan } from './decideUnit'
import { DELIMITERS, type DelimiterName, findDialect } from './dialect'
import { decodedText, detectEncoding, type EncodingDecision } from './encoding'
import type { DateOrderDecision } from './logReport'
import { countedChunks, type ImportContext, type LogAnswers, type LogSource } from './logSource'
import { columnRefusal, dateRefusal, refusal, unitRefusal } from './questions'
import { readRows } from './readRows'
import { FieldTooLarge, records } from './records'
import type { Refusal } from './refusal'
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

/** Reads one log, or says why it was refused and what answers that. `count` is told the bytes as they are read. */
export function readLog(
  source: LogSource,
  answers: LogAnswers,
  context: ImportContext,
  count: (bytes: number) => void = () => undefined,
): ReadLog | readonly Refusal[] {
  try {
    return readText(source, answers, context, count)
  } catch (error) {
    if (!(error instanceof FieldTooLarge)) throw error
    return [refusal(source.name, 'field-too-large', fieldTooLargeMessage(), { line: error.line })]
  }
}

function readText(
  source: LogSource,
  answers: LogAnswers,
  context: ImportContext,
  count: (bytes: number) => void,
): ReadLog | readonly Refusal[] {
  const counted = { chunks: () => countedChunks(source, count) }
  const encoding = detectEncoding(counted)
  if ('notText' in encoding) {
    return encoding.notText === 'empty'
      ? [refusal(source.name, 'empty-file', EMPTY_FILE_MESSAGE)]
      : [refusal(source.name, 'not-text', notTextMessage(encoding.notText))]
  }
  const beginning = firstNonBlank(decodedText(source, encoding.label))
  if (beginning === '') return [refusal(source.name, 'empty-file', EMPTY_FILE_MESSAGE)]
  if (/^(<|\{|\[\s*[[{])/.test(beginning)) return [refusal(source.name, 'unreadable-file', MARKUP_MESSAGE)]

  const named = answers.columns === undefined ? null : parseNamedColumns(answers.columns)
  if (named && 'unreadable' in named) {
    return [refusal(source.name, 'no-glucose-column', unreadableColumnsMessage(named.unreadable))]
  }
  const { delimiter, plan } = findDialect(() => decodedText(source, encoding.label), named)
  if ('missing' in plan) return [columnRefusal(source.name, plan)]

  const text = decodedText(counted, encoding.label)
  const table = readRows(records(text, DELIMITERS[delimiter]), plan, DELIMITERS[delimiter], encoding.lines)
  if (!hasReading(table)) {
    return [refusal(source.name, 'no-readings', NO_READINGS_MESSAGE, { line: plan.header?.line ?? null })]
  }

  const unit = decideUnit(table, {
    header: plan.headerUnit,
    hasUnitColumn: plan.unit !== null,
    foreign: plan.foreignUnit,
    answer: answers.unit ?? null,
  })
  const dateOrder = decideDateOrder(table, {
    header: plan.headerOrder,
    answer: answers.dates ?? null,
    thisYear: new Date(context.nowMs).getUTCFullYear(),
  })
  const open: Refusal[] = []
  if ('open' in unit) open.push(unitRefusal(source.name, plan, table, unit))
  if ('open' in dateOrder) open.push(dateRefusal(source.name, table, dateOrder))
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
