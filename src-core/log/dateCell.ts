import { dayNumber } from '../units/wallClock'
import { serialToWallSeconds } from '../units/timeZone'
import { monthNumber, plain } from './vocabulary'

/** What a cell says of the day. */
export type CellDay =
  /** The form itself tells day, month and year. */
  | { readonly kind: 'day'; readonly form: 'ymd' | 'name' | 'serial'; readonly day: number }
  /** Three numbers whose order the column must tell; `year` is the last where it has four digits. */
  | {
      readonly kind: 'numbers'
      readonly a: number
      readonly b: number
      readonly c: number
      readonly fourDigitYear: boolean
    }
  /** A point in time that is the same everywhere. */
  | { readonly kind: 'instant'; readonly form: 'epoch' | 'ymd'; readonly ms: number }
  /** It has the form of a date that does not exist. */
  | { readonly kind: 'impossible' }
  /** The row has a time alone. */
  | { readonly kind: 'missing' }

/** What a cell says of the time of day. */
export interface CellTime {
  /** Seconds from 00:00; 24:00 is 86,400. */
  readonly second: number
  readonly hasSeconds: boolean
  /** Minutes east of UTC where the cell gives an offset. */
  readonly offsetMinutes: number | null
  /** Whether the cell says UTC (Z). */
  readonly utc: boolean
}

export interface CellMoment {
  readonly day: CellDay
  /** Null where the cell gives the day alone. */
  readonly time: CellTime | 'unreadable' | null
}

const YEAR_FIRST = /^(\d{4})([-/.])(\d{1,2})\2(\d{1,2})(?!\d)/
const YEAR_FIRST_COMPACT = /^((?:19|20)\d{2})(\d{2})(\d{2})(?!\d)/
const NUMBERS = /^(\d{1,2})\s?([-/. ])\s?(\d{1,2})\s?\2\s?(\d{4}|\d{2})(?!\d)\.?/
const DAY_NAME_YEAR =
  /^(\d{1,2})(?:st|nd|rd|th|er|º|°)?[. \-/]*(?:de |of )?\s?(\p{L}{3,})[. \-/,]*(?:de |of )?\s?(\d{4}|\d{2})(?!\d)/u
const NAME_DAY_YEAR = /^(\p{L}{3,})[. -]*(\d{1,2})(?:st|nd|rd|th)?,?[ -]+(\d{4})(?!\d)/u
const YEAR_NAME_DAY = /^(\d{4})[. -](\p{L}{3,})[. -](\d{1,2})(?!\d)/u
const WEEKDAY_BEFORE = /^\p{L}{2,10}[.,]?,? +(?=\d)/u
const EPOCH_SECONDS = /^\d{9,10}(?:\.\d+)?$/
const EPOCH_MILLISECONDS = /^\d{13}$/
const COMPACT = /^((?:19|20)\d{2})(\d{2})(\d{2})(\d{2})(\d{2})(\d{2})?$/
/** No date is longer; longer cells are texts. */
const LONGEST_DATE = 60
const SERIAL = /^\d{5}(?:[.,]\d+)?$/
const CLOCK =
  /^(\d{1,2})(?:[:.h]| h )(\d{2}|0)(?:[:.m](\d{2})(?:[.,]\d+)?)?\s?(?:s|min|uhr|h)?\s*([ap]\.?(?:\s?m\.?)?)?\s*(z|utc|gmt|[+-]\d{2}(?::?\d{2})?)?$/i
const CLOCK_12_HOURS = /^(\d{1,2})\s?([ap]\.?(?:\s?m\.?)?)$/i
const CLOCK_DIGITS = /^(\d{1,2})(\d{2})$/
const DAY_FRACTION = /^0[.,]\d+$/

/** Serial dates from 1954 to 2119 (common practice); other five-digit numbers are no dates. */
const SERIALS = { least: 20_000, most: 80_000 } as const

/** Reads a cell that holds a date, with or without a time. Null where it holds none. */
export function readMoment(cell: string): CellMoment | null {
  const text = cell.trim()
  if (text === '' || text.length > LONGEST_DATE) return null
  const compact = COMPACT.exec(text)
  if (compact) return compactMoment(compact)
  if (EPOCH_SECONDS.test(text)) return instant(Math.floor(Number(text) * 1000))
  if (EPOCH_MILLISECONDS.test(text)) return instant(Number(text))
  if (SERIAL.test(text)) {
    const serial = Number(text.replace(',', '.'))
    if (serial < SERIALS.least || serial > SERIALS.most) return null
    const wall = serialToWallSeconds(serial)
    const day = Math.floor(wall / 86_400)
    const wholeDay = Number.isInteger(serial)
    return {
      day: { kind: 'day', form: 'serial', day },
      time: wholeDay ? null : clockTime(wall - day * 86_400, true),
    }
  }
  const dated = readDay(text) ?? readDay(text.replace(WEEKDAY_BEFORE, ''))
  if (!dated) return timeBeforeDay(text)
  const rest = dated.rest.replace(/^[T,;\s-]+(?=\d)/i, '').trim()
  if (rest === '') return { day: dated.day, time: null }
  const time = readTime(rest)
  return withZone(dated.day, time ?? 'unreadable')
}

/** Reads a cell that holds a time of day. Null where it is empty. */
export function readTimeCell(cell: string): CellTime | 'unreadable' | null {
  const text = cell.trim()
  if (text === '') return null
  if (text.length > LONGEST_DATE) return 'unreadable'
  if (DAY_FRACTION.test(text)) return clockTime(Math.round(Number(text.replace(',', '.')) * 86_400), true)
  const digits = CLOCK_DIGITS.exec(text)
  if (digits) return checkedTime(Number(digits[1]), Number(digits[2]), 0, false, null, false)
  return readTime(text) ?? 'unreadable'
}

