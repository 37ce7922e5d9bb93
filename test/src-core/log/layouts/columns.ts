import {
  halfOfDay,
  numberText,
  pickUnitText,
  SERIAL_OF_1970,
  twelveHours,
  valueText,
  weekdayName,
} from './forms'
import { dayText, header, headerText, type Sheet } from './sheet'
import { inventValue, LAST_DAY, type Reading, type Truth, truthOf } from './truth'

/** A row that is about to be written: a reading, or an event at its time without one. */
export interface Row {
  readonly reading: Reading
  readonly index: number
  /** No glucose in this row: something else happened. */
  readonly event: boolean
}

export interface Column {
  readonly role: string
  readonly header: string
  readonly unit?: string
  readonly cell: (row: Row) => string
}

/** The columns that say when, and what of the moment they tell. */
export interface MomentColumns {
  readonly columns: readonly Column[]
  readonly timed: boolean
}

const MEALS_AT = [300, 440, 570, 690, 800, 1020, 1140, 1290, 1440]

/** The moment of the day in which a minute lies, as an index of the nine slots. */
export function slotOf(minute: number): number {
  const slot = MEALS_AT.findIndex((until) => minute < until)
  return slot === 0 ? 8 : slot - 1
}

const MOMENT_FORMS = ['one', 'apart', 'pieces', 'halves-apart', 'midnight', 'day-only', 'words'] as const
export const TIMED_FORMS = MOMENT_FORMS.slice(0, 5)

export function momentColumns(
  sheet: Sheet,
  forms: readonly (typeof MOMENT_FORMS)[number][] = MOMENT_FORMS,
): MomentColumns {
  const { chance, words, clock, language } = sheet
  const weights = {
    one: 4,
    apart: 6,
    pieces: 0.5,
    'halves-apart': language === 'en' ? 0.8 : 0.1,
    midnight: 0.6,
    'day-only': 0.7,
    words: 0.4,
  }
  const form = chance.weighed(forms.map((name) => [name, weights[name]] as const))
  sheet.features.add(`moment ${form}`)
  const write = (day: number): string => dayText(sheet, day)
  if (sheet.oddities.has('serial') && form !== 'day-only') {
    const serial = ({ day, minute }: Reading): string => {
      dayText(sheet, day)
      return numberText(day + SERIAL_OF_1970 + minute / 1440, 6, sheet.decimal)
    }
    const moment: Column = {
      role: 'moment',
      header: header(sheet, words.moment),
      cell: ({ reading }) => serial(reading),
    }
    return { columns: [moment], timed: true }
  }
  if (sheet.oddities.has('offset') && form !== 'day-only') {
    const zone = chance.pick(['+01:00', '+02:00', '-05:00', '+0200'])
    const cell = ({ reading }: Row): string =>
      `${write(reading.day)}T${clock.write(reading.minute)}:00${zone}`
    return { columns: [{ role: 'moment', header: header(sheet, words.moment), cell }], timed: true }
  }
  const date: Column = {
    role: 'date',
    header: header(sheet, words.date),
    cell: ({ reading }) => write(reading.day),
  }
  const column = (role: string, names: string, text: (minute: number) => string): Column => ({
    role,
    header: header(sheet, names),
    cell: ({ reading }) => text(reading.minute),
  })
  const time = column('time', words.time, clock.write)
  const timed = (columns: readonly Column[]): MomentColumns => ({ columns, timed: true })
  if (form === 'apart') return timed([date, time])
  if (form === 'one') {
    const mark = sheet.date.name === 'iso' && chance.odds(0.4) && /^HH:MM(:SS)?$/.test(clock.name) ? 'T' : ' '
    return timed([
      {
        role: 'moment',
        header: header(sheet, words.moment),
        cell: ({ reading }) => `${write(reading.day)}${mark}${clock.write(reading.minute)}`,
      },
    ])
  }
  if (form === 'pieces') {
    return timed([
      date,
      column('hour', words.hour, (minute) => String(Math.floor(minute / 60))),
      column('minute', words.minute, (minute) => String(minute % 60)),
    ])
  }
  if (form === 'halves-apart') {
    return timed([
      date,
      column('time', words.time, (minute) => twelveHours(minute)),
      { role: 'half', header: 'AM/PM', cell: ({ reading }) => halfOfDay(reading.minute) },
    ])
  }
  if (form === 'midnight') {
    const midnight = chance.pick([' 00:00', ' 0:00', ' 00:00:00'])
    return timed([{ ...date, cell: ({ reading }) => write(reading.day) + midnight }, time])
  }
  if (form === 'words') {
    const names = words.timesOfDay.split('|')
    const name = (minute: number): string => names[minute < 330 ? 3 : minute < 660 ? 0 : minute < 960 ? 1 : 2]
    return { columns: [date, column('time', words.time, name)], timed: false }
  }
  return { columns: [date], timed: false }
}

