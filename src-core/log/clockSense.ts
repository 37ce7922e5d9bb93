import {
  SECONDS_PER_DAY,
  calendarDate,
  type DayNumber,
  dayNumber,
  dayOf,
  secondOfDay,
} from '../units/wallClock'
import type { LogNote } from './logReport'
import { FLAG, hasClockTime, hasFlag, type Readings } from './readings'
import type { Shift } from './shifts'

// Stretches of a log whose meter clock was probably wrong. They are pointed out;
// nothing is moved unasked. The bars are design choices: a note should be right when it is made.

/** What a careful reader should know of a meter's clock; a sensor has none that is set by hand. */
export function clockNotes(readings: Readings, source: number): readonly LogNote[] {
  const own: number[] = []
  for (let i = 0; i < readings.n; i++) {
    if (readings.source[i] === source && !hasFlag(readings, i, FLAG.sensor)) own.push(i)
  }
  const halfDay = halfDayOff(readings, own)
  const years = yearsOff(readings, own)
  return [
    ...(halfDay === null ? [] : [{ code: 'half-day-off', ...halfDay } as const]),
    ...years.map((off) => ({ code: 'years-off', ...off }) as const),
  ]
}

export interface HalfDayOff {
  readonly readings: number
  readonly shift: Shift
}

const HOURS = 24
const HALF_DAY_MINUTES = 720
/** Natural logarithm of the odds from which on a stretch is pointed out: twenty readings, each twice as likely. */
const LEAST_LOG_ODDS = 15
const FEWEST_READINGS = 8
/** Readings added to each hour, so that an hour never tested is unlikely, not impossible. */
const PRIOR = 0.5

/**
 * The stretch of days whose hours fit the log's other days far better twelve hours later, or null. A log
 * that is off as a whole cannot be told from one of a person who works at night.
 */
export function halfDayOff(readings: Readings, own: readonly number[]): HalfDayOff | null {
  const timed = own.filter((i) => hasClockTime(readings, i))
  if (timed.length < 3 * FEWEST_READINGS) return null
  const first = bestStretch(readings, timed, hourShares(readings, timed))
  if (first === null) return null
  // Once more, held against the other days alone.
  const inside = new Set(first.members)
  const others = timed.filter((i) => !inside.has(i))
  const stretch = bestStretch(readings, timed, hourShares(readings, others))
  if (stretch === null || stretch.logOdds < LEAST_LOG_ODDS) return null
  const { members } = stretch
  if (members.length < FEWEST_READINGS || 2 * members.length > timed.length) return null
  const days = { from: dayOf(readings.at[members[0]]), to: dayOf(readings.at[members[members.length - 1]]) }
  const minutes = HALF_DAY_MINUTES * (fitsBefore(readings, timed, members) ? -1 : 1)
  return { readings: members.length, shift: { ...days, minutes } }
}

/** Share of the readings in each hour, its neighbours counted half. */
function hourShares(readings: Readings, indexes: readonly number[]): readonly number[] {
  const counts = new Array<number>(HOURS).fill(0)
  for (const i of indexes) counts[hourOf(readings, i)]++
  const smooth = counts.map(
    (count, hour) => PRIOR + count + (counts[(hour + 1) % HOURS] + counts[(hour + HOURS - 1) % HOURS]) / 2,
  )
  const sum = smooth.reduce((a, b) => a + b, 0)
  return smooth.map((share) => share / sum)
}

function hourOf(readings: Readings, index: number): number {
  return Math.floor(secondOfDay(readings.at[index]) / 3600)
}

