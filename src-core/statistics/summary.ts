import type { Settings } from '../model/settings'
import { FLAG, isAbove, isBelow, type Readings } from '../log/readings'
import { LIMITS } from '../reference/limits'
import { balancedMean } from './balancedMean'
import { a1cPercentToMmolMol, estimatedA1cPercent, estimatedA1cRange } from './estimatedA1c'
import { mean, sampleSd } from './moments'
import { quantileR7 } from './quantile'
import { riskIndices } from './riskIndices'

/** The figures of a set of readings. mg/dL; percentages 0 to 100; null where a figure cannot be computed. */
export interface Summary {
  readonly n: number
  readonly meanMgDl: number | null
  /** Sample standard deviation (n - 1). */
  readonly sdMgDl: number | null
  /** 100 x SD / mean. */
  readonly cvPercent: number | null
  readonly medianMgDl: number | null
  readonly q1MgDl: number | null
  readonly q3MgDl: number | null
  readonly minMgDl: number | null
  readonly maxMgDl: number | null
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
  readonly balancedMeanMgDl: number | null
  readonly balancedBlocks: number
  readonly lbgi: number | null
  readonly hbgi: number | null
  /** Glucose management indicator; of sensor readings only. */
  readonly gmiPercent?: number | null
}

/**
 * Sums up the readings `[start, end)` without those that have a bit of `leaveOut` (`FLAG`). Limits are held
 * against each reading in the unit it was logged in.
 */
export function summarise(
  readings: Readings,
  start: number,
  end: number,
  settings: Pick<Settings, 'targetLow' | 'targetHigh'>,
  leaveOut = 0,
): Summary {
  const counts = countReadings(readings, start, end, settings, leaveOut)
  const sorted = sortedMgDl(readings, start, end, leaveOut)
  const n = sorted.length
  const average = mean(sorted)
  const sd = sampleSd(sorted)
  const balanced = balancedMean(readings, start, end, leaveOut)
  const risk = riskIndices(sorted)
  const a1c = average === null ? null : estimatedA1cPercent(average)
  const percent = (count: number) => (n === 0 ? null : (100 * count) / n)
  return {
    n,
    meanMgDl: average,
    sdMgDl: sd,
    cvPercent: average === null || sd === null ? null : (100 * sd) / average,
    medianMgDl: quantileR7(sorted, 0.5),
    q1MgDl: quantileR7(sorted, 0.25),
    q3MgDl: quantileR7(sorted, 0.75),
    minMgDl: n === 0 ? null : sorted[0],
    maxMgDl: n === 0 ? null : sorted[n - 1],
    belowRange: counts.belowRange,
    aboveRange: counts.aboveRange,
    percentBelow54: percent(counts.below54),
    percentBelow70: percent(counts.below70),
    percentInTarget: percent(counts.inTarget),
    percentAbove180: percent(counts.above180),
    percentAbove250: percent(counts.above250),
    estimatedA1cPercent: a1c,
    estimatedA1cMmolMol: a1c === null ? null : a1cPercentToMmolMol(a1c),
    estimatedA1cRangePercent: average === null ? null : estimatedA1cRange(average),
    balancedMeanMgDl: balanced.mean,
    balancedBlocks: balanced.blocks,
    lbgi: risk?.lbgi ?? null,
    hbgi: risk?.hbgi ?? null,
  }
}

function countReadings(
  readings: Readings,
  start: number,
  end: number,
  { targetLow, targetHigh }: Pick<Settings, 'targetLow' | 'targetHigh'>,
  leaveOut: number,
) {
  const counts = {
    belowRange: 0,
    aboveRange: 0,
    below54: 0,
    below70: 0,
    inTarget: 0,
    above180: 0,
    above250: 0,
  }
  for (let i = start; i < end; i++) {
    const flags = readings.flags[i]
    if (flags & leaveOut) continue
    if (flags & FLAG.belowRange) counts.belowRange++
    if (flags & FLAG.aboveRange) counts.aboveRange++
    if (isBelow(readings, i, LIMITS.veryLow)) counts.below54++
    if (isBelow(readings, i, LIMITS.low)) counts.below70++
    if (isAbove(readings, i, LIMITS.high)) counts.above180++
    if (isAbove(readings, i, LIMITS.veryHigh)) counts.above250++
    if (!isBelow(readings, i, targetLow) && !isAbove(readings, i, targetHigh)) counts.inTarget++
  }
  return counts
}

function sortedMgDl(readings: Readings, start: number, end: number, leaveOut: number): Float64Array {
  const values = new Float64Array(end - start)
  let n = 0
  for (let i = start; i < end; i++) {
    if ((readings.flags[i] & leaveOut) === 0) values[n++] = readings.mgDl[i]
  }
  return values.subarray(0, n).sort()
}
