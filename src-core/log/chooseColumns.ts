import type { ColumnContent } from './columnContent'
import { readMoment } from './dateCell'
import { dateOrderInHeader, isGlucoseKind, isSensorHeader } from './vocabulary'
import type { Columns } from './findHeader'
import { readGlucose, unitIn } from './glucoseCell'
import type { ColumnRole } from './logReport'
import type { NamedColumns } from './namedColumns'
import type { CsvRecord } from './records'

/** Fewest rows that show it, and the share of all that must. */
const PARTED = { fewest: 3, share: 0.8 } as const

/** Whether most rows have one cell more than the header, and two short whole numbers where the value should be. */
export function decimalsParted(
  head: readonly CsvRecord[],
  header: CsvRecord,
  glucose: number,
  columns: Columns,
): boolean {
  // A trailing delimiter also makes a cell too many; insulin beside glucose also makes two short numbers.
  const next = columns[glucose + 1]?.role
  if (next === 'insulin' || next === 'carbohydrate' || next === 'event' || next === 'glucose') return false
  const rows = head
    .slice(head.indexOf(header) + 1)
    .filter(({ cells }) => cells.some((cell) => cell.trim() !== ''))
  const parted = rows.filter(
    ({ cells }) =>
      cells.length === header.cells.length + 1 &&
      /^\d{1,2}$/.test(cells[glucose].trim()) &&
      /^\d$/.test(cells[glucose + 1].trim()),
  )
  return parted.length >= PARTED.fewest && parted.length >= PARTED.share * rows.length
}

/** A column of events that names glucose readings among them is one of kinds of entry. */
export function eventsThatAreKinds(columns: Columns, content: ColumnContent): void {
  if (columns.some(({ role }) => role === 'kind')) return
  const kinds = columns.find(
    ({ role, index }) => role === 'event' && content.cells(index).some(isGlucoseKind),
  )
  if (kinds) kinds.role = 'kind'
}

/** Where date and time stand: by the headers' words, checked against what the columns hold. Null where nowhere. */
export function dateAndTime(
  columns: Columns,
  content: ColumnContent,
  named: NamedColumns | null,
  notes: string[],
): { date: number; time: number | null } | null {
  const withRole = (role: ColumnRole): number[] =>
    columns.filter((column) => column.role === role).map(({ index }) => index)
  // Beside date and time of the meter a column in UTC is the exporter's.
  const own = withRole('date').length > 0 && withRole('time').length > 0
  const timestamps = withRole('timestamp').filter(
    (index) => !own || !/\b(utc|gmt)\b/i.test(columns[index].header),
  )
  const byWords = [...timestamps, ...withRole('date'), ...withRole('time')]
  const unknown = withRole('ignored').filter((index) => !content.isEmpty(index))
  const date =
    byWords.find((index) => content.holdsDates(index)) ??
    (byWords.length > 0 ? unknown.find((index) => content.holdsDates(index)) : undefined) ??
    byWords[0]
  if (date === undefined) return null
  const isNamed = named?.roles.has('time') ?? false
  const times = [...withRole('time'), ...timestamps].filter((index) => index !== date)
  if (content.holdsTimesOfDay(date) && !isNamed) return { date, time: null }
  const time =
    times.find((index) => content.holdsTimes(index)) ?? withRole('time').find((index) => index !== date)
  if (time !== undefined) return { date, time }
  const found = unknown.find((index) => index !== date && content.holdsTimes(index))
  if (found === undefined) return { date, time: null }
  notes.push(`Column ${String(found + 1)} is read as the time of day, by what it holds.`)
  return { date, time: found }
}

/**
 * The finger-stick's column before the sensor's, a plain word before a vague one, the fuller one else;
 * 'several' where rows fill now one, now another.
 */
export function chooseGlucose(
  columns: Columns,
  content: ColumnContent,
  named: NamedColumns | null,
  notes: string[],
): number | null | 'several' {
  let candidates = columns.filter((column) => column.role === 'glucose')
  if (candidates.some((column) => !column.weak)) candidates = candidates.filter((column) => !column.weak)
  const fingerSticks = candidates.filter((column) => !isSensorHeader(column.header))
  if (fingerSticks.length > 0 && fingerSticks.length < candidates.length) {
    notes.push(
      `The log has a sensor's glucose beside the finger-stick's; the finger-sticks (column ${String(fingerSticks[0].index + 1)}) are read.`,
    )
    candidates = fingerSticks
  }
  if (candidates.length === 0) return null
  const chosen = candidates.reduce((best, column) =>
    content.values(column.index) > content.values(best.index) ? column : best,
  ).index
  if (candidates.length === 1) return chosen
  const others = candidates.filter(({ index }) => index !== chosen)
  const byTurns = others.some(({ index }) => content.holdsOtherReadings(index, chosen))
  if (byTurns && fingerSticks.length > 0 && !named?.roles.has('glucose')) return 'several'
  notes.push(
    `${String(candidates.length)} columns speak of glucose; column ${String(chosen + 1)} is read. Another is chosen with --columns glucose=NUMBER.`,
  )
  return chosen
}

/** Units and format rows right below the header: no date, no value, but a unit or a date's format. */
export function rowsBesideHeader(
  head: readonly CsvRecord[],
  header: CsvRecord,
  date: number,
  glucose: number,
): readonly CsvRecord[] {
  const beside: CsvRecord[] = []
  for (const record of head.slice(head.indexOf(header) + 1)) {
    const dateCell = record.cells[date] ?? ''
    const valueCell = record.cells[glucose] ?? ''
    const isData = readMoment(dateCell) !== null || readGlucose(valueCell).kind === 'number'
    const isUnits = unitIn(valueCell) !== null || dateOrderInHeader(dateCell) !== null
    if (isData || !isUnits) break
    beside.push(record)
  }
  return beside
}
