import { hasClockTime, isAbove, isLow } from '../log/readings'
import { BLOCK_HOURS, BLOCKS_PER_DAY } from '../reference/dayParts'
import { mean } from '../statistics/moments'
import { higherP } from '../statistics/pooledDifference'
import { minutesBetween } from '../technique/chronology'
import { secondOfDay } from '../units/wallClock'
import { countOf } from './finding'
import type { Look, Question } from './look'

/** The next hours after the last low of an episode: later than its rechecks, earlier than the next meal but one (design choice). */
const HOURS_AFTER = { from: 1, to: 4 } as const
/** Fewer other readings in a block of the day tell nothing of what is usual then (design choice). */
const FEWEST_USUAL = 5

/**
 * Whether the first test from one to four hours after a low is higher than other tests of the same three hours of the day:
 * log glucose less the mean of those others. Days that resemble themselves make such tests lower, never higher.
 */
export function highAfterLow({ readings, indexes, settings, lows }: Look): Question | null {
  const timed = indexes.filter((index) => hasClockTime(readings, index))
  const place = new Map(timed.map((index, i) => [index, i]))
  const after: number[] = []
  const near = new Set<number>()
  for (const { members } of lows.episodes) {
    const last = members[members.length - 1]
    let first = true
    // A low without a time has no place.
    for (let i = (place.get(last) ?? Infinity) + 1; i < timed.length; i++) {
      const index = timed[i]
      const hours = minutesBetween(readings, last, index) / 60
      if (hours > HOURS_AFTER.to) break
      near.add(index)
      if (hours <= HOURS_AFTER.from || !first) continue
      first = false
      // A low again is no high, and an episode of its own.
      if (!isLow(readings, index)) after.push(index)
    }
  }
  const blockOf = (index: number) => Math.floor(secondOfDay(readings.at[index]) / (BLOCK_HOURS * 3600))
  const blocks = Array.from({ length: BLOCKS_PER_DAY }, (): number[] => [])
  for (const index of timed)
    if (!near.has(index) && !isLow(readings, index)) blocks[blockOf(index)].push(index)
  const logOf = (index: number) => Math.log(readings.mgDl[index])
  const usual = blocks.map((of) => (of.length < FEWEST_USUAL ? null : mean(Float64Array.from(of, logOf))))
  const known = after.filter((index) => usual[blockOf(index)] !== null)
  const others = blocks.flatMap((of, block) => (usual[block] === null ? [] : of))
  const above = (index: number) => logOf(index) - (usual[blockOf(index)] ?? NaN)
  const p = higherP(known.map(above), others.map(above))
  if (p === null) return null
  const isHigh = (index: number) => isAbove(readings, index, settings.targetHigh)
  return {
    ps: [p],
    answer([clear]) {
      const own = countOf(known.filter(isHigh).length, known.length)
      // What would be high of as many tests at the same hours.
      const shares = blocks.map((of) => of.filter(isHigh).length / of.length)
      const byHour = known.reduce((sum, index) => sum + shares[blockOf(index)], 0)
      if (!clear || own.count <= byHour) return null
      return { code: 'highs-after-lows', evidence: { ...own, basePercent: (100 * byHour) / known.length } }
    },
  }
}
