import { FLAG, isAbove, isBelow, isLow, type Readings } from '../log/readings'
import {
  LOW_EPISODE_GAP_MINUTES,
  NIGHT_ENDS_AT_HOUR,
  RECOVERY_SEEN_WITHIN_MINUTES,
} from '../reference/dayParts'
import { LIMITS } from '../reference/limits'
import { NEAR_LOW_UP_TO } from '../reference/nearLow'
import { minutesBetween } from '../technique/chronology'
import { dayOf, secondOfDay, type WallSeconds } from '../units/wallClock'

/** A run of readings below 70 mg/dL, each at most 60 minutes after the one before. */
export interface LowEpisode {
  readonly from: WallSeconds
  readonly to: WallSeconds
  readonly lowestMgDl: number
  /** Indexes of its readings in the logbook. */
  readonly members: readonly number[]
  /** How many of them are doubtful. */
  readonly doubtful: number
  /** Index of the first reading after it that is no low, of any meter and also after the period; null where hours pass without. */
  readonly recovered: number | null
}

/** One low and what came after it. */
export interface LowReading {
  /** Index in the logbook. */
  readonly index: number
  /** Index of the next reading of any meter; null where none follows. */
  readonly next: number | null
}

/** A row that may be a low and is in no count. */
export interface LowNotCounted {
  readonly source: number
  readonly line: number
  readonly why: NotCountedWhy
  /** The row as it stands in the file; absent where it is long, or counts in another period. */
  readonly row?: string
}

/** What keeps a possible low out of the counts. */
export type NotCountedWhy =
  'outside-period' | 'control' | 'date' | 'cells' | 'unreadable' | 'no-reading' | 'set-aside'

export interface Lows {
  readonly readingsBelow70: number
  readonly readingsBelow54: number
  /** Nights with a reading from 00:00 to before 06:00. */
  readonly nightsTested: number
  /** The period's days. */
  readonly nights: number
  /** Nights with a reading in each of the hours from 00 to 05. */
  readonly nightsTestedByHour: readonly number[]
  /** Days with a low. */
  readonly daysWithLows: number
  readonly each: readonly LowReading[]
  readonly episodes: readonly LowEpisode[]
  readonly notCounted: readonly LowNotCounted[]
  /** Readings from 70 to 84 mg/dL (3.9 to 4.7 mmol/L): a meter within its standard could show them with a true value below 70. */
  readonly nearLows: number
}

/** What the lows of a period are found in. */
export interface LowsQuery {
  readonly readings: Readings
  /** `chronologicalOrder(readings)`. */
  readonly order: Uint32Array
  /** The period's readings, `[start, end)`. */
  readonly start: number
  readonly end: number
  /** The period's days. */
  readonly days: number
  /** Readings with any of these bits (`FLAG`) are not looked at. */
  readonly leaveOut: number
  /** Indexes of the doubtful readings. */
  readonly doubtful: ReadonlySet<number>
  readonly notCounted: readonly LowNotCounted[]
}

/** The lows of a period, doubtful ones included. */
export function findLows(query: LowsQuery): Lows {
  const { readings, start, end, leaveOut } = query
  let readingsBelow70 = 0
  let readingsBelow54 = 0
  let nearLows = 0
  const daysWithLows = new Set<number>()
  for (let i = start; i < end; i++) {
    if (readings.flags[i] & leaveOut) continue
    if (isLow(readings, i)) {
      readingsBelow70++
      daysWithLows.add(dayOf(readings.at[i]))
    } else if (!isAbove(readings, i, NEAR_LOW_UP_TO)) nearLows++
    if (isBelow(readings, i, LIMITS.veryLow)) readingsBelow54++
  }
  return {
    readingsBelow70,
    readingsBelow54,
    ...countNightsTested(query),
    nights: query.days,
    daysWithLows: daysWithLows.size,
    each: lowsWithNextTest(query),
    episodes: findEpisodes(query),
    notCounted: query.notCounted,
    nearLows,
  }
}

function countNightsTested({ readings, start, end, leaveOut }: LowsQuery) {
  const ofHour = Array.from({ length: NIGHT_ENDS_AT_HOUR }, () => new Set<number>())
  for (let i = start; i < end; i++) {
    if (readings.flags[i] & (leaveOut | FLAG.dayOnly)) continue
    const hour = Math.floor(secondOfDay(readings.at[i]) / 3600)
    if (hour < NIGHT_ENDS_AT_HOUR) ofHour[hour].add(dayOf(readings.at[i]))
  }
  return {
    nightsTested: new Set(ofHour.flatMap((nights) => [...nights])).size,
    nightsTestedByHour: ofHour.map(({ size }) => size),
  }
}

function lowsWithNextTest({ readings, order, start, end, leaveOut }: LowsQuery): LowReading[] {
  const each: LowReading[] = []
  let next: number | null = null
  for (let position = order.length - 1; position >= 0; position--) {
    const index = order[position]
    if (readings.flags[index] & leaveOut) continue
    const timed = (readings.flags[index] & FLAG.dayOnly) === 0
    if (index >= start && index < end && isLow(readings, index)) {
      // Without a time of day nobody knows which test came next.
      each.push({ index, next: timed ? next : null })
    }
    if (timed) next = index
  }
  return each.reverse()
}

function findEpisodes({ readings, order, start, end, leaveOut, doubtful }: LowsQuery): LowEpisode[] {
  const runs: number[][] = []
  /** The runs after which nothing but lows was read so far, and what ended each. */
  let open: number[][] = []
  const endedBy = new Map<number[], number>()
  let run: number[] | null = null
  for (const index of order) {
    if (readings.flags[index] & (leaveOut | FLAG.dayOnly)) continue
    const isOfPeriod = index >= start && index < end
    if (!isLow(readings, index)) {
      for (const ended of open) endedBy.set(ended, index)
      open = []
      if (isOfPeriod) run = null
    } else if (!isOfPeriod) {
      continue
    } else if (
      run !== null &&
      minutesBetween(readings, run[run.length - 1], index) <= LOW_EPISODE_GAP_MINUTES
    ) {
      run.push(index)
    } else {
      runs.push((run = [index]))
      open.push(run)
    }
  }
  return runs.map((members) => ({
    from: readings.at[members[0]],
    to: readings.at[members[members.length - 1]],
    lowestMgDl: members.reduce((lowest, index) => Math.min(lowest, readings.mgDl[index]), Infinity),
    members,
    doubtful: members.filter((index) => doubtful.has(index)).length,
    recovered: recoveredBy(readings, members, endedBy.get(members) ?? null),
  }))
}

function recoveredBy(readings: Readings, members: readonly number[], index: number | null): number | null {
  if (index === null) return null
  const minutes = minutesBetween(readings, members[members.length - 1], index)
  return minutes <= RECOVERY_SEEN_WITHIN_MINUTES ? index : null
}
