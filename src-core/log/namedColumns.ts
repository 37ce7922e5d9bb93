import type { ColumnRole } from './logReport'

/** What `--columns` says: role -> headers or 1-based numbers (several for 'glucose=3|4'), and the kinds of entry that count. */
export interface NamedColumns {
  readonly roles: ReadonlyMap<ColumnRole, readonly string[]>
  readonly kinds: readonly string[] | null
  /** Whether the clock has twelve hours, the second half of the day following on the first; null where nothing was said. */
  readonly clock: '12' | '24' | null
  /** The year of the first date where the dates name none; null where nothing was said. */
  readonly year: number | null
}

/** Whether a person said what columns hold; a clock or a year says nothing of them. */
export function namesColumns({ roles, kinds }: NamedColumns): boolean {
  return roles.size > 0 || kinds !== null
}

/** What a person may say that a column holds, where choices are offered. */
export const CHANGEABLE_ROLES = [
  'date',
  'time',
  'glucose',
  'unit',
  'meal',
  'note',
  'meter',
  'insulin',
  'carbohydrate',
] as const satisfies readonly ColumnRole[]
export type ChangeableRole = (typeof CHANGEABLE_ROLES)[number]

const NAMEABLE: readonly ColumnRole[] = ['timestamp', ...CHANGEABLE_ROLES, 'kind', 'event']

/** Parses `time=2,glucose=Wert,kind=3:48|57,clock=12,year=2026`. Returns the part that cannot be read instead, if any. */
export function parseNamedColumns(text: string): NamedColumns | { readonly unreadable: string } {
  const roles = new Map<ColumnRole, readonly string[]>()
  let kinds: string[] | null = null
  let clock: '12' | '24' | null = null
  let year: number | null = null
  for (const part of text.split(',')) {
    const match = /^\s*([a-z]+)\s*=\s*(.+?)\s*$/.exec(part)
    if (match?.[1] === 'clock' && (match[2] === '12' || match[2] === '24')) {
      clock = match[2]
      continue
    }
    if (match?.[1] === 'year' && /^(19|20)\d{2}$/.test(match[2])) {
      year = Number(match[2])
      continue
    }
    const role = NAMEABLE.find((name) => name === match?.[1])
    if (!match || !role || roles.has(role)) return { unreadable: part.trim() }
    let column = match[2]
    if (role === 'kind' && column.includes(':')) {
      const colon = column.indexOf(':')
      kinds = column
        .slice(colon + 1)
        .split('|')
        .map((kind) => kind.trim())
      column = column.slice(0, colon).trim()
    }
    roles.set(role, role === 'glucose' ? column.split('|').map((name) => name.trim()) : [column])
  }
  return { roles, kinds, clock, year }
}
