import { UNIT_TELLTALE } from '../reference/meter'
import { namedAtMost, shortName } from '../model/named'
import { fromMgDl, type GlucoseUnit, otherUnit, toMgDl } from '../units/glucose'
import type { ColumnPlan, NoPlan } from './columns'
import { dayInOrder, type OrderOpen } from './decideDateOrder'
import { asWrittenInGrams, isMmolAmongGrams, type UnitOpen } from './decideUnit'
import type { DayOrder } from './logReport'
import type { UnitAnswer } from './logSource'
import type {
  Choice,
  ChoiceEffect,
  ChoiceLabel,
  Question,
  Refusal,
  RefusalCode,
  RefusalReason,
  RowShown,
} from './refusal'
import { DAY, type RowTable, VALUE } from './rowTable'
import type { YearlessDates } from './yearless'

// What a log leaves open, as data: what is asked, the choices, a piece of the log read each way, what would change.

/** A log that was not read, with the line and the question where there are any. */
export function refusal(
  log: string,
  code: RefusalCode,
  reason: RefusalReason,
  more: { readonly line?: number | null; readonly question?: Question } = {},
): Refusal {
  return { log, code, reason, line: more.line ?? null, question: more.question ?? null }
}

/** Asks which column holds what was not found; `preview` shows two rows as an answer would read them. */
export function columnRefusal(
  log: string,
  plan: NoPlan,
  preview: (columns: string) => readonly RowShown[],
): Refusal {
  const code =
    plan.missing === 'date' || plan.missing === 'one-date-column' ? 'no-date-column' : 'no-glucose-column'
  const question: Question = { option: '--columns', choices: columnChoices(plan, preview) }
  return refusal(log, code, columnReason(plan), { line: plan.line, question })
}

function columnReason(plan: NoPlan): RefusalReason {
  switch (plan.missing) {
    case 'date':
      return { key: 'no-date-column' }
    case 'one-date-column':
      return { key: 'several-date-columns' }
    case 'named-column':
      return { key: 'no-such-column', name: plan.name ?? '' }
    case 'one-glucose-column':
      return { key: 'several-glucose-columns' }
    case 'moment-or-other':
      return {
        key: 'moment-or-other',
        header: shortName(plan.name ?? ''),
        other: plan.candidates[0].index + 1,
      }
    case 'one-time-column':
      return { key: 'several-time-columns' }
    case 'half-days':
      return { key: 'half-days' }
    case 'one-table':
      return { key: 'several-tables' }
    case 'whose':
      return { key: 'several-names' }
    case 'kinds':
      return kindsReason(plan.kinds ?? { column: 0, names: [] })
    case 'glucose':
      return {
        key: 'no-glucose-column',
        headerless: plan.candidates.every(({ header }) => header === '') && plan.candidates.length > 0,
      }
  }
}

function kindsReason({ column, names, people }: NonNullable<NoPlan['kinds']>): RefusalReason {
  if (people) return { key: 'several-people', column, people: names.length }
  return { key: 'kinds-unknown', column, kinds: namedAtMost(names.map(shortName), MOST_CHOICES) }
}

/** Choices offered at most: more are no question but a puzzle. */
const MOST_CHOICES = 3

function columnChoices(plan: NoPlan, preview: (columns: string) => readonly RowShown[]): readonly Choice[] {
  if (plan.kinds) {
    const { column, names, people } = plan.kinds
    const of = people === true ? 'person' : 'kind'
    const offered = names.slice(0, MOST_CHOICES)
    return offered.map((name) => shown(`kind=${column}:${name}`, { of, name: shortName(name) }, preview))
  }
  if (plan.missing === 'half-days') {
    return (['12', '24'] as const).map((hours) => shown(`clock=${hours}`, { of: 'clock', hours }, preview))
  }
  if (plan.missing === 'whose') {
    return [shown(`glucose=${plan.candidates[0].index + 1}`, { of: 'one-person' }, preview)]
  }
  const role =
    plan.missing === 'one-time-column'
      ? 'time'
      : plan.missing === 'date' || plan.missing === 'one-date-column'
        ? 'date'
        : 'glucose'
  const choices = plan.candidates.map(({ index, header, cells }): Choice => {
    const choice = shown(`${role}=${index + 1}`, { of: 'column', index, header: shortName(header) }, preview)
    if (isReadable(choice)) return choice
    return { ...choice, example: { of: 'cells', text: cells.join(' · ').slice(0, LONGEST_CELLS) } }
  })
  // What would give readings comes first; the rest stands in the list of columns.
  return [
    ...allTogether(plan, preview),
    ...choices.filter(isReadable),
    ...choices.filter((choice) => !isReadable(choice)),
  ].slice(0, MOST_CHOICES)
}

