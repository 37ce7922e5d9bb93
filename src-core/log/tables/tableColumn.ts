import type { ColumnRole } from '../logReport'
import type { HeaderWords } from '../words/headerRole'

/** A column of a table on the way to its plan. */
export interface TableColumn {
  readonly index: number
  /** The header as it stands in the file. */
  readonly header: string
  /** The header with the group above and the unit below it. */
  readonly name: string
  readonly words: HeaderWords
  /** Whether its values are grams per litre, by its header or the title. */
  readonly inGrams: boolean
  role: ColumnRole
  /** Whether a person said what it holds. */
  named: boolean
}
