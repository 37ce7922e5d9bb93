import type { Analysis, PeriodFigures } from '../analysis/analysis'
import { periodReadings } from '../analysis/periodReadings'
import type { LowNotCounted, Lows, NotCountedWhy } from '../day/lows'
import { hasClockTime, isMarker } from '../log/readings'
import { MEASURING_RANGE_MG_DL } from '../reference/meter'
import { minutesBetween } from '../technique/chronology'
import { countMarks } from '../technique/equipmentStretches'
import type { ReasonCode } from '../technique/reasons/reasonTable'
import { confirmedLows } from './confirmedLows'
import { hoursKnown } from './day'
import { type LowEvent, lowestEvents, lowEvents, MOST_LOWS_LISTED } from './lowEvents'
import { type NightsTold, nightsTold, nightsWithLows } from './nights'
import { bracketedLows, type Errs } from './stretches'

/** How many lows there are; of them so many carry a mark of doubt, and so many lie in a stretch that is told once. */
export interface LowsCounted {
  readonly below70: number
  readonly below54: number
  readonly days: number
  readonly marked: number
  readonly bracketed: number
  /** Of the doubtful ones so many stand beside another low: only how low is in doubt. */
  readonly confirmed: number
}

/** Possible lows that are in no count, of one reason. */
export interface NotCountedTold {
  readonly why: NotCountedWhy
  readonly n: number
  /** Where they stand; empty where that would be a list. */
  readonly lines: readonly Pick<LowNotCounted, 'source' | 'line' | 'row'>[]
}

/** What the list of lows cannot show. */
export type LowRemark =
  | {
      readonly code: 'bracketed'
      readonly n: number
      readonly causes: readonly ReasonCode[]
      readonly errs: readonly Errs[]
    }
  /** More lows than have room on page 1; so many of all stand behind, a set of repeats being one. */
  | { readonly code: 'further'; readonly shown: number; readonly behind: number; readonly of: number }
  | NightsTold
  | { readonly code: 'not-followed'; readonly n: number; readonly of: number }
  /** Values that no meter shows as a number: in the other unit they would be usual. */
  | { readonly code: 'below-meters'; readonly n: number }
  /** Just above the limit; `further`: beside lows. */
  | { readonly code: 'near'; readonly n: number; readonly further: boolean }
  | { readonly code: 'not-counted'; readonly groups: readonly NotCountedTold[] }
  /** Of readings written by this program: lows that were not counted then are not told. */
  | { readonly code: 'own-readings' }

/** The lows of a period as they are told, before any other figure. */
export interface LowsTold {
  readonly counted: LowsCounted
  readonly events: readonly LowEvent[]
  /** Those that come first. */
  readonly lowest: readonly LowEvent[]
  readonly remarks: readonly LowRemark[]
}

export function lowsTold(analysis: Analysis, period: PeriodFigures): LowsTold {
  const { readingsBelow70, readingsBelow54, daysWithLows, nearLows, notCounted } = period.lows
  const events = lowEvents(analysis, period)
  const lowest = lowestEvents(analysis, events)
  const marks = marksOfLows(analysis, period.lows)
  const stretches = bracketedLows(analysis, period)
  const notFollowed = lowsNotFollowed(analysis, period)
  const hours = hoursKnown(analysis.readings, periodReadings(analysis, period))
  const belowMeters = lowsBelowMeters(analysis, period)
  const remarks: readonly (LowRemark | false)[] = [
    marks.bracketed > 0 && {
      code: 'bracketed',
      n: marks.bracketed,
      causes: [...new Set(stretches.map(({ cause }) => cause))],
      errs: [...new Set(stretches.map(({ errs }) => errs))],
    },
    lowest.length < events.length && {
      code: 'further',
      shown: lowest.length,
      behind: Math.min(events.length, MOST_LOWS_LISTED),
      of: events.length,
    },
    hours ? nightsTold(period.lows, nightsWithLows(analysis.readings, period.lows)) : { code: 'no-times' },
    hours && notFollowed > 0 && { code: 'not-followed', n: notFollowed, of: readingsBelow70 },
    belowMeters > 0 && { code: 'below-meters', n: belowMeters },
    nearLows > 0 && { code: 'near', n: nearLows, further: readingsBelow70 > 0 },
    notCounted.length > 0 && { code: 'not-counted', groups: notCountedTold(notCounted) },
    analysis.sources.some(({ notes }) => notes.some(({ code }) => code === 'own-readings')) && {
      code: 'own-readings',
    },
  ]
  return {
    counted: {
      below70: readingsBelow70,
      below54: readingsBelow54,
      days: daysWithLows,
      ...marks,
      confirmed: confirmedLows(analysis, period).size,
    },
    events,
    lowest,
    remarks: remarks.filter((remark) => remark !== false),
  }
}

/** How many of the lows carry a mark of doubt, and how many lie within a bracket. */
export function marksOfLows(analysis: Analysis, { each }: Pick<Lows, 'each'>) {
  return countMarks(
    each.map(({ index }) => index),
    analysis,
  )
}

/** More lines are not named one by one (design choice). */
const MOST_LINES_NAMED = 3

/** By reason, in the order in which the reasons come first. */
export function notCountedTold(rows: readonly LowNotCounted[]): readonly NotCountedTold[] {
  return [...new Set(rows.map((row) => row.why))].map((why) => {
    const lines = rows.filter((row) => row.why === why)
    return { why, n: lines.length, lines: lines.length > MOST_LINES_NAMED ? [] : lines }
  })
}

/** Without what stands in the rows: notes may be among it. */
export function withoutRows(groups: readonly NotCountedTold[]): readonly NotCountedTold[] {
  return groups.map((group) => ({
    ...group,
    lines: group.lines.map(({ source, line }) => ({ source, line })),
  }))
}

/** After a low the next test should come sooner (design choice). */
const MINUTES_WITHOUT_A_TEST = 180

/** How many of the lows with a later test waited three hours or more for it. */
export function lowsNotFollowed({ readings }: Analysis, { lows }: PeriodFigures): number {
  return lows.each.filter(
    ({ index, next }) =>
      next !== null &&
      hasClockTime(readings, index) &&
      minutesBetween(readings, index, next) >= MINUTES_WITHOUT_A_TEST,
  ).length
}

/** How many lows of a period stand as numbers below what meters show. */
function lowsBelowMeters({ readings }: Analysis, { lows }: PeriodFigures): number {
  return lows.each.filter(
    ({ index }) => readings.mgDl[index] < MEASURING_RANGE_MG_DL.lowest && !isMarker(readings, index),
  ).length
}