/** The choices of several columns: those that may well hold readings, and all that are asked about, where not too many. */
function allTogether(
  { candidates, together = [] }: NoPlan,
  preview: (columns: string) => readonly RowShown[],
): readonly Choice[] {
  const counts = [...new Set(together)].filter((count) => count >= 2 && count <= MOST_TOGETHER)
  return counts.map((count): Choice => {
    const columns = candidates
      .slice(0, count)
      .map(({ index, header }) => ({ index, header: shortName(header) }))
    columns.sort((a, b) => a.index - b.index)
    const answer = `glucose=${columns.map(({ index }) => index + 1).join('|')}`
    return shown(answer, { of: 'columns', columns }, preview)
  })
}
const MOST_TOGETHER = 8
/** Letters shown of a column's first cells. */
const LONGEST_CELLS = 60

function isReadable({ example }: Choice): boolean {
  return example.of === 'rows' && example.rows.length > 0
}

/** A choice with rows as its answer would read them. */
function shown(answer: string, label: ChoiceLabel, preview: (answer: string) => readonly RowShown[]): Choice {
  return { answer, label, example: { of: 'rows', rows: preview(answer) }, effect: null }
}

/** Asks whose readings are wanted; `preview` shows two rows of each. */
export function subjectRefusal(
  log: string,
  subjects: readonly string[],
  preview: (subject: string) => readonly RowShown[],
): Refusal {
  const choices = subjects
    .slice(0, MOST_CHOICES)
    .map((name) =>
      shown(`kind=subject:${name}`, { of: 'person', name: shortName(name) }, () => preview(name)),
    )
  const reason: RefusalReason = { key: 'several-subjects', people: subjects.length }
  return refusal(log, 'no-glucose-column', reason, { question: { option: '--columns', choices } })
}

/** Asks for the unit of values that name none, or that cannot be of the one named; each choice shows two rows. */
export function unitRefusal(log: string, plan: ColumnPlan, table: RowTable, unit: UnitOpen): Refusal {
  const { odd, stated } = unit
  const rows = rowsAskedAbout(table, unit)
  const choices = unit.answers.map((answer): Choice => {
    const read = rows.map((row) => ({ row, ...readAs(table, row, answer, unit) }))
    const main = answer === 'mixed' ? (stated ?? 'mg/dL') : answer
    const mean = fromMgDl(
      read.reduce((sum, each) => sum + toMgDl(each.value, each.unit), 0) / read.length,
      main,
    )
    return {
      answer,
      label: unitLabel(answer, unit),
      example: {
        of: 'values',
        rows: shownRows(read).map(({ row, value, unit: own }) => ({
          line: table.line[row],
          read: [value, own],
          other: inOther(value, own),
        })),
      },
      effect: read.length === 0 ? null : { of: 'mean', read: [mean, main], other: inOther(mean, main) },
    }
  })
  const line = odd === null ? (plan.header?.line ?? null) : table.line[odd.first]
  const reason: RefusalReason =
    unit.open === 'odd-values' ? { key: 'odd-values', odd: unit.odd } : { key: 'unit', open: unit.open }
  return refusal(log, 'unit-unknown', reason, { line, question: { option: '--log-unit', choices } })
}

function unitLabel(answer: UnitAnswer, { stated, odd }: UnitOpen): ChoiceLabel {
  const named = odd?.grams ? 'g/L' : null
  if (answer === 'mixed')
    return stated === null ? { of: 'each-by-size' } : { of: 'odd-in-other', unit: named ?? stated }
  if (odd === null) return { of: 'unit', unit: answer }
  return stated === null ? { of: 'as-rows-say' } : { of: 'all-in', unit: named ?? answer }
}

function inOther(value: number, unit: GlucoseUnit): readonly [number, GlucoseUnit] {
  const other = otherUnit(unit)
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
  preview: (year: number) => readonly RowShown[],
): Refusal {
  const choices = years.map((year) => shown(`year=${year}`, { of: 'year', year }, () => preview(year)))
  const question: Question = { option: '--columns', choices }
  return refusal(log, 'date-order-unknown', { key: 'year', year: years[0] }, { line, question })
}

/** Asks for the order of day and month. */
export function dateRefusal(log: string, table: RowTable, dates: OrderOpen, latestDay: number): Refusal {
  const choices = dates.open.flatMap((order): Choice[] => {
    const day = dayInOrder(table.numbersOf(dates.row), order)
    if (day === null) return []
    const effect = daysRead(table, order, latestDay)
    return [{ answer: order, label: { of: 'dates', order }, example: { of: 'day', day }, effect }]
  })
  const question: Question = { option: '--dates', choices }
  const line = table.line[dates.row]
  return refusal(log, 'date-order-unknown', { key: 'date-order' }, { line, question })
}

/** What the open dates span in this order. */
function daysRead(table: RowTable, order: DayOrder, latestDay: number): ChoiceEffect {
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
  return { of: 'days', from, to, future }
}
