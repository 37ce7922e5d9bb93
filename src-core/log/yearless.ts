import { calendarPart } from './words/calendarParts'
import { conceptsOf } from './words/concepts'
import { headerWords } from './words/headerRole'
import { monthNumber, monthOfName } from './words/months'
import { plain, plainDigits } from './words/plain'
import { readMoment } from './dateCell'
import type { CsvRecord } from './records'
import { withoutUnit } from './tables/cellKind'
import { shapeOf } from './tables/rowShape'

// Dates that name no year: '3/14', '14.3.', '14 March', '14-Mar', '3月14日'. The year is asked for; with the answer the
// dates are completed before anything else is read, so that nothing else need know of them.

/** Where the dates without a year stand. */
export interface YearlessDates {
  /** Whether a header says that they are dates. */
  readonly isHeaded: boolean
  /** Whether they stand beside each other in a line of days. */
  readonly across: boolean
  readonly columns: ReadonlySet<number>
  /** Line of the first of them. */
  readonly line: number
  /** A year that the lines above the table name, and no other. */
  readonly titleYear: number | null
  /** Whether a title says that it is the year of the dates. */
  readonly isTitled: boolean
  /** Order of day and month where they are numbers and the rows tell it. */
  readonly order: 'dmy' | 'mdy' | null
  /** Whether the months run on from row to row, so that a step from December to January is one of the year. */
  readonly runsOn: boolean
  /** Whether four digits behind a day are a clock time: '14 March 0710'. */
  readonly clockBehind: boolean
  /** Months and days of the records looked at, in their order; null where the order of the numbers is open. */
  readonly days: readonly (MonthDay | null)[]
}

interface MonthDay {
  readonly month: number
  readonly day: number
}

interface Yearless {
  /** The cell with a year in it. */
  readonly complete: (year: number) => string
  /** By order of day and month; both are the same where the form tells it. */
  readonly dmy: MonthDay | null
  readonly mdy: MonthDay | null
}

const NO_YEAR_BEHIND = String.raw`(?!\d)(?!\s?[.,/-]?\s?(?:de |of )?['’]?(?:(?:19|20)\d{2}|\d{2})(?!\d|[:.h]\s?\d))`
const DOTS = new RegExp(String.raw`^(\d{1,2})\.\s?(\d{1,2})\.` + NO_YEAR_BEHIND)
const SLASH = new RegExp(String.raw`^(\d{1,2})/(\d{1,2})` + NO_YEAR_BEHIND)
/** Read as a date only below a header that says so: else '14.03' is a number and '3-4' a stretch. */
const VAGUE = new RegExp(String.raw`^(\d{1,2})([.-])(\d{1,2})` + NO_YEAR_BEHIND)
const DAY_NAME = new RegExp(
  String.raw`^(\d{1,2})(?:st|nd|rd|th|er|º|°)?[.\s/-]*(?:de |of )?\s?(\p{L}{3,}\.?)` + NO_YEAR_BEHIND,
  'u',
)
const NAME_DAY = new RegExp(String.raw`^(\p{L}{3,})[.\s-]*(\d{1,2})(?:st|nd|rd|th)?` + NO_YEAR_BEHIND, 'u')
const CJK = /^(\d{1,2})\s?月\s?(\d{1,2})\s?日/
const WEEKDAY_BEFORE = /^\p{L}{2,12}[.,]*\s+/u
/** Longer cells are texts. */
const LONGEST = 40

/** Reads a cell as a date without a year; `isDate` where its column is headed as one. Null where it is none. */
export function yearlessDay(cell: string, isDate: boolean): Yearless | null {
  const text = plainDigits(cell.trim())
  if (text.length < 3 || text.length > LONGEST || !/\d/.test(text)) return null
  const read = startOf(text, isDate)
  if (read !== null) return read
  const before = WEEKDAY_BEFORE.exec(text)
  const rest = before && startOf(text.slice(before[0].length), isDate)
  return rest && { ...rest, complete: (year) => before[0] + rest.complete(year) }
}

