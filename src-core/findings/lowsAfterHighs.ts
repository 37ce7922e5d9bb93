import type { Lows } from '../day/lows'
import { FLAG, hasFlag, isLow, type Readings } from '../log/readings'
import { minutesBetween } from '../technique/chronology'
import type { Technique } from '../technique/technique'
import { SECONDS_PER_MINUTE } from '../units/wallClock'
import { fisherUpperTail } from '../statistics/exactTests'
import { countOf } from './finding'
import type { Look, Question } from './look'
import { occasionsOf } from './occasions'

const HOURS_TO_A_LOW = 5

/** The first low within five hours after a reading, itself no repeat of it; null where none came. */
export function lowAfterwards(
  readings: Readings,
  technique: Pick<Technique, 'repeatSets'>,
  lows: Lows,
  index: number,
): number | null {
  return lowsAfterwards(readings, technique, lows)(index)
}

/** `lowAfterwards` for one reading after the other. */
function lowsAfterwards(
  readings: Readings,
  { repeatSets }: Pick<Technique, 'repeatSets'>,
  lows: Lows,
): (index: number) => number | null {
  const setOf = new Map<number, number>()
  repeatSets.forEach(({ members }, set) => members.forEach((member) => setOf.set(member, set)))
  const { at, offsetMinutes } = readings
  const hasOffset = (index: number) => hasFlag(readings, index, FLAG.offset)
  const wall = (index: number) => at[index]
  const instant = (index: number) => at[index] - offsetMinutes[index] * SECONDS_PER_MINUTE
  const all = lows.each.map(({ index }) => index)
  // Instants count between two that tell them, else the clock on the wall, as in `secondsBetween`.
  const onTheWall = firstAfter(all, wall, setOf)
  const inInstants = firstAfter(all.filter(hasOffset), instant, setOf)
  const withoutOffset = firstAfter(
    all.filter((index) => !hasOffset(index)),
    wall,
    setOf,
  )
  return (index) => {
    const found = (hasOffset(index) ? [inInstants(index), withoutOffset(index)] : [onTheWall(index)])
      .filter((low) => low !== null)
      .map((low) => ({ low, minutes: minutesBetween(readings, index, low) }))
      .filter(({ minutes }) => minutes <= HOURS_TO_A_LOW * 60)
      .sort((a, b) => a.minutes - b.minutes)
    return found.length === 0 ? null : found[0].low
  }
}

/** Finds the first of the lows after a reading that is in no set with it. */
function firstAfter(
  lows: readonly number[],
  secondsOf: (index: number) => number,
  setOf: ReadonlyMap<number, number>,
): (index: number) => number | null {
  const sorted = [...lows].sort((a, b) => secondsOf(a) - secondsOf(b) || a - b)
  const seconds = Float64Array.from(sorted, secondsOf)
  /** From each place the next whose low is in another set, or in none. */
  const nextOther = new Uint32Array(sorted.length)
  for (let place = sorted.length - 1; place >= 0; place--) {
    const set = setOf.get(sorted[place])
    const isOfNext = set !== undefined && place + 1 < sorted.length && setOf.get(sorted[place + 1]) === set
    nextOther[place] = isOfNext ? nextOther[place + 1] : place + 1
  }
  return (index) => {
    let place = firstAbove(seconds, secondsOf(index))
    const set = setOf.get(index)
    if (place < sorted.length && set !== undefined && setOf.get(sorted[place]) === set)
      place = nextOther[place]
    return place < sorted.length ? sorted[place] : null
  }
}

/** Place of the first of ascending values that is above `bound`; their number where there is none. */
function firstAbove(ascending: Float64Array, bound: number): number {
  let low = 0
  let high = ascending.length
  while (low < high) {
    const middle = (low + high) >>> 1
    if (ascending[middle] <= bound) low = middle + 1
    else high = middle
  }
  return low
}

/**
 * Whether lows within five hours follow readings that a repeat contradicted as too high more often than they follow other
 * occasions of testing (Fisher's exact test): a dose may have been taken on such a reading.
 */
export function lowsAfterHighs(look: Look): Question | null {
  const { readings, indexes, technique, lows } = look
  const period = new Set(indexes)
  const highs = technique.doubtful.filter(
    ({ index, reasons }) =>
      period.has(index) &&
      !isLow(readings, index) &&
      reasons.some(
        ({ code, evidence }) =>
          code === 'contradicted-by-repeat' && evidence.otherMgDl < readings.mgDl[index],
      ),
  )
  if (highs.length === 0) return null
  const lowAfter = lowsAfterwards(readings, technique, lows)
  const isFollowed = (index: number) => lowAfter(index) !== null
  const contradicted = new Set(highs.map(({ index }) => index))
  const usual = occasionsOf(look).filter(({ index, low }) => !low && !contradicted.has(index))
  const own = countOf([...contradicted].filter(isFollowed).length, contradicted.size)
  const others = countOf(usual.filter(({ index }) => isFollowed(index)).length, usual.length)
  return {
    ps: [fisherUpperTail(own.count, own.n - own.count, others.count, others.n - others.count)],
    answer: ([clear]) =>
      clear ? { code: 'lows-after-contradicted-highs', evidence: { ...own, others } } : null,
  }
}
