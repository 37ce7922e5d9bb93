import { hasClockTime } from '../log/readings'
import { isTyped } from '../log/typedByHand'
import { meanDifference } from '../statistics/dailyDifferences'
import { FEWEST_DAYS } from '../statistics/errorByDays'
import type { MeterPair } from '../technique/meterPairs'
import { dayOf, secondOfDay } from '../units/wallClock'
import { metersOnPaper } from '../kit/metersOnPaper'
import { countOf, type PairedDifference } from './finding'
import type { Look, Question } from './look'

/** A meter that moves by less is no other meter for other hours, points (design choice). */
const WORTH_SAYING_POINTS = 30
/**
 * Meters whose mean difference is known to lie within this, percent, read alike: at 140 mg/dL it is what no sentence is worth
 * (design choice). Then other hours of theirs explain nothing.
 */
const ALIKE_PERCENT = 7
/** Parts of the day, hours. */
const PARTS = [
  { fromHour: 4, toHour: 10 },
  { fromHour: 10, toHour: 16 },
  { fromHour: 16, toHour: 22 },
] as const

/**
 * Whether the two meters with the most tests are used at different times of the day: mean daily difference of one's share of
 * the tests, so that days on which one of them was away tell nothing. Not asked of meters that are known to read alike.
 */
export function metersByHour({ readings, indexes, technique }: Look): Question | null {
  const tests = indexes.filter((index) => hasClockTime(readings, index) && !isTyped(readings, index))
  const counts = readings.meters.map(() => 0)
  for (const index of tests) counts[readings.meter[index]]++
  const [main, second] = [...counts.keys()].sort((a, b) => counts[b] - counts[a])
  if (second === undefined || counts[second] === 0) return null
  const paired = differenceOf(technique.meterPairs, second, main)
  if (paired?.ci95Percent.every((limit) => Math.abs(limit) <= ALIKE_PERCENT)) return null
  const ofBoth = tests.filter((index) => [main, second].includes(readings.meter[index]))
  const isSecond = (index: number) => readings.meter[index] === second
  const parts = PARTS.map(({ fromHour, toHour }) => {
    const isInside = (index: number) => {
      const hour = secondOfDay(readings.at[index]) / 3600
      return hour >= fromHour && hour < toHour
    }
    const inside = ofBoth.filter(isInside)
    const outside = ofBoth.filter((index) => !isInside(index))
    const share = (of: readonly number[]) => countOf(of.filter(isSecond).length, of.length)
    return {
      fromHour,
      toHour,
      ...share(inside),
      elsewhere: share(outside),
      difference: daily(inside, outside),
    }
  }).filter(({ difference }) => difference !== null)
  if (parts.length === 0) return null

  /** Of the days that have tests in and out of the hours. */
  function daily(inside: readonly number[], outside: readonly number[]) {
    const byDay = (of: readonly number[]) => {
      const days = new Map<number, { n: number; count: number }>()
      for (const index of of) {
        const day = dayOf(readings.at[index])
        const { n, count } = days.get(day) ?? { n: 0, count: 0 }
        days.set(day, { n: n + 1, count: count + (isSecond(index) ? 1 : 0) })
      }
      return days
    }
    const [own, others] = [byDay(inside), byDay(outside)]
    const days = [...own.keys()].filter((day) => others.has(day))
    const share = ({ n, count } = { n: 0, count: 0 }) => count / n
    return meanDifference(
      days.map((day) => share(own.get(day)) - share(others.get(day))),
      days,
      FEWEST_DAYS,
    )
  }

  return {
    ps: parts.map(({ difference }) => difference?.p ?? 1),
    answer(clear) {
      const points = (part: (typeof parts)[number]) =>
        Math.abs((100 * part.count) / part.n - (100 * part.elsewhere.count) / part.elsewhere.n)
      const [most] = parts
        .filter((part, i) => clear[i] && points(part) >= WORTH_SAYING_POINTS)
        .sort((a, b) => points(b) - points(a))
      if (most === undefined) return null
      const { fromHour, toHour, count, n, ci95Percent, elsewhere } = most
      return {
        code: 'meters-by-hour',
        evidence: {
          meter: metersOnPaper(readings.meters)[second],
          fromHour,
          toHour,
          count,
          n,
          ci95Percent,
          elsewhere,
          ...(paired !== null && { paired }),
        },
      }
    },
  }
}

/** How much higher `meter` reads than `other` in their pairs, with its interval; null below five of them. */
function differenceOf(pairs: readonly MeterPair[], meter: number, other: number): PairedDifference | null {
  const found = pairs.find(
    ({ first, second }) => (first === meter && second === other) || (first === other && second === meter),
  )
  if (found?.meanCi95Percent == null) return null
  const sign = found.first === meter ? 1 : -1
  const [low, high] = found.meanCi95Percent
  return {
    pairs: found.pairs.length,
    differencePercent: sign * found.meanDifferencePercent,
    ci95Percent: sign === 1 ? [low, high] : [-high, -low],
  }
}
