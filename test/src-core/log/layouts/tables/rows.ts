import {
  type Column,
  extraColumns,
  momentColumns,
  pickUnitPlace,
  type Row,
  SERIALS,
  truthsOf,
  valueColumns,
  valuesTellUnit,
} from '../columns'
import { numberText } from '../forms'
import { header, headerText, type Line, type Sheet } from '../sheet'
import { statesOf } from '../oddities'
import { inventReadings, inventValue, type Reading } from '../truth'
import type { Table } from './table'

/** One row a reading, columns in any order, with as many other columns as given. */
export function rowsTable(sheet: Sheet, extras: number): Table {
  const { chance } = sheet
  const moment = momentColumns(sheet)
  const place = pickUnitPlace(sheet, ['header', 'column', 'cell', 'title', 'units-row', 'nowhere'])
  const invented = inventReadings(chance, sheet.unit, undefined, sheet.oddities.has('limits with signs'))
  let readings = moment.timed ? invented : withoutEqual(invented)
  if (sheet.oddities.has('odd unit')) readings = withOddUnit(sheet, readings)
  if (place === 'column' && chance.odds(0.15)) readings = withBothUnits(sheet, readings)
  let serial: Column | undefined
  if (moment.timed && extras > 0 && chance.odds(0.15)) {
    readings = withTwoMeters(sheet, readings)
    const serials = chance.some(SERIALS, 2)
    serial = {
      role: 'serial',
      header: header(sheet, sheet.words.serial),
      cell: ({ reading }) => serials[reading.meter],
    }
  }
  const others = extraColumns(sheet, extras, readings[0].day).filter(
    ({ role }) => serial === undefined || role !== 'serial',
  )
  const values = valueColumns(sheet, place)
  const deleted = new Set<number>()
  const states = sheet.oddities.has('status') && moment.timed ? statesOf(sheet.language) : null
  if (states !== null) {
    readings.forEach((_, i) => chance.odds(0.12) && deleted.add(i))
    others.push({
      role: 'status',
      header: states[0],
      cell: ({ reading }) => chance.word(deleted.has(readings.indexOf(reading)) ? states[2] : states[1].split('|')[0]),
    })
  }
  const columns = ordered(sheet, moment.columns, [
    ...values,
    ...(serial === undefined ? [] : [serial]),
    ...others,
  ])
  let rows: Row[] = inOrder(sheet, readings).map((reading, index) => ({ reading, index, event: false }))
  const mayHoldEvents = others.some(({ role }) => role === 'insulin' || role === 'carbs' || role === 'note')
  if (mayHoldEvents && chance.odds(0.3)) rows = withEvents(sheet, rows)
  const lines = rows.map((row): Line => ({
    cells: columns.map((column) => column.cell(row)),
    truths: deleted.has(readings.indexOf(row.reading)) ? [] : truthsOf(row, moment.timed),
  }))
  const extraLines = [
    ...(moment.timed && deleted.size === 0 && chance.odds(0.12) ? duplicates(sheet, lines, rows) : []),
  ]
  const counted = [...lines, ...extraLines]
  const summed = chance.odds(0.15) ? withSums(sheet, counted, columns) : counted
  const body = sheet.oddities.has('goal rows') ? withGoals(sheet, summed, columns) : summed
  if (place === 'nowhere' && !valuesTellUnit(readings)) sheet.mayAsk.add('unit')
  return {
    lines: [...headerLines(sheet, columns, place === 'units-row'), ...body],
    readings,
    unitInTitle: place === 'title',
    glucoseInTitle: false,
  }
} // prettier-ignore

/** The columns of the moment stay together, mostly in front; the others go anywhere. */
export function ordered(sheet: Sheet, moment: readonly Column[], others: readonly Column[]): Column[] {
  const { chance } = sheet
  if (chance.odds(0.4)) return [...moment, ...others]
  const mixed = chance.shuffled(others)
  if (chance.odds(0.2)) return chance.shuffled([...moment, ...others])
  const at = chance.odds(0.6) ? 0 : chance.between(0, mixed.length)
  return [...mixed.slice(0, at), ...moment, ...mixed.slice(at)]
}

/** The header, with a row of groups above it or of units beneath it. */
export function headerLines(sheet: Sheet, columns: readonly Column[], unitsRow: boolean): Line[] {
  const { chance, words } = sheet
  const lines: Line[] = []
  if (chance.odds(0.06) && columns.length > 3) {
    sheet.features.add('group row')
    lines.push({
      cells: columns.map(({ role }) => (role === 'glucose' ? headerText(sheet, chance.word(words.title)) : '')),
    })
  }
  lines.push({ cells: columns.map((column) => column.header) })
  if (unitsRow) lines.push({ cells: columns.map(({ unit = '' }) => unit) })
  return lines
} // prettier-ignore

/** Oldest first, newest first, or as two logs put behind one another. */
export function inOrder({ chance }: Sheet, readings: readonly Reading[]): readonly Reading[] {
  const order = chance.weighed([['up', 6], ['down', 3], ['turned', 0.5]] as const) // prettier-ignore
  if (order === 'up') return readings
  if (order === 'down') return [...readings].reverse()
  const middle = Math.floor(readings.length / 2)
  return [...readings.slice(middle), ...readings.slice(0, middle)]
}

/** Of a day's equal values the first alone: without a clock they would be one row written twice. */
export function withoutEqual(readings: readonly Reading[]): Reading[] {
  const seen = new Set<string>()
  return readings.filter(({ day, value, limit }) => {
    const key = `${day} ${limit === '' ? value : limit}`
    return !seen.has(key) && seen.add(key)
  })
}

