import type { Lows } from '../day/lows'
import { hasClockTime, type Readings } from '../log/readings'
import { NIGHT_ENDS_AT_HOUR } from '../reference/dayParts'
import { dayOf, secondOfDay } from '../units/wallClock'
import type { Hours } from './coverage'
import { hourRuns } from './day'

/** An hour of the night with tests on fewer of the nights that were tested is told as hardly tested (design choices). */
const HARDLY_TESTED_SHARE = 0.1
const FEWEST_NIGHTS_BY_HOUR = 10

/** How many nights were tested, and which of their hours hardly; of a log without times that is not known. */
export type NightsTold = { readonly code: 'no-times' } | NightsCounted

export interface NightsCounted {
  readonly code: 'nights'
  readonly tested: number
  readonly nights: number
  /** Nights with a low. */
  readonly withLows: number
  /** `most`: nights tested in any of these hours. */
  readonly hardly: readonly { readonly hours: Hours; readonly most: number }[]
  /** Where a low would not show: in the night at all, on the other nights, in the hours hardly tested, in those and on the others. */
  readonly unseen: 'nowhere' | 'there' | 'on-others' | 'then' | 'then-and-on-others'
}

/** Nights with a low, by the days on which they end. */
export function nightsWithLows(readings: Readings, { each }: Pick<Lows, 'each'>): number {
  const atNight = each.filter(
    ({ index }) =>
      hasClockTime(readings, index) && secondOfDay(readings.at[index]) < NIGHT_ENDS_AT_HOUR * 3600,
  )
  return new Set(atNight.map(({ index }) => dayOf(readings.at[index]))).size
}

export function nightsTold(
  {
    nightsTested: tested,
    nights,
    nightsTestedByHour,
  }: Pick<Lows, 'nightsTested' | 'nights' | 'nightsTestedByHour'>,
  withLows: number,
): NightsCounted {
  const hours = nightsTestedByHour.flatMap((n, hour) => (n < HARDLY_TESTED_SHARE * tested ? [hour] : []))
  const hardly =
    tested < FEWEST_NIGHTS_BY_HOUR
      ? []
      : hourRuns(hours).map((run) => ({ hours: run, most: Math.max(...nightsTestedByHour.slice(...run)) }))
  const allTested = tested === nights
  return {
    code: 'nights',
    ...{ tested, nights, withLows, hardly },
    unseen:
      hardly.length > 0
        ? allTested
          ? 'then'
          : 'then-and-on-others'
        : allTested
          ? 'nowhere'
          : tested === 0
            ? 'there'
            : 'on-others',
  }
}
