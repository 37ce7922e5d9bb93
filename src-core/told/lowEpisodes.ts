import type { Analysis, PeriodFigures } from '../analysis/analysis'
import { FLAG, hasClockTime, hasFlag, type Readings } from '../log/readings'
import { tellsOfHelp } from '../day/helpWords'
import {
  BLOCK_HOURS,
  BLOCKS_PER_DAY,
  LOW_EPISODE_GAP_MINUTES,
  RECOVERY_SEEN_WITHIN_MINUTES,
} from '../reference/dayParts'
import { chronologicalOrder, minutesBetween } from '../technique/chronology'
import { secondOfDay } from '../units/wallClock'
import { confirmedLows } from './confirmedLows'
import { withGaps } from './lowEvents'

/** A run of lows as it went on: every reading from the first low to the first that is none. */
export interface EpisodeTold {
  /** Indexes in the logbook, in order of time; null for what is left out of a long one. */
  readonly sequence: readonly (number | null)[]
  /** Its lows. */
  readonly lows: readonly number[]
  /** Whether the sequence shows all of them: of a run without an end, the first, the last and the lowest. */
  readonly showsAllLows: boolean
  /** Index of the lowest of them. */
  readonly lowest: number
  /** From its first reading to its last; null of a single one. */
  readonly minutes: number | null
  /**
   * The next test is low again, though it belongs to another episode; or a doubtful one between them was not: minutes from
   * the last reading of this one. Else null.
   */
  readonly lowAgainAfter: number | null
  /** From its last low to the first reading that is none, where that is longer than lows of one episode lie apart; else null. */
  readonly minutesToNext: number | null
  /** Whether a reading that is no low was seen after it; null where the log gives the day alone. */
  readonly seenToEnd: boolean | null
  /** Index of the first reading of it with a note; null without one. */
  readonly noted: number | null
  /** Whether a note tells that somebody helped. */
  readonly helped: boolean
  /** Whether a doubtful low of it stands beside another low: low it was, and only how low is in doubt. */
  readonly confirmed: boolean
}

/** Three hours of the day in which most episodes begin. */
export interface UsualHours {
  readonly fromHour: number
  readonly toHour: number
  readonly n: number
  readonly of: number
}

/** Fewer episodes have no usual hour (design choice). */
const FEWEST_WITH_HOURS = 4
/** Readings of a long episode that are no lows are left out. */
const MOST_SHOWN = 6
/** Of more lows in a run so many at its ends are shown, and the lowest (design choice: four lines of page 1). */
const MOST_LOWS_SHOWN = 24
const LOWS_AT_AN_END = 6

/** The period's episodes of lows, in order of time; a low of a day without a time is one by itself. */
export function episodesTold(analysis: Analysis, period: PeriodFigures): readonly EpisodeTold[] {
  const { lows, kind } = period
  const { readings } = analysis
  const confirmed = confirmedLows(analysis, period)
  const doubtful = new Set(analysis.technique.doubtful.map(({ index }) => index))
  // A sensor's readings are none of a finger-stick's run, nor is one whose hour nobody knows.
  const order = chronologicalOrder(readings).filter(
    (index) => hasClockTime(readings, index) && (kind === 'sensor' || !hasFlag(readings, index, FLAG.sensor)),
  )
  const placeOf = new Map<number, number>()
  order.forEach((index, at) => placeOf.set(index, at))
  const place = (index: number) => placeOf.get(index) ?? -1
  const inTime = [...lows.episodes].sort((a, b) => place(a.members[0]) - place(b.members[0]))
  const timed = inTime.map(({ members, recovered }, i) => {
    const last = members[members.length - 1]
    const run = [...order.subarray(place(members[0]), place(last) + 1)]
    const next = inTime.at(i + 1)?.members[0]
    // No low is passed over on the way to the first reading that is none.
    const between = next !== undefined && (recovered === null || place(next) < place(recovered))
    if (between && minutesBetween(readings, last, next) <= RECOVERY_SEEN_WITHIN_MINUTES) {
      return {
        ...told(analysis, confirmed, members, run, true),
        lowAgainAfter: minutesBetween(readings, last, next),
      }
    }
    const toEnd = recovered === null ? run : [...run, recovered]
    const episode = told(analysis, confirmed, members, toEnd, recovered !== null)
    // A doubtful test in between is no end that can be relied on.
    const soon =
      recovered !== null &&
      next !== undefined &&
      doubtful.has(recovered) &&
      minutesBetween(readings, last, next) <= LOW_EPISODE_GAP_MINUTES
    return soon ? { ...episode, lowAgainAfter: minutesBetween(readings, recovered, next) } : episode
  })
  const untimed = lows.each
    .filter(({ index }) => !hasClockTime(readings, index))
    .map(({ index }) => told(analysis, confirmed, [index], [index], null))
  return [...timed, ...untimed].sort((a, b) => readings.at[a.lows[0]] - readings.at[b.lows[0]])
}

