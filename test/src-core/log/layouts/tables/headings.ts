import {
  type Column,
  momentColumns,
  noteText,
  pickUnitPlace,
  TIMED_FORMS,
  valueColumns,
  valuesTellUnit,
} from '../columns'
import { weekdayName } from '../forms'
import { dayText, header, type Line, type Sheet } from '../sheet'
import { inventReadings, type Reading, truthOf } from '../truth'
import { headerLines } from './rows'
import type { Table } from './table'

function inner(sheet: Sheet): { columns: Column[]; readings: Reading[]; unitInTitle: boolean } {
  const { chance, words, clock } = sheet
  const place = pickUnitPlace(sheet, ['header', 'column', 'cell', 'title', 'nowhere'])
  const readings = inventReadings(chance, sheet.unit)
  const time: Column = {
    role: 'time',
    header: header(sheet, words.time),
    cell: ({ reading }) => clock.write(reading.minute),
  }
  const notes: Column[] = chance.odds(0.5)
    ? [{ role: 'note', header: header(sheet, words.note), cell: () => noteText(sheet) }]
    : []
  if (place === 'nowhere' && !valuesTellUnit(readings)) sheet.mayAsk.add('unit')
  return {
    columns: [time, ...valueColumns(sheet, place), ...notes],
    readings,
    unitInTitle: place === 'title',
  }
}

/** The day stands as a heading, its readings beneath. */
export function headingsTable(sheet: Sheet): Table {
  const { chance, language } = sheet
  const { columns, readings, unitInTitle } = inner(sheet)
  const weekday = chance.odds(0.3) && /[a-z]/i.test(sheet.date.name)
  const filled = chance.odds(0.5)
  const repeated = chance.odds(0.2)
  const blank = chance.odds(0.3)
  const lines: Line[] = repeated ? [] : headerLines(sheet, columns, false)
  let last = -1
  readings.forEach((reading, index) => {
    if (reading.day !== last) {
      if (blank && last !== -1) lines.push({ cells: [''] })
      const text = `${weekday ? `${weekdayName(language, reading.day, 'long')} ` : ''}${dayText(sheet, reading.day)}`
      lines.push({ cells: [text, ...(filled ? columns.slice(1).map(() => '') : [])] })
      if (repeated) lines.push({ cells: columns.map((column) => column.header) })
      last = reading.day
    }
    const row = { reading, index, event: false }
    lines.push({ cells: columns.map((column) => column.cell(row)), truths: [truthOf(reading)] })
  })
  return { lines, readings, unitInTitle, glucoseInTitle: false }
}

/** The date stands in the first row of its day alone. */
export function dayOnceTable(sheet: Sheet): Table {
  const { columns, readings, unitInTitle } = inner(sheet)
  const date: Column = { role: 'date', header: header(sheet, sheet.words.date), cell: () => '' }
  let last = -1
  const lines = readings.map((reading, index): Line => {
    const row = { reading, index, event: false }
    const day = reading.day === last ? '' : dayText(sheet, reading.day)
    last = reading.day
    return { cells: [day, ...columns.map((column) => column.cell(row))], truths: [truthOf(reading)] }
  })
  const head = headerLines(sheet, [date, ...columns], false)
  return { lines: [...head, ...lines], readings, unitInTitle, glucoseInTitle: false }
}

/** Two stretches of time beside each other, each with its own date, clock and value. */
export function besideTable(sheet: Sheet): Table {
  const { chance } = sheet
  const place = pickUnitPlace(sheet, ['header', 'title', 'nowhere'])
  const readings = inventReadings(chance, sheet.unit)
  const moment = momentColumns(sheet, TIMED_FORMS)
  const columns = [...moment.columns, ...valueColumns(sheet, place)]
  const gap = chance.odds(0.5) ? [''] : []
  const half = Math.ceil(readings.length / 2)
  const cellsOf = (reading: Reading | undefined, index: number): string[] =>
    columns.map((column) => (reading === undefined ? '' : column.cell({ reading, index, event: false })))
  const lines = readings.slice(0, half).map((reading, index): Line => {
    const right = readings.at(half + index)
    return {
      cells: [...cellsOf(reading, index), ...gap, ...cellsOf(right, index)],
      truths: [reading, ...(right ? [right] : [])].map((each) => truthOf(each)),
    }
  })
  if (place === 'nowhere' && !valuesTellUnit(readings)) sheet.mayAsk.add('unit')
  const heads = columns.map((column) => column.header)
  return {
    lines: [{ cells: [...heads, ...gap, ...heads] }, ...lines],
    readings,
    unitInTitle: place === 'title',
    glucoseInTitle: false,
  }
}
