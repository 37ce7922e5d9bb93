import type { ColumnRole } from './logReport'

/** What `--columns` says: role -> header or 1-based number, and the kinds of entry that count. */
export interface NamedColumns {
  readonly roles: ReadonlyMap<ColumnRole, string>
  readonly kinds: readonly string[] | null
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
  const roles = new Map<ColumnRole, string>()
  let kinds: string[] | null = null
  for (const part of text.split(',')) {
    const match = /^\s*([a-z]+)\s*=\s*(.+?)\s*$/.exec(part)
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
    roles.set(role, column)
  }
  return { roles, kinds }
}
