import type { GlucoseUnit } from '../../units/glucose'
import type { NamedColumns } from '../namedColumns'
import type { CsvRecord } from '../records'
import type { TableStart } from './tableStart'

/** A table as far as it was looked at: its start and first rows. */
export interface TableHead {
  readonly start: TableStart
  readonly rows: readonly CsvRecord[]
  /** Unit that lines above all tables name; null where they name none or several. */
  readonly preambleUnit: GlucoseUnit | 'g/L' | null
  /** Whether a line above all tables says that times are in UTC. */
  readonly preambleUtc: boolean
}

/** How many cells the header and most rows have; the fewest where two numbers are as common. */
export function usualWidth({ start, rows }: TableHead): number {
  const counts = new Map<number, number>()
  for (const { cells } of start.header ? [start.header, ...rows] : rows)
    counts.set(cells.length, (counts.get(cells.length) ?? 0) + 1)
  const most = Math.max(0, ...counts.values())
  return Math.min(...[...counts].filter(([, count]) => count === most).map(([cells]) => cells))
}

/** Columns of a file of readings that this program wrote: what the log had counts, not what was made of it. */
export const OWN_COLUMNS: NamedColumns = {
  roles: new Map([
    ['timestamp', ['logged_at']],
    ['glucose', ['logged_value']],
    ['unit', ['logged_unit']],
  ]),
  kinds: null,
  clock: null,
  year: null,
}

export function isOwnFile(header: CsvRecord | null): boolean {
  return (
    header !== null &&
    ['logged_value', 'logged_unit', 'logged_at'].every((name) => header.cells.includes(name))
  )
}
