import { dayNumber } from '../units/wallClock'
import { serialToWallSeconds } from '../units/timeZone'
import { conceptsOf } from './words/concepts'
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
      /** '11/05-2026', as it is written in Scandinavia: the day first, where nothing else tells. */
      readonly dayFirst?: true
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
  /** Set where a word for a part of the day stands in place of the time. */
  readonly inWords?: true
}

const YEAR_FIRST = /^(\d{4})\s?([-/.])\s?(\d{1,2})\s?\2\s?(\d{1,2})(?!\d)\.?/
/** 2026-061 and 2026-W10-1 of ISO 8601. */
const ORDINAL = /^(\d{4})-(\d{3})(?!\d)/
const WEEK_DAY = /^(\d{4})-?W(\d{2})-?([1-7])(?!\d)/i
const CJK_DAY = /^(\d{4})\s?[年년]\s?(\d{1,2})\s?[月월]\s?(\d{1,2})\s?[日일]/
const YEAR_FIRST_COMPACT = /^((?:19|20)\d{2})(\d{2})(\d{2})(?!\d)/
/** A year of two digits is no hour: '6.5. 17:12'. */
const NUMBERS = /^(\d{1,2})\s?([-/. ])\s?(\d{1,2})\s?\2\s?(\d{4}|\d{2}(?![:h]\d))(?!\d)\.?/
const DAY_MONTH_THEN_YEAR = /^(\d{1,2})\/(\d{1,2})\s?-\s?(\d{4}|\d{2}(?![:h]\d))(?!\d)/
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
const YEAR_ROMAN_DAY = /^(\d{4})[. /-]+([ivx]{1,4})[. /-]+(\d{1,2})(?!\d)\.?/i
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
  /^(\d{1,2})(?:[:.h]| h )(\d{2}|0)(?:[:.m](\d{2})(?:[.,]\d+)?)?\s?(?:s|min|uhr|uur|h)?\s*([ap]\.?(?:\s?m\.?)?)?\s*(z|utc|gmt|(?:utc|gmt)?[+-]\d{2}(?::?\d{2})?)?$/i
const CLOCK_12_HOURS = /^(\d{1,2})\s?([ap]\.?(?:\s?m\.?)?)$/i
const CLOCK_DIGITS = /^(\d{1,2})(\d{2})$/
/** '0728h'. */
const HOURS_BEHIND = /(?<=^\d{3,4})\s?(?:h|hrs?|hours)\.?$/i
/** '7 h 06 min', '7 óra 6 perc', '7 Uhr'. */
const CLOCK_IN_WORDS = /^(\d{1,2})\s?(\p{L}{1,8})\.?(?:\s?(\d{1,2})\s?(\p{L}{1,9})?\.?)?$/u
/** What spreadsheets and databases write before a time that has no day: the first days of their counts, or no days. */
export const NO_DAY =
  /^(?:(?:30|31)[./-]12[./-]1899|12\/(?:30|31)\/1899|1899-12-3[01]|0?[01][./-]0?1[./-](?:1900|1904|0001)|(?:1900|1904|0001)-01-0[01]|0 days?)(?:T|,?\s+)(?=\d)/i
/** 'PT7H10M': a time as a stretch since midnight (ISO 8601-1:2019, 5.5.2). */
const SINCE_MIDNIGHT = /^P(?:0D)?T(\d{1,2})H(?:(\d{1,2})M)?(?:(\d{1,2})(?:[.,]\d+)?S)?$/i
const DAY_FRACTION = /^0[.,]\d+$/

/** No reading is older: home meters came in the 1970s (common knowledge); an earlier year is a slip of the pen. */
export const EARLIEST_YEAR = 1970

/** Serial dates from 1954 to 2119 (common practice); other five-digit numbers are no dates. */
const SERIALS = { least: 20_000, most: 80_000 } as const

/** The text without the name of a zone in brackets behind its offset: 'GMT+0200 (Central European Summer Time)'. */
export function withoutZoneName(text: string): string {
  return text.endsWith(')') ? text.replace(ZONE_NAME, '') : text
}
const ZONE_NAME = /(?<=[+-]\d{2}:?\d{2})\s?\([^()]{1,60}\)$/

/** Reads a cell that holds a date, with or without a time. Null where it holds none. */
export function readMoment(cell: string): CellMoment | null {
  const text = withoutZoneName(plainDigits(cell.trim())).replace(SHORT_YEAR, '$120$2')
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
  const digits = CLOCK_DIGITS.exec(text.replace(HOURS_BEHIND, ''))
  if (digits) return checkedTime(Number(digits[1]), Number(digits[2]), 0, false, null, false)
  const since = SINCE_MIDNIGHT.exec(text)
  if (since) {
    const [hour, minute, second] = since.slice(1).map((part) => Number((part as string | undefined) ?? 0))
    return checkedTime(hour, minute, second, since[3] !== undefined, null, false)
  }
  return readTime(text.replace(NO_DAY, '')) ?? twelveIn(text) ?? 'unreadable'
}

/** Whether a word, as `plain` gives it, is one for midnight. */
export function isMidnightWord(word: string): boolean {
  return MIDNIGHT.has(word)
}

