import type { Analysis, PeriodFigures } from '../analysis/analysis'
import { FLAG, hasClockTime, hasFlag, isMarker, type Readings } from '../log/readings'
import { MEASURING_RANGE_MG_DL } from '../reference/meter'
import { chronologicalOrder, minutesBetween } from '../technique/chronology'

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
  const tests = testsInOrder(readings, figures)
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
    events.push(lowEvent(readings, tests, members))
  }
  return events
}

/** Lows that are shown one by one before all others. */
const MOST_LOWS_FIRST = 8

/** The lowest of the lows, the later of equal ones first taken, in order of time. */
export function lowestEvents({ readings }: Analysis, events: readonly LowEvent[]): readonly LowEvent[] {
  return [...events]
    .sort((a, b) => readings.mgDl[a.lowest] - readings.mgDl[b.lowest] || b.lowest - a.lowest)
    .slice(0, MOST_LOWS_FIRST)
    .sort((a, b) => a.members[0] - b.members[0])
}

/** The tests that may come after a low, with the place of each reading among them. */
interface Tests {
  /** Indexes in the logbook, in the order in which they were taken. */
  readonly order: Uint32Array
  /** For each reading of the logbook, where in `order` the next test stands. */
  readonly nextAt: Uint32Array
}

/** Readings with a time; of a sensor only where the period's figures come from a sensor. */
function testsInOrder(readings: Readings, { kind }: PeriodFigures): Tests {
  const order = new Uint32Array(readings.n)
  const nextAt = new Uint32Array(readings.n)
  let n = 0
  for (const index of chronologicalOrder(readings)) {
    const counts = kind === 'sensor' || !hasFlag(readings, index, FLAG.sensor)
    if (counts && hasClockTime(readings, index)) order[n++] = index
    nextAt[index] = n
  }
  return { order: order.subarray(0, n), nextAt }
}

function lowEvent(readings: Readings, tests: Tests, members: readonly number[]): LowEvent {
  const last = members[members.length - 1]
  const lowest = members.reduce((low, i) => (readings.mgDl[i] < readings.mgDl[low] ? i : low))
  const timed = hasClockTime(readings, lowest)
  return {
    members,
    lowest,
    minutes: members.length > 1 ? minutesBetween(readings, members[0], last) : null,
    next: timed ? nextTest(readings, tests, last) : null,
    highestAfter: timed ? highestAfter(readings, tests, lowest) : null,
  }
}

/** The next test, of any meter, and the minutes to it. */
function nextTest(readings: Readings, { order, nextAt }: Tests, index: number): LowEvent['next'] {
  if (nextAt[index] === order.length) return null
  const next = order[nextAt[index]]
  return { index: next, minutes: minutesBetween(readings, index, next) }
}

function highestAfter(readings: Readings, { order, nextAt }: Tests, index: number): number | null {
  let highest: number | null = null
  for (let at = nextAt[index]; at < order.length; at++) {
    const later = order[at]
    if (minutesBetween(readings, index, later) > MINUTES_WATCHED) break
    if (highest === null || readings.mgDl[later] > readings.mgDl[highest]) highest = later
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

/** How many lows of a period stand as numbers below what meters show. */
export function belowMeters({ readings }: Analysis, { lows }: PeriodFigures): number {
  return lows.each.filter(
    ({ index }) => readings.mgDl[index] < MEASURING_RANGE_MG_DL.lowest && !isMarker(readings, index),
  ).length
}
