import { pickUnitPlace, slotOf, valuesTellUnit } from '../columns'
import { valueText } from '../forms'
import { dayText, header, headerText, type Line, type Sheet, withUnit } from '../sheet'
import { inventReadings, type Reading, truthOf } from '../truth'
import type { Table } from './table'

/** The days run to the right, and each row is a meal or an hour. */
export function daysAcrossTable(sheet: Sheet): Table {
  const { chance, words, unitText, clock } = sheet
  const byHour = chance.odds(0.5)
  const slots = words.slots.split('|')
  const cells = new Map<string, Reading>()
  for (const reading of inventReadings(chance, sheet.unit)) {
    const hour = Math.floor(reading.minute / 120) * 2
    const row = byHour ? hour : slotOf(reading.minute)
    cells.set(`${reading.day} ${row}`, byHour ? { ...reading, minute: hour * 60 } : reading)
  }
  const days = [...new Set([...cells.keys()].map((key) => Number(key.split(' ')[0])))].slice(0, 14)
  const rows = [...new Set([...cells.keys()].map((key) => Number(key.split(' ')[1])))].sort((a, b) => a - b)
  if (days.length < 3 || rows.length < 2) return daysAcrossTable(sheet)
  const place = pickUnitPlace(sheet, ['header', 'title', 'cell', 'nowhere'])
  const glucose = chance.word(words.glucose)
  const corner = place === 'header' ? withUnit(sheet, glucose, unitText) : glucose
  const tail = place === 'cell' ? ` ${unitText}` : ''
  const readings: Reading[] = []
  const missed = chance.pick(['', '', '-'])
  const lines = rows.map((row): Line => {
    const found = days.map((day) => cells.get(`${day} ${row}`))
    readings.push(...found.filter((reading) => reading !== undefined))
    return {
      cells: [
        byHour ? clock.write(row * 60) : headerText(sheet, slots[row]),
        ...found.map((reading) => reading === undefined ? missed : valueText(reading, sheet) + (reading.limit === '' ? tail : '')),
      ],
      truths: found.flatMap((reading) => (reading === undefined ? [] : [truthOf(reading, byHour)])),
    }
  })
  if (place === 'nowhere' && !valuesTellUnit(readings)) sheet.mayAsk.add('unit')
  // A corner that says the time or nothing leaves glucose to the title.
  const inCorner = place === 'header' || chance.odds(0.5)
  const first = inCorner ? headerText(sheet, corner) : chance.odds(0.5) ? header(sheet, words.time) : ''
  return {
    lines: [{ cells: [first, ...days.map((day) => dayText(sheet, day))] }, ...lines],
    readings,
    unitInTitle: place === 'title',
    glucoseInTitle: !inCorner,
  }
} // prettier-ignore
