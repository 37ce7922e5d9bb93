/** What of the pages is printed, where somebody chose; left out: all pages, the method in short, with the log's notes. */
export interface Printed {
  /** The first page alone: nothing on it points to a later one. */
  readonly onePage?: boolean | undefined
  /** How every figure is computed, with its source. */
  readonly wholeMethod?: boolean | undefined
  /** No note of the log, in which a person may have written what is for nobody else. */
  readonly withoutNotes?: boolean | undefined
}
