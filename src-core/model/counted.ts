/** Readings, and how many of them are markers. */
export interface Counted {
  readonly n: number
  /** LO and HI markers. */
  readonly belowRange: number
  readonly aboveRange: number
}
