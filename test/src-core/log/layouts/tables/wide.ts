import { noteText, pickUnitPlace, slotOf, valuesTellUnit } from '../columns'
import { numberText, valueText, weekdayName } from '../forms'
import { dayText, header, headerText, type Line, type Sheet, withUnit } from '../sheet'
import { inventMoments, inventReadings, inventValue, type Reading, type Truth, truthOf } from '../truth'
import { meanText } from './rows'
import type { Table } from './table'

interface WideColumn {
  readonly head: string
  readonly cell: (day: number) => string
  readonly truth?: (day: number) => Truth | undefined
}

/** The days of a table a row each, oldest or newest first. */
function dayLines(sheet: Sheet, days: readonly number[], columns: readonly WideColumn[]): Line[] {
  const order = sheet.chance.odds(0.75) ? days : [...days].reverse()
  return order.map((day) => ({
    cells: columns.map(({ cell }) => cell(day)),
    truths: columns.flatMap(({ truth }) => truth?.(day) ?? []),
  }))
}

function front(sheet: Sheet, inCorner = ''): WideColumn[] {
  const { chance, words, language } = sheet
  const corner = inCorner === '' ? header(sheet, words.date) : `${header(sheet, words.date)} (${inCorner})`
  const date: WideColumn = { head: corner, cell: (day) => dayText(sheet, day) }
  const weekday: WideColumn = {
    head: header(sheet, words.weekday),
    cell: (day) => weekdayName(language, day, 'short'),
  }
  return chance.odds(0.2) ? (chance.odds(0.5) ? [weekday, date] : [date, weekday]) : [date]
}

/** Other quantities at the right of a day: weight, a note, the day's mean. */
function back(sheet: Sheet): WideColumn[] {
  const { chance, words, decimal, features } = sheet
  const columns: WideColumn[] = []
  const add = (role: string, head: string, cell: () => string): void => {
    features.add(`column ${role}`)
    columns.push({ head, cell })
  }
  if (chance.odds(0.2)) {
    add('weight', header(sheet, words.weight, chance.odds(0.5) ? 'kg' : ''), () => numberText(chance.between(780, 810) / 10, 1, decimal))
  }
  if (chance.odds(0.2)) add('mean', header(sheet, chance.odds(0.5) ? words.mean : words.dailyMean), () => meanText(sheet))
  if (chance.odds(0.3)) add('note', header(sheet, words.note), () => noteText(sheet))
  return columns
} // prettier-ignore

function readingColumn(
  sheet: Sheet,
  head: string,
  find: (day: number) => Reading | undefined,
  timed: boolean,
  missed: string,
  tail: string,
): WideColumn {
  return {
    head,
    cell: (day) => {
      const reading = find(day)
      return reading === undefined ? missed : valueText(reading, sheet) + (reading.limit === '' ? tail : '')
    },
    truth: (day) => {
      const reading = find(day)
      return reading && truthOf(reading, timed)
    },
  }
}

/** How a wide table says glucose and its unit: in each header, in the corner, in the cells, in a title, or not at all. */
function said(sheet: Sheet): {
  head: (name: string) => string
  corner: string
  tail: string
  unitInTitle: boolean
  glucoseInTitle: boolean
} {
  const { chance, words, unitText, mayAsk } = sheet
  const place = pickUnitPlace(sheet, ['header', 'title', 'cell', 'nowhere'])
  const corner = place === 'header' && chance.odds(0.3)
  const glucoseInHeader = !corner && chance.odds(0.4)
  const glucoseInTitle = !glucoseInHeader && chance.odds(0.8)
  // A unit of glucose without the word leaves little doubt, plain numbers under meals leave some.
  if (!glucoseInHeader && !glucoseInTitle) mayAsk.add('columns')
  const glucose = chance.word(words.glucose)
  const joint = chance.pick([' ', ' - ', ': '])
  return {
    head: (name) => {
      const full = !glucoseInHeader ? name : chance.odds(0.5) ? `${glucose}${joint}${name}` : `${name} ${glucose}`
      return headerText(sheet, place === 'header' && !corner ? withUnit(sheet, full, unitText) : full)
    },
    corner: corner ? unitText : '',
    tail: place === 'cell' ? ` ${unitText}` : '',
    unitInTitle: place === 'title',
    glucoseInTitle,
  }
} // prettier-ignore

