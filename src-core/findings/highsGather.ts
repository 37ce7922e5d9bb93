import { MEAL_MOMENTS, mealMoments } from '../log/mealWords'
import { hasClockTime, isAbove } from '../log/readings'
import { BLOCK_HOURS, BLOCKS_PER_DAY } from '../reference/dayParts'
import { type MeanDifference, meanDifference } from '../statistics/dailyDifferences'
import { FEWEST_DAYS } from '../statistics/errorByDays'
import { dayOf, secondOfDay } from '../units/wallClock'
import { countByDays, type DayPart } from './finding'
import type { Look, Question } from './look'
import { lowsBeside } from './lowsBeside'

/** Fewer highs make no pattern (design choice). */
const FEWEST_HIGHS = 5

/**
 * Whether glucose runs higher in some parts of the day than in the rest of the same days, so that readings above target
 * gather there: mean daily difference of log glucose, every day weighing the same. Parts: the log's own meal tags where it
 * has them, else blocks of three hours.
 */
export function highsGather(look: Look): Question | null {
  const { readings, indexes, settings } = look
  const high = (index: number) => isAbove(readings, index, settings.targetHigh)
  const total = indexes.filter(high).length
  if (total < FEWEST_HIGHS) return null
  const parts = partsOf(look)
    .map((part) => ({ ...part, difference: dailyDifference(look, new Set(part.inside)) }))
    .filter(({ difference }) => difference !== null)
  return {
    // One side is asked for: where it is higher.
    ps: parts.map(({ difference }) =>
      difference === null ? 1 : difference.mean > 0 ? difference.p / 2 : 1 - difference.p / 2,
    ),
    answer(clear) {
      const chosen = parts.filter(({ inside }, i) => {
        const count = inside.filter(high).length
        // Readings that are in no part of the day stand among the rest.
        const elsewhere = (total - count) / (indexes.length - inside.length)
        return clear[i] && count >= FEWEST_HIGHS && count / inside.length > elsewhere
      })
      if (chosen.length === 0) return null
      const told = chosen.map(({ part, inside }) => ({ ...part, ...countByDays(readings, inside, high) }))
      const within = new Set(chosen.flatMap(({ inside }) => inside))
      const elsewhere = countByDays(
        readings,
        indexes.filter((index) => !within.has(index)),
        high,
      )
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

/** Mean of log glucose inside minus outside, over the days that have both; null on too few. */
function dailyDifference({ readings, indexes }: Look, inside: ReadonlySet<number>): MeanDifference | null {
  const days = new Map<number, { in: number; out: number; inSum: number; outSum: number }>()
  for (const index of indexes) {
    const day = dayOf(readings.at[index])
    const so = days.get(day) ?? { in: 0, out: 0, inSum: 0, outSum: 0 }
    days.set(day, so)
    const log = Math.log(readings.mgDl[index])
    if (inside.has(index)) {
      so.in++
      so.inSum += log
    } else {
      so.out++
      so.outSum += log
    }
  }
  const both = [...days].filter(([, so]) => so.in > 0 && so.out > 0)
  return meanDifference(
    both.map(([, so]) => so.inSum / so.in - so.outSum / so.out),
    both.map(([day]) => day),
    FEWEST_DAYS,
  )
}
