import { FLAG, isMarker, type Readings } from '../../log/readings'
import { quantileR7 } from '../../statistics/quantile'

/** Where a person's readings lie: centre and spread of their natural logarithms (mg/dL). */
export interface UsualRange {
  readonly centre: number
  readonly spread: number
}

/** Fewer readings do not tell what is usual. */
const FEWEST_READINGS = 10
const LEAST_SPREAD = 0.2
/** Interquartile range of a normal distribution, in standard deviations. */
const QUARTILES_APART = 1.349

/** Median and robust spread of the finger-sticks; null where there are too few. */
export function usualRange(readings: Readings): UsualRange | null {
  const logs: number[] = []
  for (let i = 0; i < readings.n; i++) {
    if ((readings.flags[i] & FLAG.sensor) === 0 && !isMarker(readings, i))
      logs.push(Math.log(readings.mgDl[i]))
  }
  if (logs.length < FEWEST_READINGS) return null
  const sorted = Float64Array.from(logs).sort()
  const at = (share: number) => quantileR7(sorted, share) as number
  return { centre: at(0.5), spread: Math.max(LEAST_SPREAD, (at(0.75) - at(0.25)) / QUARTILES_APART) }
}
