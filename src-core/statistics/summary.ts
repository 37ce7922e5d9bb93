/** The figures of a set of readings. mg/dL; percentages 0 to 100; null where a figure cannot be computed. */
export interface Summary {
  readonly n: number
  readonly mean: number | null
  /** Sample standard deviation (n - 1). */
  readonly sd: number | null
  /** 100 x SD / mean. */
  readonly cvPercent: number | null
  readonly median: number | null
  readonly q1: number | null
  readonly q3: number | null
  readonly min: number | null
  readonly max: number | null
  /** Counts of markers at the meter's limits. */
  readonly belowRange: number
  readonly aboveRange: number
  readonly percentBelow54: number | null
  readonly percentBelow70: number | null
  readonly percentInTarget: number | null
  readonly percentAbove180: number | null
  readonly percentAbove250: number | null
  readonly estimatedA1cPercent: number | null
  readonly estimatedA1cMmolMol: number | null
  /** Limits of the published range; each null where it falls outside the published table. */
  readonly estimatedA1cRangePercent: readonly [number | null, number | null] | null
  readonly balancedMean: number | null
  readonly balancedBlocks: number
  readonly lbgi: number | null
  readonly hbgi: number | null
}
