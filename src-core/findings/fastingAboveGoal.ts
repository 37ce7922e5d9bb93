import { mealMoments } from '../log/mealWords'
import { isAbove, isLow } from '../log/readings'
import { mealGoal } from '../reference/mealGoals'
import { binomialUpperTail } from '../statistics/exactTests'
import { dayOf } from '../units/wallClock'
import { countOf, type Facts } from './finding'
import type { Look, Question } from './look'
import { isAtNight, lowsBeside } from './lowsBeside'

/** Fewer mornings above the goal of pregnancy are not told (design choice). */
const FEWEST_IN_PREGNANCY = 3

/**
 * Whether more than half of the mornings start above the goal before breakfast, by the log's own tags; null where no goal
 * is known. In pregnancy every such morning counts: from three on they are told as a count, without a test.
 */
export function fastingAboveGoal({ readings, indexes, settings }: Look): Question | null {
  const goal = mealGoal('before-breakfast', settings)
  if (goal === null) return null
  const firsts = new Map<number, number>()
  const momentOf = mealMoments()
  for (const index of indexes) {
    const day = dayOf(readings.at[index])
    if (!firsts.has(day) && momentOf(readings.meal(index)) === 'before-breakfast') firsts.set(day, index)
  }
  if (firsts.size === 0) return null
  const isHigh = (index: number | undefined) => index !== undefined && isAbove(readings, index, goal.high)
  const above = [...firsts.values()].filter(isHigh).length
  const lowNights = new Set(
    indexes
      .filter((index) => isLow(readings, index) && isAtNight(readings, index))
      .map((index) => dayOf(readings.at[index])),
  )
  const facts: Facts = {
    code: 'fasting-above-goal',
    evidence: {
      ...countOf(above, firsts.size),
      goalMgDl: goal.high.mgDl,
      ...lowsBeside(readings, indexes),
      nightsWithLows: lowNights.size,
      ofThemAboveGoal: [...lowNights].filter((day) => isHigh(firsts.get(day))).length,
    },
  }
  if (settings.targetPreset === 'pregnancy') {
    return { ps: [], answer: () => (above >= FEWEST_IN_PREGNANCY ? facts : null) }
  }
  return {
    ps: [binomialUpperTail(above, firsts.size, 0.5)],
    answer: ([clear]) => (clear ? facts : null),
  }
}
