/** When a reading was taken, as a meal's tag tells it. `before-meal` and `after-meal` name no meal. */
export const MEAL_MOMENTS = [
  'before-breakfast',
  'after-breakfast',
  'before-lunch',
  'after-lunch',
  'before-dinner',
  'after-dinner',
  'before-meal',
  'after-meal',
  'bedtime',
  'night',
] as const
export type MealMoment = (typeof MEAL_MOMENTS)[number]
