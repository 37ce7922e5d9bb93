import type { Analysis, PeriodFigures } from '../analysis/analysis'
import { highsBeyond } from '../analysis/highsBeyond'
import { shareCount } from './measures'

/** How many of a period's readings are high. */
export interface HighsTold {
  readonly above180: number
  readonly above250: number
  /** How many are HI, and the index of the latest; null where none is. */
  readonly beyond: number
  readonly latest: number | null
}

export function highsTold(analysis: Analysis, period: PeriodFigures): HighsTold {
  const { asLogged } = period
  const beyond = highsBeyond(analysis, period)
  return {
    above180: shareCount('percentAbove180', asLogged).count,
    above250: shareCount('percentAbove250', asLogged).count,
    beyond: beyond?.n ?? 0,
    latest: beyond?.latest.at(-1) ?? null,
  }
}
