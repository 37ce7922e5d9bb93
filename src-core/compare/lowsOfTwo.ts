import type { Lows } from '../day/lows'
import type { DaySpan } from '../log/readings'
import { FEWEST_DAYS } from '../statistics/errorByDays'
import type { Standing, Verdict } from './comparison'
import type { Summary } from '../statistics/summary'
import { roundHalfAway } from '../units/rounding'

/** What of a period is set beside another. */
export interface ComparedPeriod extends DaySpan {
  /** Indexes `[start, end)` of its readings. */
  readonly start: number
  readonly end: number
  readonly daysWithReadings: number
  readonly readingsPerDay: number
  readonly asLogged: Summary
  readonly lows: Lows
}

/** The lows of a period beside how much was tested: every low counts, doubtful ones too. */
export interface LowsOfPeriod {
  readonly readingsBelow70: number
  readonly readingsBelow54: number
  readonly episodes: number
  readonly daysWithLows: number
  readonly daysWithReadings: number
  readonly readingsPerDay: number
  /** Nights with a test from 00:00 to before 06:00, and all nights of the period. */
  readonly nightsTested: number
  readonly nights: number
  /** Whether the log tells the time of enough readings to count nights. */
  readonly timesKnown: boolean
}

export function lowsOfPeriod(period: ComparedPeriod, timesKnown: boolean): LowsOfPeriod {
  const { readingsBelow70, readingsBelow54, episodes, daysWithLows, nightsTested, nights } = period.lows
  return {
    readingsBelow70,
    readingsBelow54,
    episodes: episodes.length,
    daysWithLows,
    daysWithReadings: period.daysWithReadings,
    readingsPerDay: period.readingsPerDay,
    nightsTested,
    nights,
    timesKnown,
  }
}

type Direction = 'more' | 'fewer' | 'same'

/** How lows changed from the earlier period to the later. */
export interface LowsChange {
  readonly earlier: LowsOfPeriod
  readonly later: LowsOfPeriod
  readonly none: boolean
  /**
   * Of readings below 70 for each day with readings; where these are alike, of those below 54. No low in few days is no
   * sign of fewer, nor are fewer lows where nobody knows which nights were tested; more are always told.
   */
  readonly said: Direction | 'too-few-days' | 'times-unknown'
  /** What differs: their number, that of those below 54 alone, or their number for each day with tests alone. */
  readonly by: 'count' | 'very-low' | 'a-day'
  /** What the table's share says beside it. */
  readonly standing: LowsStanding
  /** What the number of tests makes of the change; it never takes a low away. */
  readonly caution: 'fewer-tests' | 'untested-hours' | 'more-tests' | null
}

/**
 * Whether the share of lows is called higher or lower too; else what may have made the change: chance, or tests at other hours
 * or meals. 'mixed' where the share is clear and went the other way.
 */
export type LowsStanding = 'clear' | 'chance' | 'tests' | 'mixed'

/** What the table says of a share of the later period; null where it says nothing. */
export type ShareSaid = Verdict | Exclude<Standing, 'judged'> | null

/** `shares`: what the table says of the shares of lows. */
export function lowsChange(
  earlier: LowsOfPeriod,
  later: LowsOfPeriod,
  shares: { readonly below70: ShareSaid; readonly below54: ShareSaid },
): LowsChange {
  const a = perDay(earlier)
  const b = perDay(later)
  const below70 = direction(a.below70, b.below70)
  const lows = below70 === 'same' ? direction(a.below54, b.below54) : below70
  const isVeryLow = below70 === 'same' && lows !== 'same'
  const counted = direction(earlier.readingsBelow70, later.readingsBelow70)
  // A day has so many tests as are printed, with one decimal.
  const tests = direction(roundHalfAway(earlier.readingsPerDay, 1), roundHalfAway(later.readingsPerDay, 1))
  const fewDays = Math.min(earlier.daysWithReadings, later.daysWithReadings) < FEWEST_DAYS
  return {
    earlier,
    later,
    none: earlier.readingsBelow70 + later.readingsBelow70 === 0,
    said:
      fewDays && lows !== 'more'
        ? 'too-few-days'
        : lows === 'fewer' && !(earlier.timesKnown && later.timesKnown)
          ? 'times-unknown'
          : lows,
    by: isVeryLow ? 'very-low' : lows === counted ? 'count' : 'a-day',
    standing: standingOfLows(lows, isVeryLow ? shares.below54 : shares.below70),
    caution:
      lows === 'fewer'
        ? tests === 'fewer'
          ? 'fewer-tests'
          : 'untested-hours'
        : lows === 'more' && tests === 'more'
          ? 'more-tests'
          : null,
  }
}

function standingOfLows(lows: Direction, share: ShareSaid): LowsStanding {
  if (share === 'withheld') return 'tests'
  if (share !== 'higher' && share !== 'lower') return 'chance'
  return (share === 'higher') === (lows === 'more') ? 'clear' : 'mixed'
}

function perDay({ readingsBelow70, readingsBelow54, daysWithReadings }: LowsOfPeriod) {
  return { below70: readingsBelow70 / daysWithReadings, below54: readingsBelow54 / daysWithReadings }
}

function direction(before: number, after: number): Direction {
  // Quotients of whole numbers: what is alike is equal but for rounding.
  if (Math.abs(before - after) < 1e-9) return 'same'
  return after > before ? 'more' : 'fewer'
}
