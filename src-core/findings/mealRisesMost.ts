import { MEALS, type MealPair, riseInterval } from '../day/meals'
import { medianOf } from '../day/week'
import type { Readings } from '../log/readings'
import { differenceFrom } from '../statistics/dailyDifferences'
import { FEWEST_DAYS } from '../statistics/errorByDays'
import { dayOf } from '../units/wallClock'
import { WORTH_SAYING_MG_DL } from './finding'
import type { Look, Question } from './look'

const FEWEST_PAIRS = 6

/** Whether glucose rises more over one meal than over the others, by the log's own tags. */
export function mealRisesMost({ readings, pairs }: Look): Question | null {
  const meals = MEALS.map((meal) => ({
    meal,
    own: pairs.filter((pair) => pair.meal === meal),
    others: pairs.filter((pair) => pair.meal !== meal),
  })).filter(({ own, others }) => own.length >= FEWEST_PAIRS && others.length >= FEWEST_PAIRS)
  if (meals.length === 0) return null
  const figures = meals.map(({ meal, own, others }) => {
    const p = riseDifferenceP(readings, own, others)
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
  return medianOf(pairs.map(({ riseMgDl: rise }) => rise)) ?? NaN
}

/** Two-sided p of the difference of the mean rises, by days: those of one day belong together. */
function riseDifferenceP(readings: Readings, own: readonly MealPair[], others: readonly MealPair[]): number {
  const mean = (pairs: readonly MealPair[]) =>
    pairs.reduce((sum, { riseMgDl: rise }) => sum + rise, 0) / pairs.length
  const [ownMean, otherMean] = [mean(own), mean(others)]
  const byDay = new Map<number, number>()
  const add = (pairs: readonly MealPair[], centre: number, sign: number) => {
    for (const { after, riseMgDl: rise } of pairs) {
      const day = dayOf(readings.at[after])
      byDay.set(day, (byDay.get(day) ?? 0) + (sign * (rise - centre)) / pairs.length)
    }
  }
  add(own, ownMean, 1)
  add(others, otherMean, -1)
  if (byDay.size < FEWEST_DAYS) return 1
  const days = [...byDay.keys()].sort((a, b) => a - b)
  const contributions = Float64Array.from(days, (day) => byDay.get(day) ?? 0)
  return differenceFrom(ownMean - otherMean, contributions, days).p
}
