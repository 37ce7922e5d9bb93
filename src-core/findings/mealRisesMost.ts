import { MEALS, type MealPair, riseInterval } from '../day/meals'
import { medianOf } from '../day/week'
import type { Readings } from '../log/readings'
import { ENOUGH_REACHED } from '../statistics/drawnWays'
import { type DaySum, permutationTest } from '../statistics/permutationTest'
import { dayOf } from '../units/wallClock'
import { WORTH_SAYING_MG_DL } from './finding'
import type { Look, Question } from './look'

const FEWEST_PAIRS = 6

/** Whether glucose rises more over one meal than over the others, by the log's own tags. */
export function mealRisesMost({ readings, pairs, random }: Look): Question | null {
  const meals = MEALS.map((meal) => ({
    meal,
    own: pairs.filter((pair) => pair.meal === meal),
    others: pairs.filter((pair) => pair.meal !== meal),
  })).filter(({ own, others }) => own.length >= FEWEST_PAIRS && others.length >= FEWEST_PAIRS)
  if (meals.length === 0) return null
  const figures = meals.map(({ meal, own, others }) => {
    const p = permutationTest(daySums(readings, own), daySums(readings, others), random, ENOUGH_REACHED) ?? 1
    return {
      meal,
      n: own.length,
      p,
      median: medianRise(own),
      others: medianRise(others),
      own,
      rest: others.length,
    }
  })
  return {
    ps: figures.map(({ p }) => p),
    answer(clear) {
      const [most] = figures
        .filter(({ median, others }, i) => clear[i] && median - others >= WORTH_SAYING_MG_DL)
        .sort((a, b) => b.median - a.median)
      if (most === undefined) return null
      const ci95MgDl = riseInterval(readings, most.own)
      if (ci95MgDl === null || most.median <= 0) return null
      return {
        code: 'meal-rises-most',
        evidence: {
          meal: most.meal,
          n: most.n,
          medianMgDl: most.median,
          ci95MgDl,
          others: { n: most.rest, medianMgDl: most.others },
        },
      }
    },
  }
}

function medianRise(pairs: readonly MealPair[]): number {
  return medianOf(pairs.map(({ rise }) => rise)) ?? NaN
}

function daySums(readings: Readings, pairs: readonly MealPair[]): readonly DaySum[] {
  const days = new Map<number, { n: number; sum: number }>()
  for (const { after, rise } of pairs) {
    const day = dayOf(readings.at[after])
    const so = days.get(day) ?? { n: 0, sum: 0 }
    days.set(day, { n: so.n + 1, sum: so.sum + rise })
  }
  return [...days.values()]
}
