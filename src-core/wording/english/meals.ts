import type { MealMoment } from '../../reference/mealMoment'
import type { MealKind, MealRises } from '../../day/meals'
import type { MealGoal } from '../../reference/mealGoals'
import type { TargetPreset } from '../../reference/targetPreset'
import type { GoalTold, PublishedGoal } from '../../told/goals'
import type { GlucoseUnit } from '../../units/glucose'
import { limitText, rangeText, signedGlucoseText } from './numbers'

/** All meals as one. */
export function kindName(kind: MealKind): string {
  return kind === 'before' ? 'before meals' : kind === 'after' ? 'after meals' : kind
}

/** 'before breakfast'. */
export function momentName(moment: MealMoment): string {
  if (moment === 'before-meal') return 'before a meal'
  if (moment === 'after-meal') return 'after a meal'
  return moment.replace('-', ' ')
}

/** '80–130', 'below 180', 'up to 140'. */
export function goalText({ low, high, below }: MealGoal, unit: GlucoseUnit): string {
  if (low !== null) return rangeText(limitText(low, unit), limitText(high, unit))
  return `${below ? 'below' : 'up to'} ${limitText(high, unit)}`
}

/** The row of readings whose tag tells no moment, or that have none. */
export const WITHOUT_A_TAG = 'without a tag'

/** What the column of goals holds readings against, or why it holds them against nothing. */
export function goalsSentence(goals: readonly GoalTold[], unit: GlucoseUnit): string {
  return goals.map((goal) => goalSentence(goal, unit)).join(' ')
}

function goalSentence(told: GoalTold, unit: GlucoseUnit): string {
  switch (told.code) {
    case 'own':
      return `The person’s own goal before meals: ${endsText(told.goal, unit)}.`
    case 'none-fits':
      return 'The target is the person’s own: published goals may not fit, so none is printed.'
    case 'published': {
      const goals = told.goals.map((goal) => publishedText(goal, unit))
      return `Published goals ${FOR_WHOM[told.forWhom]}: ${goals.join(', ')}.`
    }
    case 'none-after-meals':
      return 'None is published for after meals.'
    case 'own-may-differ':
      return 'The person’s own may differ.'
  }
}

const FOR_WHOM: Readonly<Record<TargetPreset | 'usual', string>> = {
  usual: 'for finger-sticks in most adults',
  'older-adult': 'for finger-sticks in older adults with several illnesses or mild to moderate impairment',
  frail: 'for finger-sticks in older adults in very poor health',
  pregnancy: 'for finger-sticks in pregnancy',
}

function publishedText(told: PublishedGoal, unit: GlucoseUnit): string {
  switch (told.at) {
    case 'before-meals':
      return `before meals ${endsText(told.goal, unit)}`
    case 'fasting':
      return `fasting ${endsText(told.goal, unit)}`
    case 'bedtime':
      return `at bedtime ${endsText(told.goal, unit)}`
    case 'after-meals':
      return `${goalText(told.goal, unit)} one to two hours after the start of the meal`
    case 'one-hour-after-meals':
      return `${goalText(told.goal, unit)} one hour after the start of the meal (${limitText(told.twoHours, unit)} at two hours)`
  }
}

/** '80 to 130'. */
function endsText({ low, high }: MealGoal, unit: GlucoseUnit): string {
  return low === null
    ? `up to ${limitText(high, unit)}`
    : `${limitText(low, unit)} to ${limitText(high, unit)}`
}

/** 'Median rise from a test before the meal to one 60 to 150 minutes later: breakfast +32 (27 pairs, middle half +21 to +40); ...'. */
export function risesSentence(rises: readonly MealRises[], unit: GlucoseUnit): string {
  const signed = (mgDl: number) => signedGlucoseText(mgDl, unit)
  const each = rises.map(
    ({ meal, n, medianMgDl: median, q1MgDl: q1, q3MgDl: q3 }) =>
      `${meal === 'meal' ? 'unnamed meals' : meal} ${signed(median)} (${n} ${n === 1 ? 'pair' : `pairs, middle half ${signed(q1)} to ${signed(q3)}`})`,
  )
  return `Median rise from a test before the meal to one 60 to 150 minutes later: ${each.join('; ')}.`
}