/** Where a file says its unit. */
export type UnitPlace = 'header' | 'column' | 'cell' | 'title' | 'units-row' | 'nowhere'

export function pickUnitPlace(
  { chance, features, oddities }: Sheet,
  places: readonly UnitPlace[],
): UnitPlace {
  const weights = { header: 6, column: 3, cell: 1.5, title: 1, 'units-row': 1, nowhere: 1.5 }
  const told = oddities.has('g/L') ? places.filter((at) => at !== 'nowhere') : places
  const place = chance.weighed(told.map((at) => [at, weights[at]] as const))
  features.add(`unit ${place}`)
  return place
}

/** The glucose column, and the unit column where there is one. */
export function valueColumns(sheet: Sheet, place: UnitPlace): readonly Column[] {
  const { chance, words, unit, unitText } = sheet
  const generic = chance.odds(0.12)
  const inHeader = place === 'header' ? unitText : ''
  const name = inHeader !== '' && chance.odds(0.03) ? headerText(sheet, unitText) : header(sheet, generic ? words.value : words.glucose, inHeader)
  if (generic && (place === 'nowhere' || place === 'units-row')) sheet.mayAsk.add('columns')
  const flags = place !== 'cell' && chance.odds(0.04)
  if (flags) sheet.features.add('flags')
  const textOf = (reading: Reading): string => {
    const text = valueText(reading, sheet) + (flags ? flagOf(sheet, reading) : '')
    return place === 'cell' && reading.limit === '' ? `${text}${glue}${unitText}` : text
  }
  const glue = chance.odds(0.7) ? ' ' : ''
  const value: Column = {
    role: 'glucose',
    header: name,
    unit: unitText,
    cell: ({ reading, event }) => (event ? '' : textOf(reading)),
  }
  if (place !== 'column') return [value]
  const texts = { [unit]: unitText }
  const unitColumn: Column = {
    role: 'unit',
    header: header(sheet, words.unit),
    cell: ({ reading, event }) =>
      event ? '' : (texts[reading.unit] ??= pickUnitText(chance, sheet.language, reading.unit)),
  }
  return [value, unitColumn]
} // prettier-ignore

/** A mark that a meter or a person sets behind a value. */
function flagOf({ chance }: Sheet, { value, limit, unit }: Reading): string {
  if (limit !== '') return ''
  if (chance.odds(0.15)) return '*'
  const mgDl = unit === 'mg/dL' ? value : value * 18
  return mgDl > 190 ? ' H' : mgDl < 68 ? ' L' : ''
}

/** Whether values alone tell the unit: all at most 33 and some below 20, or some above 33 and none below 20. */
export function valuesTellUnit(readings: readonly { value: number; limit: string; unit: string }[]): boolean {
  const values = readings.filter(({ limit }) => limit === '').map(({ value }) => value)
  const low = Math.min(...values)
  const high = Math.max(...values)
  return values.length > 0 && (high > 33 ? low >= 20 : low < 20)
}

/** What may stand in a note of any log, beside the words of its language. */
const NASTY_NOTES = [
  '250 ml', 'sugar', 'bed time', 'Zucker', '12.03.', 'at 7:30', '5.6 yesterday', '180', '2026-01-05', 'mg/dL', '"new" strips',
  'weight 82 kg', 'BP 130/80', '3 U', '45 g', 'pulse 72', '?', '-', '100 %', 'unit', 'time', 'date', 'A1C 7.1', '½ apple', '(late)',
] // prettier-ignore

export function noteText({ chance, words }: Sheet, filled = 0.35): string {
  if (!chance.odds(filled)) return ''
  if (chance.odds(0.03)) return `${chance.word(words.notes)}\n${chance.pick(NASTY_NOTES)}`
  return chance.odds(0.4) ? chance.pick(NASTY_NOTES) : chance.word(words.notes)
}

