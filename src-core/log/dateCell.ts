import { dayNumber } from '../units/wallClock'
import { serialToWallSeconds } from '../units/timeZone'
import { monthNumber } from './words/months'
import { plain, plainDigits } from './words/plain'
import { weekdaysIn } from './words/weekdays'

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
      /** The weekdays that a word beside it may name, as bits from Monday on; absent where it names none. */
      readonly weekdays?: number
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

const YEAR_FIRST = /^(\d{4})\s?([-/.])\s?(\d{1,2})\s?\2\s?(\d{1,2})(?!\d)\.?/
/** 2026-061 and 2026-W10-1 of ISO 8601. */
const ORDINAL = /^(\d{4})-(\d{3})(?!\d)/
const WEEK_DAY = /^(\d{4})-?W(\d{2})-?([1-7])(?!\d)/i
const CJK_DAY = /^(\d{4})\s?年\s?(\d{1,2})\s?月\s?(\d{1,2})\s?日/
const YEAR_FIRST_COMPACT = /^((?:19|20)\d{2})(\d{2})(\d{2})(?!\d)/
/** A year of two digits is no hour: '6.5. 17:12'. */
const NUMBERS = /^(\d{1,2})\s?([-/. ])\s?(\d{1,2})\s?\2\s?(\d{4}|\d{2}(?![:h]\d))(?!\d)\.?/
const DAY_NAME_YEAR =
  /^(\d{1,2})(?:st|nd|rd|th|er|º|°)?[. \-/]*(?:de |of )?\s?(\p{L}{3,})[. \-/,]*(?:de |of )?\s?(\d{4}|\d{2}(?![:h]\d))(?!\d)/u
const NAME_DAY_YEAR = /^(\p{L}{3,})[. -]*(\d{1,2})(?:st|nd|rd|th)?,?[ -]+(\d{4})(?!\d)/u
const YEAR_NAME_DAY = /^(\d{4})[. -]+(\p{L}{3,})[. -]+(\d{1,2})(?!\d)\.?/u
const WEEKDAY_BEFORE = /^[\p{L}-]{1,20}[.,]?,?\s*(?:den |the |le |el |il |a )?(?=\d)/iu
const WEEKDAY_AND_NAME = /^\p{L}{2,10}[.,]*\s+(?=\p{L}{3,}\.?\s?\d)/u
const THAI_DIGIT = /[\u0e50-\u0e59]/
/** Years by which the Buddhist era of Thailand and the Reiwa era of Japan differ from the common one. */
const ERAS = { buddhist: 543, reiwa: 2018 } as const
const ROMAN = ['i', 'ii', 'iii', 'iv', 'v', 'vi', 'vii', 'viii', 'ix', 'x', 'xi', 'xii']
const ROMAN_MONTH = /^(\d{1,2})[. /-]+([ivx]{1,4})[. /-]+(\d{4}|\d{2}(?![:h]\d))(?!\d)/i
const WEEKDAY_WITHIN = /\s?[(（]\s?\p{L}{1,12}\.?\s?[)）]/u
/** Words between day and time, and after a year. */
const BETWEEN =
  /^(?:[T,;:\s\-–|@.]|г\.?|года|kl\.?|klo|um|at|à|a las|às|alle ore|alle|ore|om|o godz\.?|godz\.?|o|v|в|saat|στις|klockan|klokken|at about|ca\.?)+(?=\s*\d|\s*[ap]\.?m|[上下]午|午[前後])/iu
