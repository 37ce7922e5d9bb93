/** Letters that are shown of a name of somebody else's: a header, a kind of entry, a cell. */
export const LONGEST_NAME = 40

/** A name as it is shown; that it was cut is seen. */
export function shortName(name: string): string {
  return name.length > LONGEST_NAME ? `${name.slice(0, LONGEST_NAME)}…` : name
}

/** The first of `n`, which are named, and how many more there are. */
export interface Named<T> {
  readonly n: number
  readonly named: readonly T[]
  readonly more: number
}

export function namedAtMost<T>(all: readonly T[], most: number): Named<T> {
  return { n: all.length, named: all.slice(0, most), more: Math.max(0, all.length - most) }
}
