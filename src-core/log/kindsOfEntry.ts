import type { RowTable } from './rowTable'
import { kindMeaning } from './words/kinds'
import { headerWords } from './words/headerRole'

/** Sorts the rows by kind of entry once all kinds are known. */
export class KindsOfEntry {
  readonly #rows = new Map<string, number[]>()
  readonly #named: readonly string[] | null
  readonly #vague: boolean

  /** `vague` says that the column of values may hold other values too ('Value', 'Result'). */
  constructor(named: readonly string[] | null, vague: boolean) {
    this.#named = named
    this.#vague = vague
  }

  see(row: number, kind: string): void {
    if (kind === '') return
    const rows = this.#rows.get(kind)
    if (rows) rows.push(row)
    else this.#rows.set(kind, [row])
  }

  /**
   * In a column of glucose all kinds count but those of other measures. In one of values a kind that says
   * glucose leaves all others out; where none does, only known other kinds are. A sensor's go where finger-sticks are.
   */
  setOthersAside(table: RowTable): void {
    const meanings = new Map([...this.#rows.keys()].map((kind) => [kind, kindMeaning(kind)]))
    const anyGlucose = [...meanings.values()].includes('glucose')
    for (const [kind, rows] of this.#rows) {
      const meaning = meanings.get(kind) ?? 'unknown'
      const counts = this.#named
        ? this.#named.includes(kind)
        : meaning === 'glucose' ||
          meaning === 'control' ||
          meaning === 'moment' ||
          (meaning === 'sensor'
            ? !anyGlucose
            : meaning === 'other'
              ? !isMeasuredOtherwise(kind) && !this.#vague
              : !this.#vague || !anyGlucose)
      if (counts) continue
      // Where a person named the kinds that count, the others are none by their word.
      const known = meaning === 'other' || meaning === 'sensor'
      for (const row of rows) {
        const reason = table.fates.reasonOf(row)
        if (!known && this.#named === null) table.ofUnsureKind.add(row)
        if (reason !== 'repeated-header' && reason !== 'footer') table.fates.setAside(row, 'not-glucose')
      }
    }
  }
}

/** Whether a kind of entry is one whose values are never glucose, whatever the column is called. */
function isMeasuredOtherwise(kind: string): boolean {
  return headerWords(kind).against === 'other'
}
