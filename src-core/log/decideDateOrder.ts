import { dayNumber } from '../units/wallClock'
import { EARLIEST_YEAR, fullYear } from './dateCell'
import type { DateOrderDecision, DayOrder } from './logReport'
import { DAY, type OpenDay, type RowTable } from './rowTable'
import { isWeekday } from './words/weekdays'

/** The order could not be told; `row` is one whose date differs between the orders left. */
export interface OrderOpen {
  readonly open: readonly DayOrder[]
  readonly row: number
}

/** So many rows that only one order can read outweigh a single one that only another can (a typing error). */
const OUTWEIGHS = 20

/** Decides the order of day, month and year from every row of the log. */
export function decideDateOrder(
  table: RowTable,
  hints: {
    readonly header: DayOrder | null
    readonly answer: DayOrder | null
    /** Chosen in place of all else. */
    readonly instead: DayOrder | null
    readonly thisYear: number
    /** The last day on which a reading may have been taken. */
    readonly latestDay: number
  },
): DateOrderDecision | OrderOpen {
  const survey = surveyDates(table, hints.thisYear)
  if (survey.rows === 0) return decidedByForm(table)
  if (hints.instead) return { value: hints.instead, basis: 'answer' }
  const left = thatFitWeekdays(
    survey.orders.filter((order) => !survey.orders.some((other) => outweighs(survey, other, order))),
    table,
  )
  if (left.length === 1) return { value: left[0], basis: 'rows' }
  if (hints.header && left.includes(hints.header)) return { value: hints.header, basis: 'header' }
  // Rows that contradict one another leave nothing for their sequence to tell.
  const contradicted = left.some((order) => left.some((other) => only(survey, order, other) > 0))
  const monotone = left.filter((order) => survey.ascending.get(order) || survey.descending.get(order))
  if (hints.answer) return { value: hints.answer, basis: 'answer' }
  if (table.daysFirst === survey.rows && left.includes('dmy')) return { value: 'dmy', basis: 'form' }
  // A year of two digits in front is too rare for the sequence alone to tell it.
  const isRare = monotone.includes('ymd') && left.length > 1
  if (!contradicted && monotone.length === 1 && !isRare && survey.days > 1)
    return { value: monotone[0], basis: 'rows' }
  return { open: leastInFuture(table, left, hints.latestDay), row: survey.example }
}

/**
 * The one of these orders whose days are the weekdays that stand beside them; all of them where no order fits, or several
 * do. A row or two of very many may name another day: it was written after midnight, or mistyped.
 */
function thatFitWeekdays(orders: readonly DayOrder[], { weekdays }: RowTable): readonly DayOrder[] {
  if (weekdays.size === 0) return orders
  const fitting = orders.filter((order) => {
    let [fits, others] = [0, 0]
    for (const { day, weekdays: named, rows } of weekdays.values()) {
      const number = dayInOrder(day, order)
      if (number !== null && isWeekday(number, named)) fits += rows
      else others += rows
    }
    return fits > 0 && fits >= OUTWEIGHS * others
  })
  return fitting.length === 1 ? fitting : orders
}

/** The orders, those first that put the fewest rows into the future; no reading lies there. */
function leastInFuture(table: RowTable, orders: readonly DayOrder[], latestDay: number): readonly DayOrder[] {
  const future = new Map(orders.map((order) => [order, 0]))
  for (let row = 0; row < table.n; row++) {
    if (table.dayKind[row] !== DAY.numbers) continue
    const numbers = table.numbersOf(row)
    for (const order of orders) {
      const day = dayInOrder(numbers, order)
      if (day !== null && day > latestDay) future.set(order, (future.get(order) ?? 0) + 1)
    }
  }
  return [...orders].sort((a, b) => (future.get(a) ?? 0) - (future.get(b) ?? 0))
}

/** Day number of three numbers in a given order; null where no such day exists. */
export function dayInOrder({ a, b, c, fourDigitYear }: OpenDay, order: DayOrder): number | null {
  if (fourDigitYear && c < EARLIEST_YEAR) return null
  if (fourDigitYear) return order === 'ymd' ? null : order === 'dmy' ? dayNumber(c, b, a) : dayNumber(c, a, b)
  if (order === 'ymd') return dayNumber(fullYear(a, 2), b, c)
  return order === 'dmy' ? dayNumber(fullYear(c, 2), b, a) : dayNumber(fullYear(c, 2), a, b)
}

function decidedByForm(table: RowTable): DateOrderDecision {
  const forms = Object.entries(table.forms) as [keyof RowTable['forms'], number][]
  const [value] = forms.reduce((best, form) => (form[1] > best[1] ? form : best))
  return { value, basis: 'form' }
}

interface DateSurvey {
  readonly orders: readonly DayOrder[]
  /** Rows whose order is open. */
  rows: number
  /** Distinct dates as written in one table, 2 standing for more. */
  days: number
  /** 'p>q' -> rows that order p can read and order q cannot. */
  readonly only: Map<string, number>
  readonly ascending: Map<DayOrder, boolean>
  readonly descending: Map<DayOrder, boolean>
  example: number
}

