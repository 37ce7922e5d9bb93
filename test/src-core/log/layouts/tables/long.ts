import { type Column, momentColumns, noteText, pickUnitPlace, type Row, valuesTellUnit } from '../columns'
import { numberText, valueText } from '../forms'
import { header, headerText, type Line, type Sheet, withUnit } from '../sheet'
import { inventReadings, type Reading, truthOf } from '../truth'
import { headerLines, inOrder, ordered, withoutEqual } from './rows'
import type { Table } from './table'

interface Entry {
  readonly kind: string
  readonly value: string
  readonly unit: string
}

/** A kind and a value a row: glucose among insulin, food, weight and whatever else is kept. */
export function longTable(sheet: Sheet): Table {
  const { chance, words, unitText, decimal } = sheet
  const moment = momentColumns(sheet)
  const invented = inventReadings(chance, sheet.unit)
  const readings = moment.timed ? invented : withoutEqual(invented)
  const place = pickUnitPlace(sheet, ['column', 'header', 'cell', 'nowhere'])
  // 'header' of a long table is the name of the kind.
  const glucose = chance.word(words.glucose)
  const glucoseKind = place === 'header' ? withUnit(sheet, glucose, unitText) : glucose
  const decimals = (low: number, high: number): string => numberText(chance.between(low * 10, high * 10) / 10, 1, decimal)
  const whole = (low: number, high: number): string => String(chance.between(low, high))
  const kinds = [
    { names: words.insulin, unit: 'U', value: () => whole(2, 24) },
    { names: words.carbs, unit: 'g', value: () => whole(8, 95) },
    { names: words.weight, unit: 'kg', value: () => decimals(60, 100) },
    { names: words.pulse, unit: '/min', value: () => whole(55, 105) },
    { names: words.ketones, unit: 'mmol/L', value: () => decimals(0.1, 1.6) },
    { names: words.potassium, unit: 'mmol/L', value: () => decimals(3.5, 5.3) },
    { names: words.systolic, unit: 'mmHg', value: () => whole(105, 165) },
    { names: words.goal, unit: unitText, value: () => (sheet.unit === 'mg/dL' ? whole(100, 140) : decimals(5, 8)) },
    { names: words.a1c, unit: '%', value: () => decimals(6, 9) },
  ].map((kind) => ({ ...kind, name: chance.word(kind.names) }))
  const kept = chance.some(kinds, chance.between(1, 4))
  const told = place === 'nowhere' ? valuesTellUnit(readings) : true
  if (!told) sheet.mayAsk.add('unit')
  const rows: { row: Row; entry: Entry; isGlucose: boolean }[] = []
  const add = (reading: Reading, entry: Entry, isGlucose: boolean): void => {
    rows.push({ row: { reading, index: rows.length, event: !isGlucose }, entry, isGlucose })
  }
  for (const reading of inOrder(sheet, readings)) {
    add(reading, { kind: glucoseKind, value: valueText(reading, sheet), unit: unitText }, true)
    for (const kind of kept) {
      if (!chance.odds(0.8 / kept.length)) continue
      const name = place === 'header' ? withUnit(sheet, kind.name, kind.unit) : kind.name
      const minute = Math.min(1439, reading.minute + chance.between(0, 20))
      add({ ...reading, minute }, { kind: name, value: kind.value(), unit: kind.unit }, false)
    }
  }
  const entries = new Map(rows.map(({ row, entry }) => [row, entry]))
  const entryColumn = (role: string, text: string, cell: (entry: Entry) => string): Column => ({
    role,
    header: text,
    cell: (row) => cell(entries.get(row) ?? { kind: '', value: '', unit: '' }),
  })
  const marked = (entry: Entry): string =>
    place === 'cell' && /\d/.test(entry.value) ? `${entry.value} ${entry.unit}` : entry.value
  const columns = ordered(sheet, moment.columns, [
    entryColumn('kind', header(sheet, words.kind), ({ kind }) => kind),
    entryColumn('value', header(sheet, words.value), marked),
    ...(place === 'column' ? [entryColumn('unit', header(sheet, words.unit), ({ unit }) => unit)] : []),
    ...(chance.odds(0.4)
      ? [{ role: 'note', header: headerText(sheet, chance.word(words.note)), cell: () => noteText(sheet) }]
      : []),
  ])
  const lines = rows.map(({ row, isGlucose }): Line => ({
    cells: columns.map((column) => column.cell(row)),
    ...(isGlucose && { truths: [truthOf(row.reading, moment.timed)] }),
  }))
  return {
    lines: [...headerLines(sheet, columns, false), ...lines],
    readings,
    unitInTitle: false,
    glucoseInTitle: false,
  }
} // prettier-ignore
