import { type GoalsFor, type MealGoal, PREGNANCY_TWO_HOURS, publishedGoals } from '../reference/mealGoals'
import type { LimitPair } from '../reference/limits'
import type { TargetPreset } from '../reference/targetPreset'

/** A published goal and the moment that it is for. */
export type PublishedGoal =
  | { readonly at: 'before-meals' | 'fasting' | 'bedtime' | 'after-meals'; readonly goal: MealGoal }
  | { readonly at: 'one-hour-after-meals'; readonly goal: MealGoal; readonly twoHours: LimitPair }

/** What readings by meal are held against, or why against nothing. */
export type GoalTold =
  | { readonly code: 'own'; readonly goal: MealGoal }
  /** A target of the person's own says that those of most may not fit. */
  | { readonly code: 'none-fits' }
  | {
      readonly code: 'published'
      readonly forWhom: TargetPreset | 'usual'
      readonly goals: readonly PublishedGoal[]
    }
  | { readonly code: 'none-after-meals' | 'own-may-differ' }

/** The person's own goal stands in the place of the published ones before meals. */
export function goalsTold(of: GoalsFor): readonly GoalTold[] {
  const { ownGoal, targetPreset } = of
  const published = publishedGoals(of)
  const own = ownGoal === null ? [] : [{ code: 'own', goal: ownGoal } as const]
  if (published === null) return ownGoal === null ? [{ code: 'none-fits' }] : own
  const { fasting, beforeMeals, bedtime, afterMeals } = published
  const [at, before] =
    beforeMeals === null ? (['fasting', fasting] as const) : (['before-meals', beforeMeals] as const)
  const goals: readonly PublishedGoal[] = [
    ...(ownGoal !== null || before === null ? [] : [{ at, goal: before }]),
    ...(bedtime === null ? [] : [{ at: 'bedtime', goal: bedtime } as const]),
    ...(afterMeals === null
      ? []
      : targetPreset === 'pregnancy'
        ? [{ at: 'one-hour-after-meals', goal: afterMeals, twoHours: PREGNANCY_TWO_HOURS } as const]
        : [{ at: 'after-meals', goal: afterMeals } as const]),
  ]
  return [
    ...own,
    ...(goals.length === 0 ? [] : [{ code: 'published', forWhom: targetPreset ?? 'usual', goals } as const]),
    ...(afterMeals === null ? [{ code: 'none-after-meals' } as const] : []),
    ...(ownGoal === null ? [{ code: 'own-may-differ' } as const] : []),
  ]
}
