import { mealMoments } from '../log/mealWords'
import { isAbove, isLow } from '../log/readings'
import { mealGoal } from '../reference/mealGoals'
import { shareEstimate } from '../statistics/dayEstimates'
import { twoSidedP } from '../statistics/distributions'
import { binomialUpperTail } from '../statistics/exactTests'
import { dayOf } from '../units/wallClock'
import { countByDays, type Facts } from './finding'
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
  const isHigh = (index: number) => isAbove(readings, index, goal.high)
  const above = [...firsts.values()].filter(isHigh).length
  const lowNights = new Set(
    indexes
      .filter((index) => isLow(readings, index) && isAtNight(readings, index))
      .map((index) => dayOf(readings.at[index])),
  )
  const facts: Facts = {
    code: 'fasting-above-goal',
    evidence: {
      ...countByDays(readings, [...firsts.values()], isHigh),
      goalMgDl: goal.high.mgDl,
      ...lowsBeside(readings, indexes),
      nightsWithLows: lowNights.size,
      ofThemAboveGoal: [...lowNights].filter((day) => {
        const first = firsts.get(day)
        return first !== undefined && isHigh(first)
      }).length,
    },
  }
  if (settings.targetPreset === 'pregnancy') {
    return { ps: [], answer: () => (above >= FEWEST_IN_PREGNANCY ? facts : null) }
  }
  return {
    ps: [aboveHalfP([...firsts], isHigh)],
    answer: ([clear]) => (clear ? facts : null),
  }
}

/** One-sided p of more than half of the mornings: exact, or by days that resemble each other where that is larger. */
function aboveHalfP(
  mornings: readonly (readonly [day: number, index: number])[],
  isHigh: (index: number) => boolean,
): number {
  const held = mornings.map(([, index]) => isHigh(index))
  const exact = binomialUpperTail(held.filter(Boolean).length, held.length, 0.5)
  const share = shareEstimate(
    held,
    mornings.map(([day]) => day),
  )
  if (share === null || share.error.se === 0 || share.value <= 0.5) return exact
  return Math.max(exact, twoSidedP((share.value - 0.5) / share.error.se, share.error.df) / 2)
}