const EPOCH_SECONDS = /^\d{9,10}(?:\.\d+)?$/
const EPOCH_MILLISECONDS = /^\d{13}$/
const COMPACT = /^((?:19|20)\d{2})(\d{2})(\d{2})(\d{2})(\d{2})(\d{2})?$/
/** '14 March '26'. */
const SHORT_YEAR = /(\d[ ./-]|\p{L}[ .,-]{1,2}|\d, )['\u2018\u2019](\d{2})(?!\d)/u
/** No date is longer; longer cells are texts. */
const LONGEST_DATE = 60
const SERIAL = /^\d{5}(?:[.,]\d+)?$/
const CLOCK =
  /^(\d{1,2})(?:[:.h]| h )(\d{2}|0)(?:[:.m](\d{2})(?:[.,]\d+)?)?\s?(?:s|min|uhr|uur|h)?\s*([ap]\.?(?:\s?m\.?)?)?\s*(z|utc|gmt|[+-]\d{2}(?::?\d{2})?)?$/i
const CLOCK_12_HOURS = /^(\d{1,2})\s?([ap]\.?(?:\s?m\.?)?)$/i
const CLOCK_DIGITS = /^(\d{1,2})(\d{2})$/
const DAY_FRACTION = /^0[.,]\d+$/

/** No reading is older: home meters came in the 1970s (common knowledge); an earlier year is a slip of the pen. */
export const EARLIEST_YEAR = 1970

/** Serial dates from 1954 to 2119 (common practice); other five-digit numbers are no dates. */
const SERIALS = { least: 20_000, most: 80_000 } as const

/** Reads a cell that holds a date, with or without a time. Null where it holds none. */
export function readMoment(cell: string): CellMoment | null {
  const text = plainDigits(cell.trim()).replace(SHORT_YEAR, '$120$2')
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
  if (!/\d/.test(text)) return null
  const whole = eraYear(text.replace(WEEKDAY_WITHIN, ' '), cell)
  const dated =
    readDay(whole) ??
    readDay(whole.replace(WEEKDAY_BEFORE, '')) ??
    readDay(whole.replace(WEEKDAY_AND_NAME, ''))
  if (!dated) return timeBeforeDay(whole)
  const day = withWeekday(dated.day, text)
  const rest = dated.rest.replace(BETWEEN, '').trim()
  if (rest === '' || isWeekday(rest)) return { day, time: null }
  const time = CLOCK_DIGITS.test(rest) && rest.length === 4 ? readTimeCell(rest) : readTime(rest)
  return withZone(day, time ?? 'unreadable')
}

/** The day with its weekday, where it is three numbers whose order that may tell. */
function withWeekday(day: CellDay, text: string): CellDay {
  if (day.kind !== 'numbers' || !/\p{L}{2}/u.test(text)) return day
  const weekdays = weekdaysIn(text)
  return weekdays === 0 ? day : { ...day, weekdays }
}

/** The text with a year of the Reiwa era, or of the Buddhist one in Thai digits, in the common era. */
function eraYear(text: string, cell: string): string {
  if (text.startsWith('令和'))
    return text.replace(/^令和\s?(\d{1,2})/, (_, year: string) => String(ERAS.reiwa + Number(year)))
  return THAI_DIGIT.test(cell)
    ? text.replace(/(?<!\d)25\d{2}(?!\d)/, (year) => String(Number(year) - ERAS.buddhist))
    : text
}

/** Whether what is left of a date is its weekday: letters alone. */
function isWeekday(text: string): boolean {
  return /^[,(]?\s?\p{L}{1,13}\.?\)?$/u.test(text)
}

/** Reads a cell that holds a time of day. Null where it is empty. */
export function readTimeCell(cell: string): CellTime | 'unreadable' | null {
  const text = plainDigits(cell.trim())
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
  const cjk = CJK_DAY.exec(text)
  if (cjk) return found(text, cjk, Number(cjk[1]), Number(cjk[2]), Number(cjk[3]), 'ymd')
  const counted = ordinalDay(text)
  if (counted) return counted
  const yearFirst = YEAR_FIRST.exec(text)
  if (yearFirst)
    return found(text, yearFirst, Number(yearFirst[1]), Number(yearFirst[3]), Number(yearFirst[4]), 'ymd')
  const compact = YEAR_FIRST_COMPACT.exec(text)
  if (compact) return found(text, compact, Number(compact[1]), Number(compact[2]), Number(compact[3]), 'ymd')
  const numbers = NUMBERS.exec(text)
  if (numbers) {
    if (numbers[4].length === 4 && Number(numbers[4]) < EARLIEST_YEAR)
      return { day: { kind: 'impossible' }, rest: text.slice(numbers[0].length) }
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
  const roman = ROMAN_MONTH.exec(text)
  const romanMonth = roman ? ROMAN.indexOf(roman[2].toLowerCase()) + 1 : 0
  if (roman && romanMonth > 0)
    return found(
      text,
      roman,
      fullYear(Number(roman[3]), roman[3].length),
      romanMonth,
      Number(roman[1]),
      'name',
    )
  const named =
    namedDay(text, DAY_NAME_YEAR.exec(text), 3, 2, 1) ??
    namedDay(text, NAME_DAY_YEAR.exec(text), 3, 1, 2) ??
    namedDay(text, YEAR_NAME_DAY.exec(text), 1, 2, 3)
  return named
}

/** A day counted within its year, or by week and weekday (ISO 8601-1:2019, 5.2.3 and 5.2.4). */
function ordinalDay(text: string): { day: CellDay; rest: string } | null {
  const ordinal = ORDINAL.exec(text)
  const week = ordinal ? null : WEEK_DAY.exec(text)
  const match = ordinal ?? week
  if (!match) return null
  const year = Number(match[1])
  const first = dayNumber(year, 1, 1)
  const fourth = dayNumber(year, 1, 4)
  if (first === null || fourth === null) return null
  // The first week holds 4 January; day 0 of the count, 1970-01-01, is a Thursday.
  const monday = fourth - ((((fourth + 3) % 7) + 7) % 7)
  const day = ordinal
    ? first + Number(ordinal[2]) - 1
    : monday + (Number(match[2]) - 1) * 7 + Number(match[3]) - 1
  const isReal = ordinal
    ? Number(ordinal[2]) >= 1 && Number(ordinal[2]) <= 366
    : Number(match[2]) >= 1 && Number(match[2]) <= 53
  return {
    day: isReal ? { kind: 'day', form: 'ymd', day } : { kind: 'impossible' },
    rest: text.slice(match[0].length),
  }
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
  const number = year < EARLIEST_YEAR ? null : dayNumber(year, month, day)
  return {
    day: number === null ? { kind: 'impossible' } : { kind: 'day', form, day: number },
    rest: text.slice(match[0].length),
  }
}

/** Words for the halves of the day, from the platform's locale data and common short forms. */
const MORNING =
  /(?:^|\s|(?<=\d))(?:a\.?\s?m\.?|오전|午前|上午|凌晨|早上|π\.?\s?μ\.?|öö|de\.?|fm|f\.m\.|dop\.?|ap\.?|aamup\.?|vorm\.?|vm\.?|de la mañana|da manhã|di mattina|du matin|утра|rano)(?=\s|\d|$)/iu
const AFTERNOON =
  /(?:^|\s|(?<=\d))(?:p\.?\s?m\.?|오후|午後|下午|晚上|中午|μ\.?\s?μ\.?|ös|du\.?|em|e\.m\.|odp\.?|ip\.?|iltap\.?|nachm\.?|nm\.?|de la tarde|de la noche|da tarde|da noite|di sera|de l'après-midi|du soir|вечера|дня|wieczorem)(?=\s|\d|$)/iu

/** Which half of the day a cell names by itself; noon belongs to the second, midnight to the first. */
export function halfOfDay(cell: string): 'am' | 'pm' | null {
  const text = cell.trim()
  if (text === '' || text.length > 15 || /\d/.test(text)) return null
  if (
    /^(a|midnight|mitternacht|minuit|medianoche|meia-noite|mezzanotte|middernacht)$/i.test(text) ||
    /^\s*$/.test(text.replace(MORNING, ''))
  )
    return 'am'
  if (
    /^(p|noon|midday|mittag|midi|mediodía|meio-dia|mezzogiorno|middag)$/i.test(text) ||
    /^\s*$/.test(text.replace(AFTERNOON, ''))
  )
    return 'pm'
  return null
}

/** The text with a word for half of the day written as AM or PM behind the time, hours and minutes with a colon. */
/** Letters of a zone behind a clock: the time stays as written. */
const ZONE_LETTERS = /\s(?:CES?T|MES?Z|EES?T|WES?T|BST|IST|[ECMP][SD]T)$/

function plainTime(text: string): string {
  const half = MORNING.test(text) ? 'am' : AFTERNOON.test(text) ? 'pm' : null
  const digits = text
    .replace(MORNING, ' ')
    .replace(AFTERNOON, ' ')
    .replace(/^(?:kl\.?|klo|um|at|às|alle ore|alle|ore|godz\.?|saat|klockan|klokken|ca\.?)\s*(?=\d)/iu, '')
    .replace(/\s?[時时点點]\s?(?=\d)/u, ':')
    .replace(/\s?[時时点點]\s?$/u, ':00')
    .replace(/(\d)\s?分(?:\s?(\d{1,2})\s?秒)?/u, (_, minute: string, second?: string) =>
      second ? `${minute}:${second}` : minute,
    )
    .replace(/(\d)\s?u\s?(\d{2})/i, '$1:$2')
    .replace(/^(\d{1,2})\s?(?:h|u|uhr|uur|heures?)\.?$/i, '$1:00')
    .replace(ZONE_LETTERS, '')
    .trim()
  return half === null ? digits : `${digits} ${half}`
}

const PLAIN_TIME = /^\d{1,2}:\d{2}(?::\d{2})?$/

function readTime(written: string): CellTime | 'unreadable' | null {
  const text = PLAIN_TIME.test(written) ? written : plainTime(written)
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
    if (hour > 12) return 'unreadable'
    // 12 AM is midnight and 12 PM is noon; in Japan noon is 0 PM.
    hours = (hour % 12) + (/^p/i.test(halfDay) ? 12 : 0)
  }
  // 24:00 is the end of the day; any later time does not exist.
  if (hours > 24 || (hours === 24 && (minute > 0 || second > 0))) return 'unreadable'
  return { second: hours * 3600 + minute * 60 + second, hasSeconds, offsetMinutes: null, utc }
}

function clockTime(second: number, hasSeconds: boolean): CellTime {
  return { second, hasSeconds, offsetMinutes: null, utc: false }
}