function startOf(text: string, isDate: boolean): Yearless | null {
  const cjk = CJK.exec(text)
  if (cjk) return told(Number(cjk[1]), Number(cjk[2]), (year) => `${year}年${text}`)
  const dots = DOTS.exec(text)
  if (dots) return told(Number(dots[2]), Number(dots[1]), behind(text, dots[0], ''))
  const slash = SLASH.exec(text)
  if (slash) return open(Number(slash[1]), Number(slash[2]), behind(text, slash[0], '/'))
  const vague = isDate ? VAGUE.exec(text) : null
  if (vague) {
    const [first, second] = [Number(vague[1]), Number(vague[3])]
    const complete = behind(text, vague[0], vague[2])
    return vague[2] === '.' ? told(second, first, complete) : open(first, second, complete)
  }
  const dayName = DAY_NAME.exec(text)
  const dayMonth = dayName && monthNumber(plain(dayName[2]))
  if (dayName && dayMonth) return told(dayMonth, Number(dayName[1]), behind(text, dayName[0], ' '))
  const nameDay = NAME_DAY.exec(text)
  const nameMonth = nameDay && monthNumber(plain(nameDay[1]))
  if (nameDay && nameMonth) return told(nameMonth, Number(nameDay[2]), behind(text, nameDay[0], ' '))
  return null
}

/** The text with the year behind what was read of it. */
function behind(text: string, read: string, mark: string): (year: number) => string {
  return (year) => `${read}${mark}${year}${text.slice(read.length)}`
}

function told(month: number, day: number, complete: Yearless['complete']): Yearless | null {
  const read = monthDay(month, day)
  return read && { complete, dmy: read, mdy: read }
}

function open(first: number, second: number, complete: Yearless['complete']): Yearless | null {
  const [dmy, mdy] = [monthDay(second, first), monthDay(first, second)]
  return dmy || mdy ? { complete, dmy, mdy } : null
}

function monthDay(month: number, day: number): MonthDay | null {
  return month >= 1 && month <= 12 && day >= 1 && day <= 31 ? { month, day } : null
}

/** Share of a column's filled cells that must be dates without a year. */
const MOST = 0.8
/** So many are needed where no header speaks of dates. */
const FEWEST_WITHOUT_HEADER = 2
const YEAR = /(?<!\d)20\d{2}(?!\d)/g

/**
 * Finds dates without a year among a log's first records: below a header that speaks of dates; with `anywhere` in any
 * column, and in lines of their own. Null where there are none.
 */
export function findYearlessDates(
  records: readonly CsvRecord[],
  answered: 'dmy' | 'mdy' | null,
  anywhere: boolean,
): YearlessDates | null {
  const at = records.findIndex(({ cells }) => cells.some(headsDates))
  const header = at < 0 ? null : records[at]
  const rows = records.slice(at + 1)
  const width = Math.max(0, ...rows.map(({ cells }) => cells.length))
  const all = Array.from({ length: width }, (_, index) => index)
  const headed = header === null ? [] : all.filter((index) => headsDates(header.cells[index] ?? ''))
  // Another column of whole dates tells the day of the reading.
  if (!anywhere && headed.some((index) => holdsWholeDates(rows, index))) return null
  const columns = headed.filter((index) => holdsYearless(rows, index, true, 1))
  if (columns.length === 0 && anywhere) {
    const free = all.filter((index) => !records.some(({ cells }) => headsOther(cells[index] ?? '')))
    columns.push(...free.filter((index) => holdsYearless(rows, index, false, FEWEST_WITHOUT_HEADER)))
    if (columns.length === 0 && headings(rows).length > 0) columns.push(0)
  }
  const across = columns.length === 0 && anywhere ? records.find(isLineOfDays) : undefined
  if (columns.length === 0 && across === undefined) return null
  const isHeaded = across === undefined && headed.length > 0
  const read = ({ cells }: CsvRecord, index: number): Yearless | null =>
    yearlessDay(cells[index] ?? '', isHeaded)
  const found = (across ? [across] : records.slice(isHeaded ? at + 1 : 0)).flatMap((record) =>
    (across ? across.cells.map((_, index) => index) : columns).flatMap((index) => {
      const day = read(record, index)
      return day === null ? [] : [{ record, read: day }]
    }),
  )
  if (found.length === 0) return null
  const isNumbers = found.some(({ read }) => read.dmy !== read.mdy)
  const order = isNumbers ? (orderOf(found.map(({ read }) => read)) ?? answered) : 'dmy'
  const days = found.map(({ read }) => (order === null ? null : read[order]))
  const years = new Set(
    records.filter(({ line }) => line < found[0].record.line).flatMap(({ text }) => text.match(YEAR) ?? []),
  )
  const titleYear = years.size === 1 ? Number([...years][0]) : null
  return {
    isHeaded,
    across: across !== undefined,
    columns: new Set(columns),
    line: found[0].record.line,
    titleYear,
    isTitled: titleYear !== null && isTitled(records, titleYear, days),
    order: isNumbers ? order : null,
    runsOn: runOn(days),
    clockBehind:
      found.filter(({ record }) => columns.some((index) => DIGITS_BEHIND.test(record.cells[index] ?? '')))
        .length >
      MOST_YEARS_BEHIND * found.length,
    days,
  }
}

