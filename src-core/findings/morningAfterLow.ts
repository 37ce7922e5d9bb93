import { isAbove, isLow } from '../log/readings'
import { mealGoal } from '../reference/mealGoals'
import { higherP } from '../statistics/pooledDifference'
import { dayOf } from '../units/wallClock'
import { countOf } from './finding'
import type { Look, Question } from './look'
import { isAtNight } from './lowsBeside'
import { morningsOf } from './mornings'

/**
 * Whether mornings after a night with a low (00:00 to before 06:00) are higher than the others: log glucose of the first
 * fasting reading. Bad days that resemble their neighbours make such mornings lower, never higher.
 */
export function morningAfterLow(look: Look): Question | null {
  const { readings, indexes, settings } = look
  const lowAt = new Map<number, number>()
  for (const index of indexes) {
    if (isLow(readings, index) && isAtNight(readings, index)) lowAt.set(dayOf(readings.at[index]), index)
  }
  const mornings = [...morningsOf(look)]
  const isAfterLow = ([day, morning]: readonly [number, number]) => {
    const low = lowAt.get(day)
    return low !== undefined && low < morning
  }
  const after = mornings.filter(isAfterLow).map(([, index]) => index)
  const others = mornings.filter((morning) => !isAfterLow(morning)).map(([, index]) => index)
  const logs = (of: readonly number[]) => of.map((index) => Math.log(readings.mgDl[index]))
  const p = higherP(logs(after), logs(others))
  if (p === null) return null
  const limit = mealGoal('before-breakfast', settings)?.high ?? settings.targetHigh
  const high = (of: readonly number[]) =>
    countOf(of.filter((index) => isAbove(readings, index, limit)).length, of.length)
  return {
    ps: [p],
    answer([clear]) {
      const [own, base] = [high(after), high(others)]
      if (!clear || own.count * base.n <= base.count * own.n) return null
      return {
        code: 'high-mornings-after-low-nights',
        evidence: { ...own, others: base, limitMgDl: limit.mgDl },
      }
    },
  }
}