function told(
  { readings }: Analysis,
  confirmed: ReadonlySet<number>,
  lows: readonly number[],
  run: readonly number[],
  seenToEnd: boolean | null,
): EpisodeTold {
  const noted = run.filter((index) => readings.note(index) !== '')
  const last = run.length - 1
  const toNext = seenToEnd === true ? minutesBetween(readings, lows[lows.length - 1], run[last]) : 0
  const lowest = lows.reduce((low, index) => (readings.mgDl[index] < readings.mgDl[low] ? index : low))
  const showsAllLows = lows.length <= MOST_LOWS_SHOWN
  const shownLows = new Set(
    showsAllLows ? lows : [...lows.slice(0, LOWS_AT_AN_END), lowest, ...lows.slice(-LOWS_AT_AN_END)],
  )
  return {
    sequence:
      run.length <= MOST_SHOWN ? run : withGaps(run, (index, i) => i === last || shownLows.has(index)),
    lows,
    showsAllLows,
    lowAgainAfter: null,
    lowest,
    minutes: last === 0 ? null : minutesBetween(readings, run[0], run[last]),
    minutesToNext: toNext > LOW_EPISODE_GAP_MINUTES ? toNext : null,
    seenToEnd,
    noted: noted.at(0) ?? null,
    helped: noted.some((index) => tellsOfHelp(readings.note(index))),
    confirmed: lows.some((index) => confirmed.has(index)),
  }
}

/** Those in which somebody helped, then the lowest, the later of equal ones first taken; in order of time. */
export function listedFirst<E extends Pick<EpisodeTold, 'helped' | 'lowest' | 'lows'>>(
  readings: Readings,
  episodes: readonly E[],
  most: number,
): readonly E[] {
  return [...episodes]
    .sort(
      (a, b) =>
        Number(b.helped) - Number(a.helped) ||
        readings.mgDl[a.lowest] - readings.mgDl[b.lowest] ||
        b.lowest - a.lowest,
    )
    .slice(0, most)
    .sort((a, b) => readings.at[a.lows[0]] - readings.at[b.lows[0]])
}

/** Parts of the day with a smaller share of the episodes are not named (design choice). */
const LEAST_SHARE_OF_HOURS = 0.2

/** Whether more than half of the episodes begin in these hours. */
export function areMost(hours: readonly UsualHours[]): boolean {
  return hours.some(({ of }) => 2 * hours.reduce((sum, { n }) => sum + n, 0) > of)
}

/** The blocks of three hours in which most of the episodes begin, fullest first; none where there are few, or they are all over the day. */
export function usualHours(
  readings: Readings,
  episodes: readonly Pick<EpisodeTold, 'lows'>[],
): readonly UsualHours[] {
  const timed = episodes.filter(({ lows }) => hasClockTime(readings, lows[0]))
  const of = timed.length
  if (of < FEWEST_WITH_HOURS) return []
  const counts = Array<number>(BLOCKS_PER_DAY).fill(0)
  for (const { lows } of timed) counts[Math.floor(secondOfDay(readings.at[lows[0]]) / (BLOCK_HOURS * 3600))]++
  const full = counts
    .map((n, block) => ({ fromHour: block * BLOCK_HOURS, toHour: (block + 1) * BLOCK_HOURS, n, of }))
    .filter(({ n }) => n > 1 && n >= LEAST_SHARE_OF_HOURS * of)
    .sort((a, b) => b.n - a.n || a.fromHour - b.fromHour)
  return areMost(full) ? full : []
}
