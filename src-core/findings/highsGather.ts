import { MEAL_MOMENTS, mealMoments } from '../log/mealWords'
import { hasClockTime, isAbove } from '../log/readings'
import { BLOCK_HOURS, BLOCKS_PER_DAY } from '../reference/dayParts'
import { signFlipTest } from '../statistics/signFlipTest'
import { dayOf, secondOfDay } from '../units/wallClock'
import { countOf, type DayPart } from './finding'
import type { Look, Question } from './look'
import { lowsBeside } from './lowsBeside'

/** Fewer highs make no pattern, and a smaller difference of shares is not worth a sentence (design choices). */
const FEWEST_HIGHS = 5
const LEAST_DIFFERENCE = 0.1

/**
 * Whether readings above target come more often in some parts of the day than in the rest of the same days: sign
 * flips of the daily differences, because readings of one day resemble each other. Parts: the log's own meal
 * tags where it has them, else blocks of three hours.
 */
export function highsGather(look: Look): Question | null {
  const { readings, indexes, settings } = look
  const high = (index: number) => isAbove(readings, index, settings.targetHigh)
  const parts = partsOf(look)
  // Readings that are in no part of the day stand among the rest.
  const total = countHigh(indexes, high)
  if (total < FEWEST_HIGHS) return null
  return {
    ps: parts.map(({ inside }) => signFlipTest(dailyDifferences(look, new Set(inside), high), look.random)),
    answer(clear) {
      const chosen = parts.filter(({ inside }, i) => {
        if (!clear[i]) return false
        const [count, n] = [countHigh(inside, high), inside.length]
        const elsewhere = (total - count) / (indexes.length - n)
        return count >= FEWEST_HIGHS && count / n - elsewhere >= LEAST_DIFFERENCE
      })
      if (chosen.length === 0) return null
      const told = chosen.map(({ part, inside }) => ({
        ...part,
        ...countOf(countHigh(inside, high), inside.length),
      }))
      const sum = (key: 'count' | 'n') => told.reduce((so, part) => so + part[key], 0)
      const elsewhere = countOf(total - sum('count'), indexes.length - sum('n'))
      return {
        code: 'highs-gather',
        evidence: { parts: told, elsewhere, ...lowsBeside(readings, indexes) },
      }
    },
  }
}

interface PartReadings {
  readonly part: DayPart
  readonly inside: readonly number[]
}

function partsOf({ readings, indexes, tellsMeals }: Look): readonly PartReadings[] {
  const momentOf = mealMoments()
  const parts: readonly PartReadings[] = tellsMeals
    ? MEAL_MOMENTS.map((moment) => ({
        part: { moment },
        inside: indexes.filter((i) => momentOf(readings.meal(i)) === moment),
      }))
    : Array.from({ length: BLOCKS_PER_DAY }, (_, block) => ({
        part: { fromHour: block * BLOCK_HOURS, toHour: (block + 1) * BLOCK_HOURS },
        inside: indexes.filter(
          (i) =>
            hasClockTime(readings, i) &&
            Math.floor(secondOfDay(readings.at[i]) / (BLOCK_HOURS * 3600)) === block,
        ),
      }))
  return parts.filter(({ inside }) => inside.length >= FEWEST_HIGHS)
}

function countHigh(indexes: readonly number[], high: (index: number) => boolean): number {
  return indexes.reduce((so, index) => so + (high(index) ? 1 : 0), 0)
}

/** Share of highs inside minus share outside, of each day that has both. */
function dailyDifferences(
  { readings, indexes }: Look,
  inside: ReadonlySet<number>,
  high: (index: number) => boolean,
): readonly number[] {
  const days = new Map<number, [number, number, number, number]>()
  for (const index of indexes) {
    const day = dayOf(readings.at[index])
    const counts = days.get(day) ?? [0, 0, 0, 0]
    days.set(day, counts)
    const at = inside.has(index) ? 0 : 2
    counts[at]++
    if (high(index)) counts[at + 1]++
  }
  return [...days.values()]
    .filter(([n, , others]) => n > 0 && others > 0)
    .map(([n, highs, others, highsAmongOthers]) => highs / n - highsAmongOthers / others)
}
