import type { Line, Sheet } from '../sheet'
import type { Reading } from '../truth'

/** A table that holds glucose, with its header, before anything is put around it. */
export interface Table {
  readonly lines: readonly Line[]
  readonly readings: readonly Reading[]
  /** The title must say the unit: nothing in the table does, and the values need not. */
  readonly unitInTitle: boolean
  /** Nothing in the table says glucose, so a title must. */
  readonly glucoseInTitle: boolean
  /** How its title is written, where that is not as the file is: the unit may differ. */
  readonly titleSheet?: Sheet
}
