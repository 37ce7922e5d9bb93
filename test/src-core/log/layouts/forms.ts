import type { Chance } from './chance'
import { marked, type Oddity } from './oddities'
import type { Sheet } from './sheet'
import type { Language } from './words'
import type { Reading, Unit } from './truth'
import { isoDay } from './truth'

/** A way to write a day. `order` is told where day and month are bare numbers whose order only the days can show. */
export interface DateForm {
  readonly name: string
  readonly write: (day: number) => string
  readonly order?: 'dmy' | 'mdy'
  /** A year of two digits. */
  readonly shortYear?: true
}

/** A way to write a minute of the day. */
export interface ClockForm {
  readonly name: string
  readonly write: (minute: number) => string
}

const formats = new Map<string, Intl.DateTimeFormat>()

function intl(language: Language, options: Intl.DateTimeFormatOptions, day: number): string {
  const key = `${language} ${JSON.stringify(options)}`
  const format = formats.get(key) ?? new Intl.DateTimeFormat(language, { ...options, timeZone: 'UTC' })
  formats.set(key, format)
  return format.format(day * 86_400_000)
}

export function weekdayName(language: Language, day: number, length: 'short' | 'long'): string {
  return intl(language, { weekday: length }, day)
}

const DOTS: readonly Language[] = ['de', 'da', 'nb', 'fi', 'pl', 'cs', 'tr', 'ru']
const SLASHES: readonly Language[] = ['fr', 'es', 'pt', 'it', 'el', 'en']

/** A date form that people of the language use, at times with the weekday before it. */
export function pickDateForm(chance: Chance, language: Language, oddities: ReadonlySet<Oddity>): DateForm {
  if (oddities.has('serial')) return { name: 'serial', write: (day) => String(day + SERIAL_OF_1970) }
  if (oddities.has('offset')) return { name: 'iso', write: isoDay }
  if (oddities.has('yearless')) return pickYearlessForm(chance, language)
  const form = pickPlainForm(chance, language)
  if (!chance.odds(0.05)) return form
  const write = (day: number): string => `${weekdayName(language, day, 'short')} ${form.write(day)}`
  return { ...form, name: `weekday ${form.name}`, write }
}

/** The day on which a spreadsheet's count stands at 1970-01-01: its day 1 is 1900-01-01, and 1900 a leap year there. */
export const SERIAL_OF_1970 = 25_569

/** Day and month alone. */
function pickYearlessForm(chance: Chance, language: Language): DateForm {
  const numbers = (day: number): readonly [month: number, date: number] => {
    const [, month, date] = isoDay(day).split('-').map(Number)
    return [month, date]
  }
  return chance.pick<DateForm>([
    { name: 'yearless d.m.', write: (day) => `${numbers(day)[1]}.${numbers(day)[0]}.` },
    { name: 'yearless m/d', write: (day) => `${numbers(day)[0]}/${numbers(day)[1]}` },
    { name: 'yearless d/m', write: (day) => `${two(numbers(day)[1])}/${two(numbers(day)[0])}` },
    { name: 'yearless words', write: (day) => intl(language, { day: 'numeric', month: 'long' }, day) },
    { name: 'yearless d-mon', write: (day) => `${numbers(day)[1]}-${intl('en', { month: 'short' }, day)}` },
  ])
}

function pickPlainForm(chance: Chance, language: Language): DateForm {
  const padded = chance.odds(0.6)
  const shortYear = chance.odds(0.12)
  const parts = (day: number) => {
    const [year, month, date] = isoDay(day).split('-')
    const bare = (text: string): string => (padded ? text : String(Number(text)))
    return { year: shortYear ? year.slice(2) : year, month: bare(month), date: bare(date) }
  }
  const dmy = (mark: string, order?: 'dmy'): DateForm => ({
    name: `d${mark}m${mark}y`,
    write: (day) => {
      const { year, month, date } = parts(day)
      return [date, month, year].join(mark)
    },
    ...(order && { order }),
    ...(shortYear && { shortYear: true }),
  })
  const mdy: DateForm = {
    name: 'm/d/y',
    write: (day) => {
      const { year, month, date } = parts(day)
      return [month, date, year].join('/')
    },
    order: 'mdy',
    ...(shortYear && { shortYear: true }),
  }
  const iso: DateForm = { name: 'iso', write: isoDay }
  const ymdSlash: DateForm = { name: 'y/m/d', write: (day) => isoDay(day).replaceAll('-', '/') }
  const packed: DateForm = { name: 'yyyymmdd', write: (day) => isoDay(day).replaceAll('-', '') }
  const words = (dateStyle: 'long' | 'medium'): DateForm => ({
    name: `words-${dateStyle}`,
    write: (day) => intl(language, { dateStyle }, day),
  })
  const englishWords: DateForm = {
    name: 'd-mon-y',
    write: (day) => {
      const month = intl('en', { month: 'short' }, day)
      return `${isoDay(day).slice(8)}-${month}-${isoDay(day).slice(0, 4)}`
    },
  }
  const own: DateForm =
    language === 'en'
      ? chance.pick([mdy, mdy, dmy('/', 'dmy'), englishWords])
      : DOTS.includes(language)
        ? dmy('.')
        : SLASHES.includes(language)
          ? dmy('/', 'dmy')
          : language === 'nl'
            ? dmy('-', 'dmy')
            : language === 'hu'
              ? { name: 'y. m. d.', write: (day) => `${isoDay(day).replaceAll('-', '. ')}.` }
              : language === 'sv'
                ? iso
                : ymdSlash
  return chance.weighed([
    [own, 6],
    [iso, 4],
    [words('long'), 1],
    [words('medium'), 1],
    [packed, 0.3],
  ])
}

