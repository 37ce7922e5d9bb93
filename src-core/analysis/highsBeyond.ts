import type { Analysis, PeriodFigures } from './analysis'
import { periodReadings } from './periodReadings'
import { FLAG, hasFlag } from '../log/readings'
import { dayOf } from '../units/wallClock'

/** So many of the latest HI are told one by one before all others, as many as of the lows. */
const MOST_TOLD = 8

/** Readings above the meter's range: they have no number, but each one counts. */
export interface HighsBeyond {
  readonly n: number
  readonly days: number
  /** Indexes of the latest, in order of time. */
  readonly latest: readonly number[]
  /** Indexes of those that are doubtful. */
  readonly doubtful: readonly number[]
}

/** The HI of a period; null where there is none. */
export function highsBeyond(analysis: Analysis, figures: PeriodFigures): HighsBeyond | null {
  const { readings } = analysis
  const indexes = periodReadings(analysis, figures).filter((i) => hasFlag(readings, i, FLAG.aboveRange))
  if (indexes.length === 0) return null
  return {
    n: indexes.length,
    days: new Set(indexes.map((index) => dayOf(readings.at[index]))).size,
    latest: indexes.slice(-MOST_TOLD),
    doubtful: analysis.technique.doubtful
      .map(({ index }) => index)
      .filter((index) => indexes.includes(index)),
  }
}
