import type { MealMoment } from './mealMoment'
import type { TargetPreset } from './targetPreset'
import { LIMITS, type LimitPair } from './limits'

/** A goal for finger-sticks at one moment: `low` is included; `high` too unless `below` says that it is not. */
export interface MealGoal {
  readonly low: LimitPair | null
  readonly high: LimitPair
  readonly below?: true
}

/** What is published for one group of people; null where nothing is. */
export interface PublishedGoals {
  readonly fasting: MealGoal | null
  readonly beforeMeals: MealGoal | null
  readonly afterMeals: MealGoal | null
  readonly bedtime: MealGoal | null
}

/** Ends of published goals beside `LIMITS`, as they stand in both units. */
const ENDS = {
  pregnancyFasting: { mgDl: 95, mmol: 5.3 },
  olderLow: { mgDl: 90, mmol: 5.0 },
  hundred: { mgDl: 100, mmol: 5.6 },
  frailBedtimeLow: { mgDl: 110, mmol: 6.1 },
  olderHigh: { mgDl: 150, mmol: 8.3 },
  frailBedtimeHigh: { mgDl: 200, mmol: 11.1 },
} as const satisfies Record<string, LimitPair>

/** Every end that a published goal has. */
export const GOAL_ENDS: readonly LimitPair[] = [...Object.values(LIMITS), ...Object.values(ENDS)]

const BEFORE_MEALS = { low: LIMITS.beforeMealLow, high: LIMITS.beforeMealHigh }
const OLDER_BEFORE_MEALS = { low: ENDS.olderLow, high: ENDS.olderHigh }
const FRAIL_BEFORE_MEALS = { low: ENDS.hundred, high: LIMITS.high }

/**
 * Goals for finger-sticks. American Diabetes Association, Standards of Care 2024: section 6 (before meals; below 180 one to
 * two hours after the beginning of the meal), section 13, table 13.1 (older adults, before meals and at bedtime), section
 * 15 (pregnancy: fasting 70 to 95; up to 140 one hour after the meal's start, 120 at two hours: where the hour is not
 * known, the wider one holds). What is null there has none.
 */
export const PUBLISHED_GOALS: Readonly<Record<TargetPreset | 'usual', PublishedGoals>> = {
  usual: {
    fasting: BEFORE_MEALS,
    beforeMeals: BEFORE_MEALS,
    afterMeals: { low: null, high: LIMITS.high, below: true },
    bedtime: null,
  },
  'older-adult': {
    fasting: OLDER_BEFORE_MEALS,
    beforeMeals: OLDER_BEFORE_MEALS,
    afterMeals: null,
    bedtime: { low: ENDS.hundred, high: LIMITS.high },
  },
  frail: {
    fasting: FRAIL_BEFORE_MEALS,
    beforeMeals: FRAIL_BEFORE_MEALS,
    afterMeals: null,
    bedtime: { low: ENDS.frailBedtimeLow, high: ENDS.frailBedtimeHigh },
  },
  pregnancy: {
    fasting: { low: LIMITS.low, high: ENDS.pregnancyFasting },
    beforeMeals: null,
    afterMeals: { low: null, high: LIMITS.pregnancyHigh },
    bedtime: null,
  },
}

/** In pregnancy two hours after the meal's start, where `afterMeals` is that of one hour. */
export const PREGNANCY_TWO_HOURS: LimitPair = { mgDl: 120, mmol: 6.7 }

/** For whom goals are asked. */
export interface GoalsFor {
  readonly targetPreset: TargetPreset | null
  readonly targetLow: LimitPair
  readonly targetHigh: LimitPair
  /** The person's own goal before meals. */
  readonly ownGoal: MealGoal | null
}

/**
 * The goals that are published for a person; null where a target of the person's own says that those of most adults do
 * not fit, and nobody knows which do.
 */
export function publishedGoals({ targetPreset, targetLow, targetHigh }: GoalsFor): PublishedGoals | null {
  if (targetPreset !== null) return PUBLISHED_GOALS[targetPreset]
  const usual = targetLow.mgDl === LIMITS.low.mgDl && targetHigh.mgDl === LIMITS.high.mgDl
  return usual ? PUBLISHED_GOALS.usual : null
}

/** The goal for a moment of the day: the person's own before meals, else the published one; null where there is none. */
export function mealGoal(moment: MealMoment, of: GoalsFor): MealGoal | null {
  const published = publishedGoals(of)
  if (moment === 'before-breakfast') return of.ownGoal ?? published?.fasting ?? null
  if (moment.startsWith('before-')) return of.ownGoal ?? published?.beforeMeals ?? null
  if (moment.startsWith('after-')) return published?.afterMeals ?? null
  return moment === 'bedtime' ? (published?.bedtime ?? null) : null
}
