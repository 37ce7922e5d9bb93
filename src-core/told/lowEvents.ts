import type { Analysis, PeriodFigures } from '../analysis/analysis'
import { FLAG, hasClockTime, hasFlag, isLow, type Readings } from '../log/readings'
import { chronologicalOrder, minutesBetween } from '../technique/chronology'

/** A low with the repeats of its set: shown as a sequence, because sugar may have been taken in between. */
export interface LowEvent {
  /** Indexes in the logbook, in order of time. */
  readonly members: readonly number[]
  /** Index of the lowest of them. */
  readonly lowest: number
  /** From the first test to the last; null for a single one. */
  readonly minutes: number | null
  /** The test after the last of them, or why none is known. */
  readonly next: NextTest | 'no-times' | 'log-ends'
  /** Index of the highest reading within four hours after the lowest one. */
  readonly highestAfter: number | null
}

export interface NextTest {
  readonly index: number
  readonly minutes: number
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
export const MOST_LOWS_FIRST = 8
/** Lows listed one by one; beyond them the list would be a book. */
export const MOST_LOWS_LISTED = 120

/** The lowest of the lows, the later of equal ones first taken, in order of time. */
export function lowestEvents(
  { readings }: Analysis,
  events: readonly LowEvent[],
  most = MOST_LOWS_FIRST,
): readonly LowEvent[] {
  return [...events]
    .sort((a, b) => readings.mgDl[a.lowest] - readings.mgDl[b.lowest] || b.lowest - a.lowest)
    .slice(0, most)
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
    next: timed ? nextTest(readings, tests, last) : 'no-times',
    highestAfter: timed ? highestAfter(readings, tests, lowest) : null,
  }
}

/** The next test, of any meter, and the minutes to it. */
function nextTest(readings: Readings, { order, nextAt }: Tests, index: number): LowEvent['next'] {
  if (nextAt[index] === order.length) return 'log-ends'
  const next = order[nextAt[index]]
  return { index: next, minutes: minutesBetween(readings, index, next) }
}

/** The test after each of these readings, of any meter; null where the log ends or gives no time. */
export function testsAfter(
  { readings }: Analysis,
  period: PeriodFigures,
  indexes: readonly number[],
): readonly ({ readonly index: number; readonly minutes: number } | null)[] {
  const tests = testsInOrder(readings, period)
  return indexes.map((index) => {
    const next = hasClockTime(readings, index) ? nextTest(readings, tests, index) : null
    return typeof next === 'string' ? null : next
  })
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

/** Longer sequences leave out their middle, but no low. */
const MOST_MEMBERS = 4

/** The members of a set that are shown, null for what is left out between them. */
export function sequenceOf(readings: Readings, members: readonly number[]): readonly (number | null)[] {
  if (members.length <= MOST_MEMBERS) return members
  return withGaps(members, (index, i) => i === 0 || i === members.length - 1 || isLow(readings, index))
}

/** The members that are shown, one null for each run of others between them. */
export function withGaps(
  members: readonly number[],
  isShown: (index: number, i: number) => boolean,
): readonly (number | null)[] {
  return members
    .map((index, i) => (isShown(index, i) ? index : null))
    .filter((index, i, all) => index !== null || all[i - 1] !== null)
}
