import { type ReadingRow, type Readings, ReadingsBuilder } from '../../../src-core/log/readings'
import { dayNumber, SECONDS_PER_DAY, type WallSeconds } from '../../../src-core/units/wallClock'

/** Wall-clock seconds of '2026-03-07 20:28' or '2026-03-07 20:28:30'. */
export function at(moment: string): WallSeconds {
  const [year, month, day, hour, minute, second = 0] = moment.split(/[-: ]/).map(Number)
  const date = dayNumber(year, month, day)
  if (date === null) throw new Error('no such day')
  return date * SECONDS_PER_DAY + hour * 3600 + minute * 60 + second
}

export type RowParts = Partial<Omit<ReadingRow, 'at' | 'logged'>>

/** A finger-stick in mg/dL of meter 'A', unless `parts` says otherwise. */
export function row(
  moment: string | WallSeconds,
  logged: number,
  parts: RowParts = {},
): Omit<ReadingRow, 'line'> {
  return {
    at: typeof moment === 'string' ? at(moment) : moment,
    logged,
    unit: 'mg/dL',
    flags: 0,
    source: 0,
    offsetMinutes: 0,
    meter: 'A',
    meal: '',
    note: '',
    ...parts,
  }
}

/** Readings of the rows given; lines count from 2 in the order given unless a row has its own. */
export function readingsOf(rows: readonly (Omit<ReadingRow, 'line'> & { line?: number })[]): Readings {
  const builder = new ReadingsBuilder()
  rows.forEach((parts, i) => builder.add({ line: i + 2, ...parts }))
  return builder.build()
}

/** Readings with these values in mg/dL, one an hour from midnight of 1 March 2026 on. */
export function hourly(values: readonly number[], parts: RowParts = {}): Readings {
  const start = at('2026-03-01 00:00')
  return readingsOf(values.map((value, i) => row(start + i * 3600, value, parts)))
}