/** The run of days with the highest log odds for 'half a day off' (the largest sum of consecutive days). */
function bestStretch(
  readings: Readings,
  timed: readonly number[],
  shares: readonly number[],
): { readonly members: readonly number[]; readonly logOdds: number } | null {
  let best: { start: number; end: number; logOdds: number } | null = null
  let start = 0
  let sum = 0
  for (let i = 0; i < timed.length;) {
    const day = dayOf(readings.at[timed[i]])
    let end = i
    let odds = 0
    for (; end < timed.length && dayOf(readings.at[timed[end]]) === day; end++) {
      const hour = hourOf(readings, timed[end])
      odds += Math.log(shares[(hour + HOURS / 2) % HOURS] / shares[hour])
    }
    if (sum <= 0) {
      sum = 0
      start = i
    }
    sum += odds
    if (sum > 0 && (best === null || sum > best.logOdds)) best = { start, end, logOdds: sum }
    i = end
  }
  return best && { members: timed.slice(best.start, best.end), logOdds: best.logOdds }
}

/** Whether the stretch, moved twelve hours earlier, still follows the reading before it, and moved later does not fit. */
function fitsBefore(readings: Readings, timed: readonly number[], members: readonly number[]): boolean {
  const half = HALF_DAY_MINUTES * 60
  const before = timed.findLast((i) => i < members[0])
  const after = timed.find((i) => i > members[members.length - 1])
  const laterFits =
    after === undefined || readings.at[members[members.length - 1]] + half < readings.at[after]
  const earlierFits = before === undefined || readings.at[members[0]] - half > readings.at[before]
  return earlierFits && !laterFits
}

export interface YearsOff {
  readonly readings: number
  /** By how many years the stretch is dated too early (positive) or too late. */
  readonly years: number
  readonly shift: Shift
}

const JUMP_SECONDS = 200 * SECONDS_PER_DAY
const SLACK_SECONDS = 2 * SECONDS_PER_DAY
const MOST_YEARS = 10

/**
 * Stretches of rows that jump away by years and back again in the order of the file, and lie between their
 * neighbours once their year is mended. In a file sorted by time such a stretch cannot be told from an old one.
 */
export function yearsOff(readings: Readings, own: readonly number[]): readonly YearsOff[] {
  const rows = [...own].sort((a, b) => readings.line[a] - readings.line[b])
  const at = rows.map((i) => readings.at[i])
  const found: YearsOff[] = []
  for (let i = 1; i < rows.length; i++) {
    if (Math.abs(at[i] - at[i - 1]) <= JUMP_SECONDS) continue
    let end = i + 1
    while (end < rows.length && Math.abs(at[end] - at[end - 1]) <= JUMP_SECONDS) end++
    if (end === rows.length) break
    const off = mendedBetween(at.slice(i, end), at[i - 1], at[end])
    if (off === null) continue
    found.push(off)
    // The row after the stretch belongs to what was before it.
    at[end - 1] = at[i - 1]
    i = end
  }
  return found
}

function mendedBetween(stretch: readonly number[], before: number, after: number): YearsOff | null {
  const [from, to] = [Math.min(before, after) - SLACK_SECONDS, Math.max(before, after) + SLACK_SECONDS]
  for (let years = -MOST_YEARS; years <= MOST_YEARS; years++) {
    if (years === 0) continue
    const moved = stretch.map((at) => sameDayInAnotherYear(dayOf(at), years))
    const fits = stretch.every((at, i) => {
      const there = moved[i]
      const mended = there === null ? NaN : there * SECONDS_PER_DAY + secondOfDay(at)
      return mended >= from && mended <= to
    })
    if (!fits) continue
    const days = stretch.map(dayOf)
    const minutes = ((moved[0] ?? 0) - days[0]) * 1440
    return {
      readings: stretch.length,
      years,
      shift: { from: days.reduce(smaller), to: days.reduce(larger), minutes },
    }
  }
  return null
}

// A stretch may hold more days than an argument list can.
function smaller(a: number, b: number): number {
  return Math.min(a, b)
}

function larger(a: number, b: number): number {
  return Math.max(a, b)
}

function sameDayInAnotherYear(day: DayNumber, years: number): DayNumber | null {
  const date = calendarDate(day)
  return dayNumber(date.year + years, date.month, date.day)
}
