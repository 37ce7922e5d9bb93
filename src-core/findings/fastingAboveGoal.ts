import { mealMoments } from '../log/mealWords'
import { isAbove } from '../log/readings'
import { mealGoal } from '../reference/mealGoals'
import { binomialUpperTail } from '../statistics/exactTests'
import { dayOf } from '../units/wallClock'
import { countOf } from './finding'
import type { Look, Question } from './look'

/** Whether more than half of the mornings start above the goal before breakfast, by the log's own tags. */
export function fastingAboveGoal({ readings, indexes, settings }: Look): Question | null {
  const goal = mealGoal('before-breakfast', settings.targetPreset)
  if (goal === null) return null
  const firsts = new Map<number, number>()
  const momentOf = mealMoments()
  for (const index of indexes) {
    const day = dayOf(readings.at[index])
    if (!firsts.has(day) && momentOf(readings.meal(index)) === 'before-breakfast') firsts.set(day, index)
  }
  if (firsts.size === 0) return null
  const above = [...firsts.values()].filter((index) => isAbove(readings, index, goal.high)).length
  return {
    ps: [binomialUpperTail(above, firsts.size, 0.5)],
    answer: ([clear]) =>
      clear
        ? {
            code: 'fasting-above-goal',
            evidence: { ...countOf(above, firsts.size), goalMgDl: goal.high.mgDl },
          }
        : null,
  }
}