/**
 * Whether the days written tell the order of day and month: with numbers alone a day above 12 must be among them; with
 * a year of two digits there must be several days, else the year may be the day.
 */
export function daysTellOrder({ order, shortYear }: DateForm, days: readonly number[]): boolean {
  const dates = days.map((day) => Number(isoDay(day).slice(8)))
  if (order !== undefined && !dates.some((date) => date > 12)) return false
  return shortYear === undefined || new Set(dates).size >= 3
}

/** Words for the halves of the day, by language; and whether noon and midnight are 0 or 12. */
const HALVES: Partial<Record<Language, readonly [am: string, pm: string]>> = {
  en: ['AM', 'PM'],
  es: ['a. m.', 'p. m.'],
  el: ['π.μ.', 'μ.μ.'],
  ja: ['午前', '午後'],
  zh: ['上午', '下午'],
}
const HALF_FIRST: readonly Language[] = ['ja', 'zh']

export function halfOfDay(minute: number): 'AM' | 'PM' {
  return minute < 720 ? 'AM' : 'PM'
}

const two = (n: number): string => String(n).padStart(2, '0')

/** Hour and minute on a dial of twelve hours. */
export function twelveHours(minute: number, noonAs = 12): string {
  return `${Math.floor(minute / 60) % 12 || noonAs}:${two(minute % 60)}`
}

/** A clock form that people of the language use. */
export function pickClockForm(chance: Chance, language: Language, oddities: ReadonlySet<Oddity>): ClockForm {
  const join =
    (mark: string, padded: boolean, tail = '') =>
    (minute: number): string => {
      const hour = Math.floor(minute / 60)
      return `${padded ? two(hour) : hour}${mark}${two(minute % 60)}${tail}`
    }
  const padded = { name: 'HH:MM', write: join(':', true) }
  if (oddities.has('serial') || oddities.has('offset')) return padded
  if (oddities.has('compact clock')) return { name: 'HHMM', write: join('', true) }
  const seconds = chance.odds(0.5) ? ':00' : `:${two(chance.between(1, 59))}`
  const forms: [ClockForm, number][] = [
    [padded, 5],
    [{ name: 'H:MM', write: join(':', false) }, 1.5],
    [{ name: 'HH:MM:SS', write: join(':', true, seconds) }, 1],
  ]
  if (['it', 'fi', 'da', 'nb', 'pl', 'de'].includes(language)) {
    forms.push([{ name: 'H.MM', write: join('.', chance.odds(0.5)) }, 1])
  }
  if (['fr', 'pt'].includes(language)) forms.push([{ name: 'HhMM', write: join('h', true) }, 1])
  if (language === 'de') forms.push([{ name: 'HH:MM Uhr', write: join(':', true, ' Uhr') }, 0.7])
  const halves = HALVES[language]
  if (halves !== undefined) {
    const lower = language === 'en' && chance.odds(0.4)
    const glued = chance.odds(0.3) ? '' : ' '
    forms.push([
      {
        name: 'halves',
        write: (minute) => {
          const half = halves[minute < 720 ? 0 : 1]
          if (HALF_FIRST.includes(language)) return half + twelveHours(minute, minute < 720 ? 0 : language === 'ja' ? 0 : 12)
          return `${twelveHours(minute)}${glued}${lower ? half.toLowerCase() : half}`
        },
      },
      language === 'en' ? 3 : 1,
    ]) // prettier-ignore
  }
  return chance.weighed(forms)
}

/** A spelling of the unit that people of the language use. */
export function pickUnitText(chance: Chance, language: Language, unit: Unit): string {
  if (unit === 'mg/dL') {
    if (language === 'ru' && chance.odds(0.5)) return 'мг/дл'
    return chance.weighed([['mg/dL', 5], ['mg/dl', 3], ['MG/DL', 0.5], ['mg / dL', 0.3]] as const) // prettier-ignore
  }
  if (language === 'ru' && chance.odds(0.6)) return 'ммоль/л'
  if (language === 'zh' && chance.odds(0.2)) return '毫摩尔/升'
  return chance.weighed([['mmol/L', 5], ['mmol/l', 4], ['MMOL/L', 0.3], ['mmol / L', 0.2]] as const) // prettier-ignore
}

/** A number with the decimal mark of the file. */
export function numberText(value: number, digits: number, decimal: '.' | ','): string {
  return value.toFixed(digits).replace('.', decimal)
}

export function valueText({ value, limit, unit }: Reading, sheet: Sheet): string {
  const { decimal, oddities, chance } = sheet
  if (limit !== '') {
    if (!oddities.has('limits with signs')) return limit === 'above' ? 'HI' : 'LO'
    const [low, high] =
      unit === 'mg/dL' ? ['20', '600'] : [numberText(1.1, 1, decimal), numberText(33.3, 1, decimal)]
    return limit === 'above' ? `>${high}` : `<${low}`
  }
  const text =
    oddities.has('g/L') && unit === 'mg/dL'
      ? numberText(value / 100, 2, decimal)
      : numberText(value, unit === 'mg/dL' ? 0 : 1, decimal)
  return oddities.has('marks') ? marked(chance, text) : text
}
