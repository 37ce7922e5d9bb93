import type { Lows } from '../day/lows'
import { hourRuns, type Hours } from './day'

/** An hour of the night with tests on fewer of the nights that were tested is told as hardly tested (design choices). */
const HARDLY_TESTED_SHARE = 0.1
const FEWEST_NIGHTS_BY_HOUR = 10

/** How many nights were tested, and which of their hours hardly. */
export interface NightsTold {
  readonly tested: number
  readonly nights: number
  /** `most`: nights tested in any of these hours. */
  readonly hardly: readonly { readonly hours: Hours; readonly most: number }[]
}

export function nightsTold({
  nightsTested: tested,
  nights,
  nightsTestedByHour,
}: Pick<Lows, 'nightsTested' | 'nights' | 'nightsTestedByHour'>): NightsTold {
  const hardly = nightsTestedByHour.flatMap((n, hour) => (n < HARDLY_TESTED_SHARE * tested ? [hour] : []))
  return {
    tested,
    nights,
    hardly:
      tested < FEWEST_NIGHTS_BY_HOUR
        ? []
        : hourRuns(hardly).map((hours) => ({
            hours,
            most: Math.max(...nightsTestedByHour.slice(...hours)),
          })),
  }
}
