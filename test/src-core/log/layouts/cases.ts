import { footer, otherTable, preamble } from './around'
import { Chance } from './chance'
import { daysTellOrder, pickUnitText } from './forms'
import { type Line, newSheet, type Sheet, write, type Written } from './sheet'
import { besideTable, dayOnceTable, headingsTable } from './tables/headings'
import { longTable } from './tables/long'
import { bareTable, rowsTable } from './tables/rows'
import type { Table } from './tables/table'
import { daysAcrossTable } from './tables/turned'
import { beforeAfterTable, hoursTable, mealsTable, pairsTable } from './tables/wide'

/** A second table has columns of its own, and at times the other unit. */
function twoTables(sheet: Sheet): readonly Table[] {
  const { chance, language } = sheet
  const first = rowsTable(sheet, chance.between(0, 2))
  if (sheet.oddities.has('g/L') || !chance.odds(0.3)) return [first, rowsTable(sheet, chance.between(0, 3))]
  const unit = sheet.unit === 'mg/dL' ? 'mmol/L' : 'mg/dL'
  const other = { ...sheet, unit, unitText: pickUnitText(chance, language, unit) } as const
  sheet.features.add('both units')
  const second = rowsTable(other, chance.between(0, 3))
  // A unit that one of two tables leaves out is hard to tell from the other's.
  if (sheet.features.has('unit nowhere')) sheet.mayAsk.add('unit')
  return [first, { ...second, titleSheet: other }]
}

/** The kinds of layout, with their share of the cases and their tables. */
const KINDS: Record<string, { share: number; make: (sheet: Sheet) => readonly Table[] }> = {
  'a reading a row': { share: 3, make: (sheet) => [rowsTable(sheet, 0)] },
  'with other columns': { share: 6, make: (sheet) => [rowsTable(sheet, sheet.chance.between(1, 6))] },
  'kind and value': { share: 2.5, make: (sheet) => [longTable(sheet)] },
  'meals across': { share: 1.5, make: (sheet) => [mealsTable(sheet)] },
  'before and after a meal': { share: 0.7, make: (sheet) => [beforeAfterTable(sheet)] },
  'hours across': { share: 0.8, make: (sheet) => [hoursTable(sheet)] },
  'days across': { share: 0.6, make: (sheet) => [daysAcrossTable(sheet)] },
  'clock and value in pairs': { share: 0.8, make: (sheet) => [pairsTable(sheet)] },
  'two stretches side by side': { share: 0.6, make: (sheet) => [besideTable(sheet)] },
  'days as headings': { share: 1, make: (sheet) => [headingsTable(sheet)] },
  'date once a day': { share: 0.7, make: (sheet) => [dayOnceTable(sheet)] },
  'two tables of glucose': { share: 0.8, make: twoTables },
  'no header': { share: 0.5, make: (sheet) => [bareTable(sheet)] },
} // prettier-ignore
export const KIND_NAMES = Object.keys(KINDS)

export interface LayoutCase extends Written {
  readonly seed: number
  readonly kind: string
  readonly language: string
  /** Why a question is right; empty where a careful reader of the file alone knows the readings. */
  readonly mayAsk: readonly string[]
  readonly features: readonly string[]
}

/** The case of a seed: a file and the readings that it holds. */
export function layoutCase(seed: number): LayoutCase {
  const chance = new Chance(seed)
  const sheet = newSheet(chance)
  const kind = chance.weighed(KIND_NAMES.map((name) => [name, KINDS[name].share] as const))
  const tables = KINDS[kind].make(sheet)
  const others = (share: number): Line[] => {
    if (kind === 'no header' || !chance.odds(share)) return []
    return otherTable(sheet, tables[0])
  }
  const blank = (lines: Line[], before: boolean): Line[] => {
    if (lines.length === 0 || chance.odds(0.15)) return lines
    return before ? [...lines, { cells: [''] }] : [{ cells: [''] }, ...lines]
  }
  const lines = tables.flatMap((table, i): Line[] => {
    const unitTold = kind === 'no header' ? [] : preamble(table.titleSheet ?? sheet, table)
    return [...(i > 0 ? [{ cells: [''] }] : []), ...unitTold, ...table.lines]
  })
  const above = blank(others(0.1), true)
  const below = blank(others(0.15), false)
  const foot = kind === 'no header' ? [] : footer(sheet, tables[0])
  if (!daysTellOrder(sheet.date, [...sheet.days])) sheet.mayAsk.add('dates')
  const written = write(sheet, [...above, ...lines, ...below, ...foot])
  const { language, mayAsk, features } = sheet
  return {
    ...written,
    seed,
    kind,
    language,
    mayAsk: [...mayAsk],
    features: [...features, `language ${language}`, `dates ${sheet.date.name}`, `clock ${sheet.clock.name}`, `delimiter ${sheet.delimiter === '\t' ? 'tab' : sheet.delimiter}`, `decimal ${sheet.decimal}`, `headers ${sheet.headerCase}`],
  }
} // prettier-ignore
