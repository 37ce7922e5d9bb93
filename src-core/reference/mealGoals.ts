import type { TargetPreset } from './targetPreset'
import type { MealMoment } from '../log/mealWords'
import { LIMITS, type LimitPair } from './limits'

/** A goal for finger-sticks at one moment: `low` is included; `high` too unless `below` says that it is not. */
export interface MealGoal {
  readonly low: LimitPair | null
  readonly high: LimitPair
  readonly below?: true
}

/** American Diabetes Association, Standards of Care 2024, section 6: before meals, capillary plasma. */
const BEFORE_MEAL: MealGoal = { low: LIMITS.beforeMealLow, high: LIMITS.beforeMealHigh }
/** The same, one to two hours after the beginning of the meal. */
const AFTER_MEAL: MealGoal = { low: null, high: LIMITS.high, below: true }
/**
 * The same, section 15, pregnancy: fasting 70 to 95; up to 140 one hour after the meal's start (120 at two
 * hours: where the hour is not known, the wider one holds).
 */
const PREGNANCY_FASTING: MealGoal = { low: LIMITS.low, high: { mgDl: 95, mmol: 5.3 } }
const PREGNANCY_AFTER_MEAL: MealGoal = { low: null, high: LIMITS.pregnancyHigh }

/** The published goal for a moment of the day; null where there is none. */
export function mealGoal(moment: MealMoment, preset: TargetPreset | null): MealGoal | null {
  if (moment.startsWith('after-')) return preset === 'pregnancy' ? PREGNANCY_AFTER_MEAL : AFTER_MEAL
  if (!moment.startsWith('before-')) return null
  if (preset !== 'pregnancy') return BEFORE_MEAL
  return moment === 'before-breakfast' ? PREGNANCY_FASTING : null
}