/** Noon or midnight where a text is a plain word for it, alone or behind a 12; null for any other. */
function twelveIn(text: string): CellTime | null {
  const word = plain(text.replace(/^12(?:[:.]00)?\s/, ''))
  return NOON.has(word) ? clockTime(43_200, false) : MIDNIGHT.has(word) ? clockTime(0, false) : null
}
// Words that may mean the meal or the hours about it ('Mittag', 'middag', '中午') tell no time.
const NOON: ReadonlySet<string> = new Set(
  'noon|midday|mid day|midi|mediodia|meio dia|mezzogiorno|keskipaiva|poludnie|poledne|del|полдень|正午'.split(
    '|',
  ),
)
const MIDNIGHT: ReadonlySet<string> = new Set(
  'midnight|mitternacht|minuit|medianoche|meia noite|mezzanotte|middernacht|midnat|midnatt|keskiyo|polnoc|pulnoc|ejfel|gece yarisi|μεσανυχτα|полночь|午夜'.split(
    '|',
  ),
)

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
  if (numbers) return threeNumbers(text, numbers[0], numbers[1], numbers[3], numbers[4])
  const dayFirst = DAY_MONTH_THEN_YEAR.exec(text)
  if (dayFirst) return threeNumbers(text, dayFirst[0], dayFirst[1], dayFirst[2], dayFirst[3], true)
  const roman =
    romanDay(text, ROMAN_MONTH.exec(text), 3, 1) ?? romanDay(text, YEAR_ROMAN_DAY.exec(text), 1, 3)
  if (roman) return roman
  const named =
    namedDay(text, DAY_NAME_YEAR.exec(text), 3, 2, 1) ??
    namedDay(text, NAME_DAY_YEAR.exec(text), 3, 1, 2) ??
    namedDay(text, YEAR_NAME_DAY.exec(text), 1, 2, 3)
  return named
}

function threeNumbers(
  text: string,
  read: string,
  a: string,
  b: string,
  c: string,
  dayFirst?: true,
): { day: CellDay; rest: string } {
  const fourDigitYear = c.length === 4
  const day: CellDay =
    fourDigitYear && Number(c) < EARLIEST_YEAR
      ? { kind: 'impossible' }
      : {
          kind: 'numbers',
          a: Number(a),
          b: Number(b),
          c: Number(c),
          fourDigitYear,
          ...(dayFirst && { dayFirst }),
        }
  return { day, rest: text.slice(read.length) }
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

function romanDay(
  text: string,
  match: RegExpExecArray | null,
  year: number,
  day: number,
): { day: CellDay; rest: string } | null {
  const month = match === null ? 0 : ROMAN.indexOf(match[2].toLowerCase()) + 1
  if (match === null || month === 0) return null
  return found(
    text,
    match,
    fullYear(Number(match[year]), match[year].length),
    month,
    Number(match[day]),
    'name',
  )
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

/** Letters of a zone behind a clock: the time stays as written. */
const ZONE_LETTERS = /\s(?:CES?T|MES?Z|EES?T|WES?T|BST|IST|[ECMP][SD]T)$/

/** The text with a word for half of the day written as AM or PM behind the time, hours and minutes with a colon. */
function plainTime(text: string): string {
  const half = MORNING.test(text) ? 'am' : AFTERNOON.test(text) ? 'pm' : null
  const digits = text
    .replace(MORNING, ' ')
    .replace(AFTERNOON, ' ')
    .replace(/^(?:kl\.?|klo|um|at|às|alle ore|alle|ore|godz\.?|saat|klockan|klokken|ca\.?)\s*(?=\d)/iu, '')
    .replace(/\s?[時时点點시]\s?(?=\d)/u, ':')
    .replace(/\s?[時时点點시]\s?$/u, ':00')
    .replace(/(\d{1,2})\s?[分분](?:\s?(\d{1,2})\s?秒)?/u, (_, minute: string, second?: string) =>
      [minute, ...(second ? [second] : [])].map((part) => part.padStart(2, '0')).join(':'),
    )
    .replace(/(\d)\s?u\s?(\d{2})/i, '$1:$2')
    .replace(/^(\d{1,2})\s?u\.?$/i, '$1:00')
    .replace(ZONE_LETTERS, '')
    .trim()
  const clock = clockOfWords(digits)
  return half === null ? clock : `${clock} ${half}`
}

/** Hours and minutes with a colon where a word for them stands behind each, in any of the lexicon's languages. */
function clockOfWords(text: string): string {
  const match = CLOCK_IN_WORDS.exec(text) as (string | undefined)[] | null
  if (match === null || !conceptsOf(match[2] ?? '').has('hour')) return text
  if (match[4] !== undefined && !conceptsOf(match[4]).has('minute')) return text
  return `${match[1] ?? ''}:${(match[3] ?? '').padStart(2, '0')}`
}

const PLAIN_TIME = /^\d{1,2}:\d{2}(?::\d{2})?$/

function readTime(written: string): CellTime | 'unreadable' | null {
  const text = PLAIN_TIME.test(written) ? written : plainTime(written)
  const hourOnly = CLOCK_12_HOURS.exec(text)
  if (hourOnly) return checkedTime(Number(hourOnly[1]), 0, 0, false, hourOnly[2], false)
  const match = CLOCK.exec(text)
  if (!match) return null
  const zone = match[5] as string | undefined
  const shift = zone?.replace(/^(?:utc|gmt)(?=[+-])/i, '')
  const utc = shift !== undefined && /^[a-z]/i.test(shift)
  const time = checkedTime(
    Number(match[1]),
    Number(match[2]),
    Number((match[3] as string | undefined) ?? 0),
    (match[3] as string | undefined) !== undefined,
    match[4] ?? null,
    utc,
  )
  if (time === 'unreadable' || shift === undefined || utc) return time
  const offset =
    (shift.startsWith('-') ? -1 : 1) *
    (Number(shift.slice(1, 3)) * 60 + Number(shift.slice(3).replace(':', '') || 0))
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
