import type { Analysis, PeriodFigures } from '../analysis/analysis'
import { periodReadings } from '../analysis/periodReadings'
import { tellsOfFeelingLow, tellsOfNothingFelt } from '../day/awarenessWords'
import { hasClockTime, isLow, type Readings } from '../log/readings'
import { minutesBetween } from '../technique/chronology'

/** Readings listed in all (design choice). */
const MOST_LISTED = 8
/** Of them so many are kept for those felt as low, where there are as many. */
const KEPT_FOR_FELT = 4
/** So long after a low what was felt may be that low's. */
const AFTER_LOW_MINUTES = 60

/** Readings of one kind: how many, and indexes of the latest that are listed, in order of time. */
export interface Listed {
  readonly n: number
  readonly listed: readonly number[]
}

/** What the log's notes tell of feeling lows: for the visit, and no judgement. */
export interface AwarenessTold {
  /** Felt as low at 70 mg/dL or more, and not within an hour after a low. */
  readonly feltLow: Listed
  /** Low, and the note says that nothing was felt. */
  readonly nothingFelt: Listed
}

export function awarenessTold(analysis: Analysis, period: PeriodFigures): AwarenessTold {
  const { readings } = analysis
  const felt: number[] = []
  const nothing: number[] = []
  let low: number | null = null
  for (const index of periodReadings(analysis, period)) {
    const note = readings.note(index)
    if (isLow(readings, index)) {
      low = index
      if (tellsOfNothingFelt(note)) nothing.push(index)
    } else if (tellsOfFeelingLow(note) && !isSoonAfter(readings, low, index)) felt.push(index)
  }
  const room = MOST_LISTED - Math.min(felt.length, KEPT_FOR_FELT)
  const nothingListed = nothing.slice(-room)
  return {
    feltLow: { n: felt.length, listed: felt.slice(-(MOST_LISTED - nothingListed.length)) },
    nothingFelt: { n: nothing.length, listed: nothingListed },
  }
}

function isSoonAfter(readings: Readings, low: number | null, index: number): boolean {
  return (
    low !== null &&
    hasClockTime(readings, low) &&
    hasClockTime(readings, index) &&
    minutesBetween(readings, low, index) <= AFTER_LOW_MINUTES
  )
}