function withBothUnits(sheet: Sheet, readings: readonly Reading[]): Reading[] {
  const { chance, features } = sheet
  features.add('both units')
  const other = sheet.unit === 'mg/dL' ? 'mmol/L' : 'mg/dL'
  return readings.map((reading) =>
    chance.odds(0.4) ? { ...reading, unit: other, value: inventValue(chance, other) } : reading,
  )
}

function withTwoMeters(sheet: Sheet, readings: readonly Reading[]): Reading[] {
  const { chance, features } = sheet
  features.add('two meters')
  return readings.flatMap((reading) => {
    const first = { ...reading, meter: chance.between(0, 1) }
    if (!chance.odds(0.25)) return [first]
    const value = chance.odds(0.3) ? reading.value : inventValue(chance, reading.unit)
    return [first, { ...first, value, meter: 1 - first.meter }]
  })
}

/** Rows of insulin, food or a note alone between the readings, at minutes of their own. */
function withEvents(sheet: Sheet, rows: readonly Row[]): Row[] {
  const { chance, features } = sheet
  features.add('event rows')
  return rows
    .flatMap((row): Row[] =>
      chance.odds(0.2)
        ? [
            row,
            {
              ...row,
              event: true,
              reading: { ...row.reading, minute: Math.min(1439, row.reading.minute + 7) },
            },
          ]
        : [row],
    )
    .map((row, index) => ({ ...row, index }))
}

/** Some rows written a second time, in the same words. */
function duplicates({ chance, features }: Sheet, lines: readonly Line[], rows: readonly Row[]): Line[] {
  features.add('duplicates')
  const readings = lines.filter((_, i) => !rows[i].event)
  return chance.some(readings, chance.between(1, 3)).map(({ cells }) => ({ cells }))
}

/** The goal among the rows, where the date or a note should stand. */
function withGoals(sheet: Sheet, lines: readonly Line[], columns: readonly Column[]): Line[] {
  const { chance, words, unit, decimal } = sheet
  const cells = columns.map(() => '')
  cells[columns.findIndex(({ role }) => role === 'glucose')] = unit === 'mg/dL' ? '120' : numberText(6.5, 1, decimal)
  cells[columns.findIndex(({ role }) => role !== 'glucose')] = chance.word(words.goal)
  const at = chance.between(0, lines.length)
  return [...lines.slice(0, at), { cells }, ...lines.slice(at)]
} // prettier-ignore

/** One to three values of the other unit, which nothing says: a reader must ask. */
function withOddUnit(sheet: Sheet, readings: readonly Reading[]): Reading[] {
  const { chance, mayAsk } = sheet
  const other = sheet.unit === 'mg/dL' ? 'mmol/L' : 'mg/dL'
  const odd = new Set(chance.some(readings.map((_, i) => i), chance.between(1, 3)))
  if (odd.size === readings.length) return [...readings]
  mayAsk.add('unit')
  return readings.map((reading, i): Reading => {
    if (!odd.has(i) || reading.limit !== '') return reading
    const value = other === 'mg/dL' ? chance.between(45, 400) : chance.between(15, 195) / 10
    return { ...reading, unit: other, value }
  })
} // prettier-ignore

/** Means and counts among the rows or beneath them, named in one of the cells. */
function withSums(sheet: Sheet, lines: readonly Line[], columns: readonly Column[]): Line[] {
  const { chance, features, words } = sheet
  const value = columns.findIndex(({ role }) => role === 'glucose')
  const [when, note, time] = ['date', 'note', 'time'].map((role) => columns.findIndex((column) => column.role === role))
  const first = columns.findIndex((_, i) => i !== value)
  const sum = (like: Line): Line => {
    const cells = columns.map(() => '')
    cells[value] = meanText(sheet)
    const dated = when !== -1 && chance.odds(0.4)
    const spot = dated && note !== -1 && chance.odds(0.5) ? note : dated && time !== -1 ? time : first
    if (dated && spot !== first && spot !== when) cells[when] = like.cells[when]
    cells[spot] = chance.word(chance.odds(0.5) ? words.mean : words.dailyMean)
    return { cells }
  }
  features.add('sums')
  if (chance.odds(0.5)) {
    const every = chance.between(4, 12)
    return lines.flatMap((line, i) => (i % every === every - 1 ? [line, sum(line)] : [line]))
  }
  const count = columns.map(() => '')
  count[first] = chance.word(chance.odds(0.5) ? words.total : words.count)
  count[value] = String(lines.length)
  return [...lines, sum(lines[lines.length - 1]), ...(chance.odds(0.5) ? [{ cells: count }] : [])]
} // prettier-ignore

/** A mean as a program would print it. */
export function meanText({ chance, unit, decimal }: Sheet): string {
  return numberText(inventValue(chance, unit) * 0.5 + (unit === 'mg/dL' ? 75 : 4), 1, decimal)
}

/** Rows of date, clock and value without any header. */
export function bareTable(sheet: Sheet): Table {
  const { chance } = sheet
  const place = pickUnitPlace(sheet, ['cell', 'column', 'nowhere'])
  const readings = inventReadings(chance, sheet.unit)
  const moment = momentColumns(sheet, ['one', 'apart'])
  const notes = chance.odds(0.3) ? extraColumns(sheet, 1, readings[0].day) : []
  const columns = [...moment.columns, ...valueColumns(sheet, place), ...notes]
  if (place === 'nowhere' || (place === 'column' && notes.length > 0)) sheet.mayAsk.add('columns')
  const lines = inOrder(sheet, readings).map((reading, index): Line => {
    const row = { reading, index, event: false }
    return { cells: columns.map((column) => column.cell(row)), truths: truthsOf(row, moment.timed) }
  })
  return { lines, readings, unitInTitle: false, glucoseInTitle: false }
}
