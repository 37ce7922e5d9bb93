/** Titles and rows of a table. */
export interface PlainTable {
  readonly titles: readonly string[]
  readonly rows: readonly (readonly string[])[]
}
