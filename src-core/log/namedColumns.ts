import type { ColumnRole } from './logReport'

/** What `--columns` says: role -> headers or 1-based numbers (several for 'glucose=3|4'), and the kinds of entry that count. */
export interface NamedColumns {
  readonly roles: ReadonlyMap<ColumnRole, readonly string[]>
  readonly kinds: readonly string[] | null
  /** Whether the clock has twelve hours, the second half of the day following on the first; null where nothing was said. */
  readonly clock: '12' | '24' | null
}

const NAMEABLE: readonly ColumnRole[] = [
  'timestamp',
  'date',
  'time',
  'glucose',
  'unit',
  'meal',
  'note',
  'meter',
  'kind',
  'insulin',
  'carbohydrate',
  'event',
]

/** Parses `time=2,glucose=Wert,kind=3:48|57`. Returns the part that cannot be read instead, if any. */
export function parseNamedColumns(text: string): NamedColumns | { readonly unreadable: string } {
  const roles = new Map<ColumnRole, readonly string[]>()
  let kinds: string[] | null = null
  let clock: '12' | '24' | null = null
  for (const part of text.split(',')) {
    const match = /^\s*([a-z]+)\s*=\s*(.+?)\s*$/.exec(part)
    if (match?.[1] === 'clock' && (match[2] === '12' || match[2] === '24')) {
      clock = match[2]
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
  return { roles, kinds, clock }
}