export const SERIALS = ['QX-40417', 'MT7302881', '55120934', 'K-9921-B', 'ZR000731']

/** Columns that are no glucose, each under a word of the language. */
export function extraColumns(sheet: Sheet, count: number, firstDay: number): Column[] {
  const { chance, words, decimal } = sheet
  const filled = (share: number, text: () => string) => (): string => (chance.odds(share) ? text() : '')
  const units = chance.odds(0.5)
  const number = (role: string, names: string, unit: string, cell: () => string): Column => ({
    role,
    header: header(sheet, names, units ? unit : ''),
    unit,
    cell,
  })
  const decimals = (low: number, high: number) => (): string =>
    numberText(chance.between(low * 10, high * 10) / 10, 1, decimal)
  const whole = (low: number, high: number) => (): string => String(chance.between(low, high))
  const plain = (role: string, names: string, cell: Column['cell']): Column => ({
    role,
    header: header(sheet, names),
    cell,
  })
  const weight = chance.between(55, 110)
  const serial = chance.pick(SERIALS)
  const lot = `L${chance.between(10_000, 99_999)}`
  const born = chance.between(-14_000, 9_000)
  const uploaded = Math.min(LAST_DAY + 1, firstDay + chance.between(90, 200))
  const start = chance.odds(0.6) ? 1 : chance.between(100, 90_000)
  const goal = sheet.unit === 'mg/dL' ? whole(100, 140)() : decimals(5, 8)()
  const mood = chance.pick([
    ['1', '2', '3', '4', '5'],
    [':)', ':(', ''],
    ['ok', 'good', 'tired', ''],
  ])
  const slots = words.slots.split('|')
  const makers: readonly [() => Column, number][] = [
    [() => plain('note', words.note, () => noteText(sheet)), 5],
    [() => plain('meal', words.meal, ({ reading }) => slots[slotOf(reading.minute)]), 2],
    [() => number('weight', words.weight, 'kg', filled(chance.pick([0.2, 1]), decimals(weight - 1, weight + 1))), 1.5],
    [() => number('pulse', words.pulse, '/min', filled(chance.pick([0.4, 1]), whole(55, 105))), 1.5],
    [() => number('insulin', words.insulin, 'U', filled(0.4, whole(2, 24))), 2],
    [() => number('carbs', words.carbs, 'g', filled(0.4, whole(8, 95))), 2],
    [() => number('ketones', words.ketones, 'mmol/L', filled(0.3, decimals(0.1, 1.6))), 1],
    [() => number('potassium', words.potassium, 'mmol/L', filled(0.2, decimals(3.5, 5.3))), 0.7],
    [() => number('systolic', words.systolic, 'mmHg', filled(0.6, whole(105, 165))), 0.7],
    [() => plain('goal', words.goal, () => goal), 0.7],
    [() => plain('number', words.number, ({ index }) => String(start + index)), 2],
    [() => plain('serial', words.serial, () => serial), 1.5],
    [() => plain('lot', words.lot, () => lot), 1],
    [() => plain('birth', words.birth, () => sheet.date.write(born)), 0.7],
    [() => plain('upload', words.upload, () => sheet.date.write(uploaded)), 1],
    [() => plain('mood', words.mood, () => chance.pick(mood)), 0.8],
    [() => plain('weekday', words.weekday, ({ reading }) => weekdayName(sheet.language, reading.day, 'short')), 0.8],
    [() => number('mean', words.dailyMean, sheet.unitText, () => numberText(inventValue(chance, sheet.unit), sheet.unit === 'mg/dL' ? 0 : 1, decimal)), 0.5],
  ] // prettier-ignore
  const left = [...makers]
  const columns: Column[] = []
  while (columns.length < count && left.length > 0) {
    const maker = chance.weighed(left.map((entry) => [entry, entry[1]] as const))
    left.splice(left.indexOf(maker), 1)
    const column = maker[0]()
    sheet.features.add(`column ${column.role}`)
    columns.push(column)
  }
  return columns
}

/** The truth of a row, if it holds one. */
export function truthsOf({ reading, event }: Row, timed: boolean): readonly Truth[] {
  return event ? [] : [truthOf(reading, timed)]
}
