/** Figures of one hour of the clock; quantiles null without readings. mg/dL. */
export interface HourFigures {
  /** 0 to 23. */
  readonly hour: number
  readonly n: number
  readonly p10: number | null
  readonly q1: number | null
  readonly median: number | null
  readonly q3: number | null
  readonly p90: number | null
}

/** Figures of one three-hour block of the day. mg/dL. */
export interface BlockFigures {
  /** 0, 3, ... 21. */
  readonly fromHour: number
  /** 3, 6, ... 24. */
  readonly toHour: number
  readonly n: number
  readonly mean: number | null
  readonly sd: number | null
  readonly q1: number | null
  readonly median: number | null
  readonly q3: number | null
  readonly percentBelow70: number | null
  readonly percentAbove180: number | null
}

export interface TimeOfDay {
  readonly hours: readonly HourFigures[]
  readonly blocks: readonly BlockFigures[]
}