/** A day and a time from two cells, as one moment. */
export function joinMoment(day: CellDay, time: CellTime | 'unreadable' | null): CellMoment {
  return time === null ? { day, time } : withZone(day, time)
}

/** '20260302065300' or without its seconds. */
function compactMoment(match: RegExpExecArray): CellMoment {
  const [year, month, day, hour, minute] = match.slice(1, 6).map(Number)
  const second = match[6] as string | undefined
  const { day: read } = found(match[0], match, year, month, day, 'ymd')
  return {
    day: read,
    time: checkedTime(hour, minute, Number(second ?? 0), second !== undefined, null, false),
  }
}

function withZone(day: CellDay, time: CellTime | 'unreadable'): CellMoment {
  if (time !== 'unreadable' && time.utc && day.kind === 'day') {
    return { day: { kind: 'instant', form: 'ymd', ms: (day.day * 86_400 + time.second) * 1000 }, time }
  }
  return { day, time }
}

function timeBeforeDay(text: string): CellMoment | null {
  const match = /^(\d{1,2}[:.h]\d{2}(?::\d{2})?(?:\s?[ap]\.?m\.?)?),?\s+(\S.*)$/i.exec(text)
  const dated = match ? readDay(match[2]) : null
  if (!match || !dated || dated.rest.trim() !== '') return null
  return { day: dated.day, time: readTime(match[1]) ?? 'unreadable' }
}

function instant(ms: number): CellMoment {
  return { day: { kind: 'instant', form: 'epoch', ms }, time: null }
}

function readDay(text: string): { day: CellDay; rest: string } | null {
  const yearFirst = YEAR_FIRST.exec(text)
  if (yearFirst)
    return found(text, yearFirst, Number(yearFirst[1]), Number(yearFirst[3]), Number(yearFirst[4]), 'ymd')
  const compact = YEAR_FIRST_COMPACT.exec(text)
  if (compact) return found(text, compact, Number(compact[1]), Number(compact[2]), Number(compact[3]), 'ymd')
  const numbers = NUMBERS.exec(text)
  if (numbers) {
    return {
      day: {
        kind: 'numbers',
        a: Number(numbers[1]),
        b: Number(numbers[3]),
        c: Number(numbers[4]),
        fourDigitYear: numbers[4].length === 4,
      },
      rest: text.slice(numbers[0].length),
    }
  }
  const named =
    namedDay(text, DAY_NAME_YEAR.exec(text), 3, 2, 1) ??
    namedDay(text, NAME_DAY_YEAR.exec(text), 3, 1, 2) ??
    namedDay(text, YEAR_NAME_DAY.exec(text), 1, 2, 3)
  return named
}

function namedDay(
  text: string,
  match: RegExpExecArray | null,
  year: number,
  month: number,
  day: number,
): { day: CellDay; rest: string } | null {
  const number = match && monthNumber(plain(match[month]))
  if (!match || !number) return null
  return found(
    text,
    match,
    fullYear(Number(match[year]), match[year].length),
    number,
    Number(match[day]),
    'name',
  )
}

/** Two-digit years are of this century: no log of an older meter is written so today. */
export function fullYear(year: number, digits: number): number {
  return digits <= 2 ? 2000 + year : year
}

function found(
  text: string,
  match: RegExpExecArray,
  year: number,
  month: number,
  day: number,
  form: 'ymd' | 'name',
): { day: CellDay; rest: string } {
  const number = dayNumber(year, month, day)
  return {
    day: number === null ? { kind: 'impossible' } : { kind: 'day', form, day: number },
    rest: text.slice(match[0].length),
  }
}

function readTime(text: string): CellTime | 'unreadable' | null {
  const hourOnly = CLOCK_12_HOURS.exec(text)
  if (hourOnly) return checkedTime(Number(hourOnly[1]), 0, 0, false, hourOnly[2], false)
  const match = CLOCK.exec(text)
  if (!match) return null
  const zone = match[5] as string | undefined
  const utc = zone !== undefined && /^[a-z]/i.test(zone)
  const time = checkedTime(
    Number(match[1]),
    Number(match[2]),
    Number((match[3] as string | undefined) ?? 0),
    (match[3] as string | undefined) !== undefined,
    match[4] ?? null,
    utc,
  )
  if (time === 'unreadable' || zone === undefined || utc) return time
  const offset =
    (zone.startsWith('-') ? -1 : 1) *
    (Number(zone.slice(1, 3)) * 60 + Number(zone.slice(3).replace(':', '') || 0))
  return Math.abs(offset) > 14 * 60 ? 'unreadable' : { ...time, offsetMinutes: offset }
}

function checkedTime(
  hour: number,
  minute: number,
  second: number,
  hasSeconds: boolean,
  halfDay: string | null,
  utc: boolean,
): CellTime | 'unreadable' {
  if (minute > 59 || second > 59) return 'unreadable'
  let hours = hour
  if (halfDay !== null) {
    if (hour < 1 || hour > 12) return 'unreadable'
    // 12 AM is midnight and 12 PM is noon.
    hours = (hour % 12) + (/^p/i.test(halfDay) ? 12 : 0)
  }
  // 24:00 is the end of the day; any later time does not exist.
  if (hours > 24 || (hours === 24 && (minute > 0 || second > 0))) return 'unreadable'
  return { second: hours * 3600 + minute * 60 + second, hasSeconds, offsetMinutes: null, utc }
}

function clockTime(second: number, hasSeconds: boolean): CellTime {
  return { second, hasSeconds, offsetMinutes: null, utc: false }
}
