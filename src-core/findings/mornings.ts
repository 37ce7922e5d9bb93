import { isMorning } from '../day/fasting'
import { mealMoments } from '../log/mealWords'
import { hasClockTime } from '../log/readings'
import { dayOf, type DayNumber, secondOfDay } from '../units/wallClock'
import type { Look } from './look'

/**
 * The first fasting reading of each day: by its tag where the log tells meals, else the first by the clock from 4 to before
 * 10. Only of days where it has a time.
 */
export function morningsOf({ readings, indexes, tellsMeals }: Look): ReadonlyMap<DayNumber, number> {
  const momentOf = mealMoments()
  const mornings = new Map<DayNumber, number>()
  for (const index of indexes) {
    const day = dayOf(readings.at[index])
    if (mornings.has(day) || !hasClockTime(readings, index)) continue
    const isFirst = tellsMeals
      ? momentOf(readings.meal(index)) === 'before-breakfast'
      : isMorning(secondOfDay(readings.at[index]))
    if (isFirst) mornings.set(day, index)
  }
  return mornings
}