/** Most filled cells of a title: 'Year:;2026'. */
const MOST_OF_A_TITLE = 2
/** Words that make a year that of another thing, as `plain` gives them: diabetes since then, a birth. */
const ANOTHER_THING =
  /^(since|from|seit|ab|depuis|desde|dal|dall|dalla|sinds|siden|sedan|alkaen|lahtien|od|ota|beri|απο|с|diagnos\w*|born|geb\w*|ne|nee|nato|nata|version|v|copyright|c)$/

/** Whether titles give a year to the dates below them and none gives another: 'May 2026', 'Year: 2026', 'Glucose 2026'. */
function isTitled(records: readonly CsvRecord[], year: number, days: readonly (MonthDay | null)[]): boolean {
  const lines = records.filter((record) => {
    const { filled, days: dated } = shapeOf(record)
    return filled > 0 && filled <= MOST_OF_A_TITLE && dated === 0
  })
  const named = lines.flatMap(({ text }) => text.match(YEAR) ?? [])
  if (named.some((each) => Number(each) !== year)) return false
  return lines.some(({ cells }) => {
    const text = cells.join(' ')
    const words = plain(withoutUnit(text)).split(' ')
    const others = words.filter((word) => word !== String(year))
    const atAnEnd = words[0] === String(year) || words.at(-1) === String(year)
    if (!atAnEnd || others.length !== words.length - 1 || others.some((word) => /\d/.test(word))) return false
    const concepts = conceptsOf(text)
    if (concepts.has('administrative') || others.some((word) => ANOTHER_THING.test(word))) return false
    const months = others.map(monthOfName).filter((month) => month !== null)
    if (months.length > 0) return months.some((month) => days.some((day) => day?.month === month))
    return (
      others.every((word) => calendarPart(word) === 'year') ||
      concepts.has('glucose') ||
      concepts.has('value')
    )
  })
}

/** Fewest days that make a line of days, and their share of its filled cells. */
const LINE_OF_DAYS = { fewest: 3, share: 0.6 } as const

function isLineOfDays({ cells }: CsvRecord): boolean {
  const filled = cells.filter((cell) => cell.trim() !== '')
  const days = filled.filter((cell) => yearlessDay(cell, false) !== null)
  return days.length >= LINE_OF_DAYS.fewest && days.length >= LINE_OF_DAYS.share * filled.length
}

function headsDates(cell: string): boolean {
  if (cell.trim() === '' || /\d/.test(cell)) return false
  const { role, occasion } = headerWords(cell)
  return (role === 'date' || role === 'timestamp') && occasion >= 0
}

/** '1/2' below 'Carbs' is no date. */
function headsOther(cell: string): boolean {
  if (cell.trim() === '' || /\d/.test(cell)) return false
  const { role, against } = headerWords(cell)
  return against !== null || (role !== null && role !== 'date' && role !== 'timestamp')
}

function holdsWholeDates(rows: readonly CsvRecord[], index: number): boolean {
  const filled = rows.filter(({ cells }) => (cells[index] ?? '').trim() !== '')
  const dated = filled.filter(({ cells }) => {
    const day = readMoment(plainDigits(cells[index]))?.day.kind
    return day !== undefined && day !== 'missing' && day !== 'impossible'
  })
  return dated.length > 0 && dated.length >= MOST * filled.length
}

function holdsYearless(rows: readonly CsvRecord[], index: number, isDate: boolean, fewest: number): boolean {
  // The first of them and what follows it up to a blank line: another table may have other columns.
  const from = rows.findIndex(({ cells }) => yearlessDay(cells[index] ?? '', isDate) !== null)
  if (from < 0) return false
  const blank = rows.findIndex(({ cells }, i) => i > from && cells.every((cell) => cell.trim() === ''))
  const block = rows.slice(isDate ? 0 : from, blank < 0 ? undefined : blank)
  const filled = block.filter(({ cells }) => (cells[index] ?? '').trim() !== '' && !isSmallPrint(cells))
  // Where '31-Dec 0224' stands, '31-Dec 2012' is a clock time too.
  const clocked = filled.some(
    ({ cells }) => DIGITS_BEHIND.test(cells[index]) && yearlessDay(cells[index], isDate) !== null,
  )
  const dated = filled.filter(({ cells }) => {
    const cell = clocked ? cells[index].replace(DIGITS_BEHIND, ' $1:$2') : cells[index]
    return yearlessDay(cell, isDate) !== null
  })
  return dated.length >= fewest && dated.length >= MOST * filled.length
}

