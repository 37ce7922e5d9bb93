/** Two repeats that cannot both be right: evidence of 'contradicted-by-repeat'. mg/dL, minutes. */
export interface ContradictedByRepeat {
  readonly code: 'contradicted-by-repeat'
  readonly evidence: {
    /** Index of the reading that contradicts this one. */
    readonly other: number
    readonly otherMgDl: number
    /** Signed: positive where the other came later. */
    readonly minutes: number
    readonly differenceMgDl: number
    /** What the meter standard and honest change allow between the two. */
    readonly allowedMgDl: number
    readonly membersOfSet: number
  }
}

/** Why a reading is doubted, with its evidence. The words are made in `wording`. */
export type DoubtReason = ContradictedByRepeat

export interface DoubtfulReading {
  /** Index in the logbook. */
  readonly index: number
  /** Probability, 0 to 1, that the reading is off by more than 30 %. */
  readonly doubt: number
  readonly reasons: readonly DoubtReason[]
}

/** Two or more finger-sticks, each at most 10 minutes after the one before. */
export interface RepeatSet {
  /** Indexes in the logbook, in order of time. */
  readonly members: readonly number[]
  readonly meanMgDl: number
  readonly consensusMgDl: number
  /** 100 x (max - min) / mean. */
  readonly spreadPercent: number
  readonly agree: boolean
  readonly holdsLow: boolean
}

/** How well repeats agree, over the sets of one meter that agree. */
export interface Repeatability {
  readonly sets: number
  readonly readings: number
  readonly withinSdMgDl: number | null
  readonly withinCvPercent: number | null
  readonly withinCvCi95: readonly [number, number] | null
}

export interface Technique {
  /** Doubt of each reading of the logbook; NaN for sensor readings, days without a time and changed conditions. */
  readonly doubt: Float64Array
  /** Where all other readings put the true value with 95 % probability, mg/dL; NaN as above. */
  readonly expectedLow: Float64Array
  readonly expectedHigh: Float64Array
  readonly doubtful: readonly DoubtfulReading[]
  readonly repeatSets: readonly RepeatSet[]
  readonly repeatability: Repeatability
  readonly meters: readonly { readonly meter: string; readonly n: number }[]
}
