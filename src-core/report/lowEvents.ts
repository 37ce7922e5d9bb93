import type { Analysis, PeriodFigures } from '../analysis/analysis'
import { hasClockTime, type Readings } from '../log/readings'
import { minutesBetween } from '../technique/chronology'

/** A low with the repeats of its set: shown as a sequence, because sugar may have been taken in between. */
export interface LowEvent {
  /** Indexes in the logbook, in order of time. */
  readonly members: readonly number[]
  /** Index of the lowest of them. */
  readonly lowest: number
  /** From the first test to the last; null for a single one. */
  readonly minutes: number | null
  /** The test after the last of them. */
  readonly next: { readonly index: number; readonly minutes: number } | null
  /** Index of the highest reading within four hours after the lowest one. */
  readonly highestAfter: number | null
}

const MINUTES_WATCHED = 240

/** The period's lows, each set of repeats once, in order of time. */
export function lowEvents(analysis: Analysis, figures: PeriodFigures): readonly LowEvent[] {
  const { readings, technique } = analysis
  const setOf = new Map<number, readonly number[]>()
  for (const set of technique.repeatSets) {
    if (set.holdsLow) for (const member of set.members) setOf.set(member, set.members)
  }
  const told = new Set<readonly number[]>()
  const events: LowEvent[] = []
  for (const { index } of figures.lows.each) {
    const members = setOf.get(index) ?? [index]
    if (told.has(members)) continue
    told.add(members)
    events.push(lowEvent(readings, members))
  }
  return events
}

function lowEvent(readings: Readings, members: readonly number[]): LowEvent {
  const last = members[members.length - 1]
  const lowest = members.reduce((low, i) => (readings.mgDl[i] < readings.mgDl[low] ? i : low))
  const timed = hasClockTime(readings, lowest)
  return {
    members,
    lowest,
    minutes: members.length > 1 ? minutesBetween(readings, members[0], last) : null,
    next: timed ? nextTest(readings, last) : null,
    highestAfter: timed ? highestAfter(readings, lowest) : null,
  }
}

/** The next reading with a time, of any meter, and the minutes to it. */
function nextTest(readings: Readings, index: number): LowEvent['next'] {
  for (let i = index + 1; i < readings.n; i++) {
    if (hasClockTime(readings, i)) return { index: i, minutes: minutesBetween(readings, index, i) }
  }
  return null
}

function highestAfter(readings: Readings, index: number): number | null {
  let highest: number | null = null
  for (let i = index + 1; i < readings.n; i++) {
    if (!hasClockTime(readings, i)) continue
    if (minutesBetween(readings, index, i) > MINUTES_WATCHED) break
    if (highest === null || readings.mgDl[i] > readings.mgDl[highest]) highest = i
  }
  return highest
}

/** How many of the lows with a later test waited three hours or more for it. */
export function lowsNotFollowed(analysis: Analysis, figures: PeriodFigures): number {
  const MINUTES = 180
  return figures.lows.each.filter(
    ({ index, next }) =>
      next !== null &&
      hasClockTime(analysis.readings, index) &&
      minutesBetween(analysis.readings, index, next) >= MINUTES,
  ).length
}