/** A line of one text, such as a closing one. */
function isSmallPrint(cells: readonly string[]): boolean {
  return (
    cells.filter((cell) => cell.trim() !== '').length === 1 && cells.some((cell) => conceptsOf(cell).size > 0)
  )
}

/** Lines with a date without a year and nothing else, with rows of numbers below. */
function headings(rows: readonly CsvRecord[]): readonly CsvRecord[] {
  return rows.filter(({ cells }) => {
    const filled = cells.filter((cell) => cell.trim() !== '')
    return filled.length === 1 && cells[0].trim() !== '' && yearlessDay(cells[0], false) !== null
  })
}

function orderOf(dates: readonly Yearless[]): 'dmy' | 'mdy' | null {
  const onlyDmy = dates.some(({ mdy }) => mdy === null)
  const onlyMdy = dates.some(({ dmy }) => dmy === null)
  return onlyDmy === onlyMdy ? null : onlyDmy ? 'dmy' : 'mdy'
}

/** Steps of at most so many months, all forward or all back, are a diary's; others are those of a list in no order. */
const LONGEST_STEP = 6

function runOn(days: readonly (MonthDay | null)[]): boolean {
  const months = days.map((day) => day?.month ?? null)
  if (months.includes(null)) return false
  const steps = months.slice(1).map((month, i) => ((month ?? 0) - (months[i] ?? 0) + 12) % 12)
  return (
    steps.every((step) => step < LONGEST_STEP) ||
    steps.every((step) => step === 0 || step > 12 - LONGEST_STEP)
  )
}

/** Follows the year from date to date. */
class YearCount {
  #month: number | null = null
  #year: number
  readonly #runsOn: boolean

  constructor(first: number, runsOn: boolean) {
    this.#year = first
    this.#runsOn = runsOn
  }

  of(day: MonthDay | null): number {
    if (day !== null && this.#runsOn) {
      const step = day.month - (this.#month ?? day.month)
      if (step <= -LONGEST_STEP) this.#year++
      else if (step >= LONGEST_STEP) this.#year--
      this.#month = day.month
    }
    return this.#year
  }
}

/** The records with their dates completed; `first` is the year of the first of them. */
export function* withYears(
  records: Iterable<CsvRecord>,
  { columns, order, runsOn, line, isHeaded, across, clockBehind }: YearlessDates,
  first: number,
): Generator<CsvRecord> {
  const count = new YearCount(first, runsOn)
  for (const record of records) {
    let cells: string[] | null = null
    if (record.line >= line) {
      for (const index of across && isLineOfDays(record) ? record.cells.keys() : columns) {
        const cell = record.cells[index] ?? ''
        const read = yearlessDay(clockBehind ? cell.replace(DIGITS_BEHIND, ' $1:$2') : cell, isHeaded)
        if (read === null) continue
        cells ??= [...record.cells]
        cells[index] = read.complete(count.of(read[order ?? 'dmy']))
      }
    }
    yield cells === null ? record : { ...record, cells }
  }
}

/** A clock time without a sign behind a day. */
const DIGITS_BEHIND = /\s([01]\d|2[0-3])([0-5]\d)$/
/** So large a share of the dates without a year must have one for the others to have it too. */
const MOST_YEARS_BEHIND = 0.8

/** Years offered at most. */
const MOST_YEARS = 3

/**
 * The years in which the first date may lie, the likeliest first: that of the title, else the latest in which no date
 * lies in the future. `today` is year, month and day.
 */
export function yearsPossible(
  { titleYear, days, runsOn }: YearlessDates,
  today: { readonly year: number; readonly month: number; readonly day: number },
): readonly number[] {
  const isPast = (first: number): boolean => {
    const count = new YearCount(first, runsOn)
    return days.every((day) => {
      const year = count.of(day)
      if (day === null || year !== today.year) return year <= today.year
      return day.month < today.month || (day.month === today.month && day.day <= today.day + 1)
    })
  }
  const years: number[] = titleYear !== null && isPast(titleYear) ? [titleYear] : []
  for (let year = today.year; years.length < MOST_YEARS && year > today.year - 10; year--)
    if (!years.includes(year) && isPast(year)) years.push(year)
  return years
}
