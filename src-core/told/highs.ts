import type { Analysis, PeriodFigures } from '../analysis/analysis'
import { highsBeyond } from '../analysis/highsBeyond'
import { shareCount } from './measures'

/** HI that are dated on the first page (design choice). */
const MOST_DATED = 3

/** How many of a period's readings are high. */
export interface HighsTold {
  readonly above180: number
  readonly above250: number
  /** How many are HI, and the indexes of the latest, in order of time. */
  readonly beyond: number
  readonly latest: readonly number[]
  /** Indexes of the HI that are doubtful. */
  readonly doubtful: readonly number[]
}

export function highsTold(analysis: Analysis, period: PeriodFigures): HighsTold {
  const { asLogged } = period
  const beyond = highsBeyond(analysis, period)
  return {
    above180: shareCount('percentAbove180', asLogged).count,
    above250: shareCount('percentAbove250', asLogged).count,
    beyond: beyond?.n ?? 0,
    latest: beyond?.latest.slice(-MOST_DATED) ?? [],
    doubtful: beyond?.doubtful ?? [],
  }
}