/** A row a day, a column for each meal. */
export function mealsTable(sheet: Sheet): Table {
  const { chance, words } = sheet
  const all = words.slots.split('|')
  const four = chance.odds(0.3)
  const names = four ? words.meals.split('|') : all
  const fourOf = [0, 0, 0, 1, 1, 2, 2, 3, 3]
  const kept = four
    ? [0, 1, 2, 3]
    : chance
        .some(all.map((_, i) => i), chance.between(3, 7))
        .sort((a, b) => a - b)
  const cells = new Map<string, Reading>()
  for (const reading of inventReadings(chance, sheet.unit)) {
    const slot = four ? fourOf[slotOf(reading.minute)] : slotOf(reading.minute)
    if (kept.includes(slot)) cells.set(`${reading.day} ${slot}`, reading)
  }
  if (cells.size < 3) return mealsTable(sheet)
  const readings = [...cells.values()]
  const say = said(sheet)
  const missed = chance.pick(['', '', '', '-', '--'])
  const insulin = chance.odds(0.2)
  if (insulin) sheet.features.add('doses between')
  const dose = chance.word(words.insulin)
  const columns = [
    ...front(sheet, say.corner),
    ...kept.flatMap((slot) => [
      readingColumn(sheet, say.head(names[slot]), (day) => cells.get(`${day} ${slot}`), false, missed, say.tail),
      ...(insulin
        ? [{ head: headerText(sheet, `${dose} ${names[slot]}`), cell: () => (chance.odds(0.6) ? String(chance.between(2, 18)) : '') }]
        : []),
    ]),
    ...back(sheet),
  ]
  return finished(sheet, columns, readings, say)
} // prettier-ignore

/** A row a meal, a column before it and one after. */
export function beforeAfterTable(sheet: Sheet): Table {
  const { chance, words } = sheet
  const cells = new Map<string, Reading>()
  for (const reading of inventReadings(chance, sheet.unit)) {
    const slot = slotOf(reading.minute)
    if (slot >= 1 && slot <= 6) cells.set(`${reading.day} ${slot}`, reading)
  }
  if (cells.size < 3) return beforeAfterTable(sheet)
  const say = said(sheet)
  const [before, after] = words.beforeAfter.split('|').map((name) => say.head(name))
  const missed = chance.pick(['', '', '-'])
  const meals = words.meals.split('|')
  const [meal, date] = [header(sheet, words.meal), front(sheet, say.corner)]
  const lines: Line[] = [{ cells: [...date.map(({ head }) => head), meal, before, after] }]
  for (const day of new Set([...cells.values()].map((reading) => reading.day))) {
    for (const at of [0, 1, 2]) {
      const both = [2 * at + 1, 2 * at + 2].map((slot) => cells.get(`${day} ${slot}`))
      if (both.every((reading) => reading === undefined)) continue
      const column = (find: Reading | undefined) => readingColumn(sheet, '', () => find, false, missed, say.tail)
      lines.push({
        cells: [...date.map(({ cell }) => cell(day)), meals[at], ...both.map((reading) => column(reading).cell(day))],
        truths: both.flatMap((reading) => column(reading).truth?.(day) ?? []),
      })
    }
  }
  const readings = [...cells.values()]
  if (sheet.features.has('unit nowhere') && !valuesTellUnit(readings)) sheet.mayAsk.add('unit')
  return { lines, readings, unitInTitle: say.unitInTitle, glucoseInTitle: say.glucoseInTitle }
} // prettier-ignore

