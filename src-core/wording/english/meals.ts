import type { MealMoment } from '../../reference/mealMoment'
import type { MealRises } from '../../day/meals'
import type { Settings } from '../../model/settings'
import { type MealGoal, type PublishedGoals, publishedGoals } from '../../reference/mealGoals'
import type { TargetPreset } from '../../reference/targetPreset'
import type { GlucoseUnit } from '../../units/glucose'
import { differenceText, glucoseText, limitText, rangeText } from './numbers'

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
export function goalsSentence(settings: Settings): string {
  const { unit, ownGoal } = settings
  const published = publishedGoals(settings)
  const own = ownGoal === null ? null : `The person’s own goal before meals: ${endsText(ownGoal, unit)}.`
  if (published === null) {
    return own ?? 'The target is the person’s own: published goals may not fit and none is printed.'
  }
  const parts = publishedParts(settings, ownGoal === null ? published : withoutBeforeMeals(published))
  const told =
    parts.length === 0
      ? []
      : [`Published goals ${FOR_WHOM[settings.targetPreset ?? 'usual']}: ${parts.join(', ')}.`]
  const after = published.afterMeals === null ? ['None is published for after meals.'] : []
  const may = own === null ? ['The person’s own may differ.'] : []
  return [...(own === null ? [] : [own]), ...told, ...after, ...may].join(' ')
}

const FOR_WHOM: Readonly<Record<TargetPreset | 'usual', string>> = {
  usual: 'for finger-sticks of most adults',
  'older-adult': 'for finger-sticks of older adults with several illnesses or mild to moderate impairment',
  frail: 'for finger-sticks of older adults in very poor health',
  pregnancy: 'for finger-sticks in pregnancy',
}

function withoutBeforeMeals(published: PublishedGoals): PublishedGoals {
  return { ...published, fasting: null, beforeMeals: null }
}

function publishedParts(
  { unit, targetPreset }: Settings,
  { fasting, beforeMeals, afterMeals, bedtime }: PublishedGoals,
): readonly string[] {
  const limit = (mgDl: number, mmol: number) => limitText({ mgDl, mmol }, unit)
  const after =
    targetPreset === 'pregnancy'
      ? `up to ${limit(140, 7.8)} one hour after the start of the meal (${limit(120, 6.7)} at two hours)`
      : afterMeals && `${goalText(afterMeals, unit)} one to two hours after the start of the meal`
  return [
    beforeMeals && `before meals ${endsText(beforeMeals, unit)}`,
    beforeMeals === null && fasting && `fasting ${endsText(fasting, unit)}`,
    bedtime && `at bedtime ${endsText(bedtime, unit)}`,
    after,
  ].filter((part) => typeof part === 'string')
}

/** '80 to 130'. */
function endsText({ low, high }: MealGoal, unit: GlucoseUnit): string {
  return low === null
    ? `up to ${limitText(high, unit)}`
    : `${limitText(low, unit)} to ${limitText(high, unit)}`
}

/** 'Rise from before to after (60 to 150 minutes): breakfast +32 (27 pairs); ...'; null without pairs. */
export function risesSentence(rises: readonly MealRises[], unit: GlucoseUnit): string | null {
  if (rises.length === 0) return null
  const signed = (mgDl: number) => differenceText(glucoseText(0, unit), glucoseText(mgDl, unit))
  const each = rises.map(
    ({ meal, n, medianMgDl: median, q1MgDl: q1, q3MgDl: q3 }) =>
      `${meal === 'meal' ? 'meals not named' : meal} ${signed(median)} (${n} ${n === 1 ? 'pair' : `pairs, half ${signed(q1)} to ${signed(q3)}`})`,
  )
  return `Rise from before to after the meal, 60 to 150 minutes, median: ${each.join('; ')}.`
}
