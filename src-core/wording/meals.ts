import type { MealRises } from '../day/meals'
import type { MealMoment } from '../log/mealWords'
import type { Settings } from '../analysis/settings'
import { LIMITS } from '../reference/limits'
import type { MealGoal } from '../reference/mealGoals'
import type { GlucoseUnit } from '../units/glucose'
import { count, differenceText, glucoseText, limitText, rangeText } from './numbers'

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

/** Readings that the table has no row for, so that its lows add up. */
export function untaggedSentence(untagged: number, lows: number): string {
  const held = lows === 0 ? '' : `, ${count(lows, 'low')} among them`
  return `${count(untagged, 'reading')} without a meal’s tag ${untagged === 1 ? 'stands' : 'stand'} in no row${held}.`
}

/** What the column of goals holds readings against. */
export function goalsSentence({ unit, targetPreset }: Pick<Settings, 'unit' | 'targetPreset'>): string {
  const limit = (pair: { mgDl: number; mmol: number }) => limitText(pair, unit)
  if (targetPreset === 'pregnancy') {
    return (
      `Goals for finger-sticks in pregnancy: fasting ${limit(LIMITS.low)} to ${limit({ mgDl: 95, mmol: 5.3 })}; up to ` +
      `${limit(LIMITS.pregnancyHigh)} one hour after the start of the meal (${limit({ mgDl: 120, mmol: 6.7 })} at two hours).`
    )
  }
  return (
    `Goals for finger-sticks: before meals ${limit(LIMITS.beforeMealLow)} to ${limit(LIMITS.beforeMealHigh)}, below ` +
    `${limit(LIMITS.high)} one to two hours after the start of the meal. The person’s own may differ.`
  )
}

/** 'Rise from before to after (60 to 150 minutes): breakfast +32 (27 pairs); ...'; null without pairs. */
export function risesSentence(rises: readonly MealRises[], unit: GlucoseUnit): string | null {
  if (rises.length === 0) return null
  const signed = (mgDl: number) => differenceText(glucoseText(0, unit), glucoseText(mgDl, unit))
  const each = rises.map(
    ({ meal, n, median, q1, q3 }) =>
      `${meal === 'meal' ? 'meals not named' : meal} ${signed(median)} (${n} ${n === 1 ? 'pair' : `pairs, half ${signed(q1)} to ${signed(q3)}`})`,
  )
  return `Rise from before to after the meal, 60 to 150 minutes, median: ${each.join('; ')}.`
}