/** A row a day, a column for each hour. */
export function hoursTable(sheet: Sheet): Table {
  const { chance } = sheet
  const hours = chance.some([6, 7, 8, 10, 12, 14, 16, 18, 20, 22], chance.between(3, 7)).sort((a, b) => a - b)
  const days = [...new Set(inventMoments(chance, chance.between(2, 25)).map(({ day }) => day))]
  const cells = new Map<string, Reading>()
  for (const day of days) {
    for (const hour of hours) {
      if (!chance.odds(0.75)) continue
      cells.set(`${day} ${hour}`, { day, minute: hour * 60, value: inventValue(chance, sheet.unit), limit: '', unit: sheet.unit, meter: 0 })
    }
  }
  if (cells.size < 3) return hoursTable(sheet)
  const say = said(sheet)
  const missed = chance.pick(['', '', '-'])
  const two = (hour: number): string => String(hour).padStart(2, '0')
  const form = chance.weighed([['colon', 5], ['short', 2], ['bare', 1]] as const)
  if (form === 'bare') sheet.mayAsk.add('columns')
  const name = (hour: number): string => (form === 'colon' ? `${two(hour)}:00` : form === 'short' ? `${hour}:00` : two(hour))
  // A clock before other words would be read as a note of theirs, so hours stand alone.
  const columns = [
    ...front(sheet, say.corner),
    ...hours.map((hour) => readingColumn(sheet, name(hour), (day) => cells.get(`${day} ${hour}`), true, missed, say.tail)),
    ...back(sheet),
  ]
  const bare = { ...say, glucoseInTitle: true, unitInTitle: say.corner === '' && say.tail === '' && sheet.features.has('unit header') ? true : say.unitInTitle }
  return finished(sheet, columns, [...cells.values()], bare)
} // prettier-ignore

function finished(
  sheet: Sheet,
  columns: readonly WideColumn[],
  readings: readonly Reading[],
  { unitInTitle, glucoseInTitle }: { unitInTitle: boolean; glucoseInTitle: boolean },
): Table {
  if (sheet.features.has('unit nowhere') && !valuesTellUnit(readings)) sheet.mayAsk.add('unit')
  const days = [...new Set(readings.map(({ day }) => day))].sort((a, b) => a - b)
  return {
    lines: [{ cells: columns.map(({ head }) => head) }, ...dayLines(sheet, days, columns)],
    readings,
    unitInTitle,
    glucoseInTitle,
  }
}

/** A row a day, several pairs of clock and value beside each other. */
export function pairsTable(sheet: Sheet): Table {
  const { chance, words, clock } = sheet
  const byDay = new Map<number, Reading[]>()
  for (const reading of inventReadings(chance, sheet.unit)) {
    byDay.set(reading.day, [...(byDay.get(reading.day) ?? []), reading])
  }
  const readings = [...byDay.values()].flat()
  const width = Math.max(2, ...[...byDay.values()].map(({ length }) => length))
  const place = pickUnitPlace(sheet, ['header', 'title', 'cell', 'nowhere'])
  const numbered = chance.odds(0.6)
  const [time, value] = [chance.word(words.time), chance.word(words.glucose)]
  const head = (name: string, i: number): string => headerText(sheet, numbered ? `${name} ${i + 1}` : name)
  const tail = place === 'cell' ? ` ${sheet.unitText}` : ''
  const columns = [
    ...front(sheet),
    ...Array.from({ length: width }, (_, i): WideColumn[] => {
      const find = (day: number): Reading | undefined => byDay.get(day)?.[i]
      const named = place === 'header' ? withUnit(sheet, numbered ? `${value} ${i + 1}` : value, sheet.unitText) : undefined
      return [
        {
          head: head(time, i),
          cell: (day) => {
            const reading = find(day)
            return reading === undefined ? '' : clock.write(reading.minute)
          },
        },
        readingColumn(sheet, named === undefined ? head(value, i) : headerText(sheet, named), find, true, '', tail),
      ]
    }).flat(),
    ...back(sheet),
  ]
  return finished(sheet, columns, readings, { unitInTitle: place === 'title', glucoseInTitle: false })
} // prettier-ignore