function only(survey: DateSurvey, order: DayOrder, other: DayOrder): number {
  return survey.only.get(`${order}>${other}`) ?? 0
}

function outweighs(survey: DateSurvey, order: DayOrder, other: DayOrder): boolean {
  const forOrder = only(survey, order, other)
  const forOther = only(survey, other, order)
  return forOrder > 0 && forOrder >= OUTWEIGHS * forOther && forOrder > forOther
}

function surveyDates(table: RowTable, thisYear: number): DateSurvey {
  const survey: DateSurvey = {
    orders: ordersPossible(table, thisYear),
    rows: 0,
    days: 0,
    only: new Map(),
    ascending: new Map(),
    descending: new Map(),
    example: -1,
  }
  const { orders } = survey
  for (const order of orders) {
    survey.ascending.set(order, true)
    survey.descending.set(order, true)
  }
  const last = new Map<DayOrder, number>()
  let firstDay = -1
  let part = 0
  for (let i = 0; i < table.n; i++) {
    // Another table need not go on where the one above it ends: of another meter, another month.
    if (i >= (table.partStarts.at(part + 1) ?? Infinity)) {
      while (i >= (table.partStarts.at(part + 1) ?? Infinity)) part++
      last.clear()
      firstDay = -1
    }
    if (table.dayKind[i] !== DAY.numbers) continue
    survey.rows++
    if (firstDay < 0) firstDay = table.day[i]
    survey.days = Math.max(survey.days, table.day[i] === firstDay ? 1 : 2)
    const numbers = table.numbersOf(i)
    const second = table.secondOf(i)
    const days = orders.map((order) => dayInOrder(numbers, order))
    if (survey.example < 0 && new Set(days).size > 1 && !days.includes(null)) survey.example = i
    orders.forEach((order, p) => {
      const day = days[p]
      if (day === null) return
      orders.forEach((other, q) => {
        if (days[q] === null) survey.only.set(`${order}>${other}`, only(survey, order, other) + 1)
      })
      const at = day * 86_400 + (typeof second === 'number' ? second : 0)
      const before = last.get(order)
      if (before !== undefined && at < before) survey.ascending.set(order, false)
      if (before !== undefined && at > before) survey.descending.set(order, false)
      last.set(order, at)
    })
  }
  if (survey.example < 0) survey.example = firstWithNumbers(table)
  return survey
}

function firstWithNumbers(table: RowTable): number {
  for (let i = 0; i < table.n; i++) if (table.dayKind[i] === DAY.numbers) return i
  return -1
}

/** Few years and many days in a column tell which of the outer numbers is the year. */
const MOST_YEARS = 3
const FEWEST_DAYS = 5
/** A number that would be a year to come in more than this share of the rows is no year. */
const LEAST_TOO_LATE_SHARE = 0.05

/** Few logs that somebody prints were written before this year: where another order gives later ones, it is no year. A design choice. */
const FEW_LOGS_BEFORE = 2005

/** The year may also come first where it has two digits, unless the numbers speak against it. */
function ordersPossible(table: RowTable, thisYear: number): readonly DayOrder[] {
  const firsts = new Set<number>()
  const lasts = new Set<number>()
  let fourDigits = false
  let rows = 0
  let lastTooLate = 0
  let firstTooEarly = 0
  let lastTooEarly = 0
  let firstTooLate = 0
  for (let i = 0; i < table.n; i++) {
    if (table.dayKind[i] !== DAY.numbers) continue
    const numbers = table.numbersOf(i)
    rows++
    fourDigits ||= numbers.fourDigitYear
    if (firsts.size < 100) firsts.add(numbers.a)
    if (lasts.size < 100) lasts.add(numbers.c)
    if (fullYear(numbers.a, 2) > thisYear + 1) firstTooLate++
    if (fullYear(numbers.a, 2) < FEW_LOGS_BEFORE) firstTooEarly++
    if (!numbers.fourDigitYear && fullYear(numbers.c, 2) > thisYear + 1) lastTooLate++
    if (!numbers.fourDigitYear && fullYear(numbers.c, 2) < FEW_LOGS_BEFORE) lastTooEarly++
  }
  // A typing error or two in a column do not turn it round.
  const isLastRecent = lastTooLate === 0 && lastTooEarly === 0
  const isFirstNoYear =
    firstTooLate > LEAST_TOO_LATE_SHARE * rows || (isLastRecent && firstTooEarly + firstTooLate > 0.5 * rows)
  const isLastNoYear = lastTooLate > LEAST_TOO_LATE_SHARE * rows
  const yearLast = fourDigits || isFirstNoYear || (lasts.size <= MOST_YEARS && firsts.size >= FEWEST_DAYS)
  if (yearLast) return ['dmy', 'mdy']
  const yearFirst = isLastNoYear || (firsts.size <= MOST_YEARS && lasts.size >= FEWEST_DAYS)
  if (yearFirst) return ['ymd']
  // What is offered first should lie in recent years.
  const isFirstRecent = firstTooLate === 0 && firstTooEarly === 0
  return isFirstRecent && lastTooEarly > 0.5 * rows ? ['ymd', 'dmy', 'mdy'] : ['dmy', 'mdy', 'ymd']
}
