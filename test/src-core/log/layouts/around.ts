import { numberText } from './forms'
import { dayText, header, headerText, type Line, type Sheet, withUnit } from './sheet'
import { meanText } from './tables/rows'
import type { Table } from './tables/table'
import { LAST_DAY } from './truth'

const NAMES = ['Mia Berg', 'Jon Falk', 'Ada Quist', 'Leo Marsh', 'Ines Roth']

/** Who and what the file is about, above the tables; the title says glucose and unit where the table does not. */
export function preamble(sheet: Sheet, table: Table): Line[] {
  const { chance, words, unitText, features, delimiter } = sheet
  const lines: Line[] = []
  const pairs = chance.odds(0.3)
  const glued = chance.odds(0.4)
  const pair = (key: string, value: string): Line => {
    const mark = delimiter === ':' ? '' : ':'
    return { cells: glued ? [`${key}${mark} ${value}`] : [chance.odds(0.5) ? key + mark : key, value] }
  }
  if (pairs) {
    features.add('preamble')
    lines.push(pair(chance.word(words.patient), chance.pick(NAMES)))
    if (chance.odds(0.5)) lines.push(pair(chance.word(words.birth), sheet.date.write(chance.between(-14_000, 9_000))))
    if (chance.odds(0.4)) lines.push(pair(chance.word(words.printed), `${sheet.date.write(LAST_DAY + 1)} ${sheet.clock.write(552)}`))
    if (chance.odds(0.3)) lines.push(pair(chance.word(words.count), String(table.readings.length)))
    if (chance.odds(0.2) && !features.has('unit nowhere')) lines.push(pair(chance.word(words.mean), `${meanText(sheet)} ${unitText}`))
    if (chance.odds(0.2)) lines.push(pair(chance.word(words.a1c), `${numberText(7.2, 1, sheet.decimal)} %`))
  }
  const needsTitle = table.unitInTitle || table.glucoseInTitle
  if (needsTitle || chance.odds(0.1)) {
    const title = chance.word(words.title)
    const unitApart = table.unitInTitle && chance.odds(0.3)
    lines.push({ cells: [table.unitInTitle && !unitApart ? withUnit(sheet, title, unitText) : title] })
    if (unitApart) lines.push(pair(chance.word(words.unit), unitText))
    if (chance.odds(0.3)) lines.push({ cells: [''] })
  } else if (pairs && chance.odds(0.6)) lines.push({ cells: [''] })
  return lines
} // prettier-ignore

/** Lines beneath the tables that belong to no table. */
export function footer(sheet: Sheet, table: Table): Line[] {
  const { chance, words, features } = sheet
  if (!chance.odds(0.15)) return []
  features.add('footer')
  const forms: (() => Line)[] = [
    () => ({ cells: [chance.word(words.count), String(table.readings.length)] }),
    () => ({ cells: [`${chance.word(words.count)}: ${table.readings.length}`] }),
    () => ({ cells: [chance.word(words.printed), dayText(sheet, LAST_DAY + 1), sheet.clock.write(601)] }),
    () => ({ cells: [chance.word(words.mean), meanText(sheet)] }),
    () => ({ cells: ['---'] }),
    () => ({ cells: [chance.word(words.a1c), dayText(sheet, LAST_DAY - 40), `${numberText(6.9, 1, sheet.decimal)} %`] }),
  ]
  return [...(chance.odds(0.6) ? [{ cells: [''] }] : []), ...chance.some(forms, chance.between(1, 2)).map((form) => form())]
} // prettier-ignore

/** A table of something else over the same days: weight, insulin, pressure, daily means, A1C, food. */
export function otherTable(sheet: Sheet, table: Table): Line[] {
  const { chance, words, decimal, unit, unitText, features } = sheet
  const decimals = (low: number, high: number) => (): string => numberText(chance.between(low * 10, high * 10) / 10, 1, decimal)
  const whole = (low: number, high: number) => (): string => String(chance.between(low, high))
  const mean = unit === 'mg/dL' ? whole(110, 190) : decimals(6, 10.5)
  const units = chance.odds(0.6)
  const head = (names: string, text: string): string => header(sheet, names, units ? text : '')
  const kind = chance.pick(['weight', 'insulin', 'pressure', 'daily means', 'a1c', 'carbs', 'pulse', 'ketones'] as const)
  features.add(`table of ${kind}`)
  const tables = {
    weight: { title: words.weight, heads: () => [head(words.weight, 'kg')], cells: [decimals(70, 74)] },
    insulin: { title: words.insulin, heads: () => [head(words.insulin, 'U')], cells: [whole(2, 22)] },
    pressure: { title: words.pressure, heads: () => [head(words.systolic, 'mmHg'), head(words.diastolic, 'mmHg'), head(words.pulse, '/min')], cells: [whole(105, 160), whole(60, 95), whole(55, 100)] },
    'daily means': { title: words.dailyMean, heads: () => [head(words.dailyMean, unitText)], cells: [mean] },
    a1c: { title: words.a1c, heads: () => [head(words.a1c, '%')], cells: [decimals(6, 9)] },
    carbs: { title: words.carbs, heads: () => [head(words.carbs, 'g')], cells: [whole(10, 95)] },
    pulse: { title: words.pulse, heads: () => [head(words.pulse, '/min')], cells: [whole(55, 100)] },
    ketones: { title: words.ketones, heads: () => [head(words.ketones, 'mmol/L')], cells: [decimals(0.1, 1.6)] },
  }
  const { title, heads, cells } = tables[kind]
  const timed = kind !== 'daily means' && kind !== 'a1c' && chance.odds(0.4)
  const lines: Line[] = []
  const titled = chance.odds(0.5)
  if (titled) lines.push({ cells: [headerText(sheet, chance.word(title))] })
  lines.push({ cells: [header(sheet, words.date), ...(timed ? [header(sheet, words.time)] : []), ...heads()] })
  const first = table.readings[0].day
  const step = kind === 'a1c' ? -80 : 1
  const rows = chance.between(1, kind === 'a1c' ? 3 : 12)
  for (let i = 0; i < rows; i++) {
    const day = step < 0 ? first + i * step : Math.min(LAST_DAY, first + i)
    lines.push({
      cells: [dayText(sheet, day), ...(timed ? [sheet.clock.write(chance.between(380, 1300))] : []), ...cells.map((cell) => cell())],
    })
  }
  return lines
} // prettier-ignore
