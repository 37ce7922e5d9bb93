import type { GlucoseUnit } from '../../units/glucose'
import { count } from './numbers'

export const DIARY = 'Diary'
export const NO_READINGS_THEN = 'no readings'
export const NO_TIME_COLUMN = 'no time'

/** 'The latest 28 days of 90 up to the last reading, mg/dL.'; `ofDays` null where they are all. */
export function diaryCaption(days: number, ofDays: number | null, unit: GlucoseUnit): string {
  return ofDays !== null
    ? `The latest ${days} of ${count(ofDays, 'day')}, up to the last reading, in ${unit}.`
    : `${count(days, 'day')} up to the last reading, in ${unit}.`
}

/** `mixed`: whether columns by the meals that the log tells stand beside columns by hours. */
export function diaryLegend(mixed: boolean): string {
  return (
    (mixed ? 'Under a meal: tests that the log tags with it. Under hours: tests without such a tag. ' : '') +
    '■ low, counted whatever the doubt. → test after test within minutes, in the order taken: sugar may have been taken in ' +
    'between, or one of them may be wrong. Small, with ‘?’: doubtful. (2): the mean of two tests within minutes that agree. ' +
    'Insulin, carbohydrates and events are the log’s own words; nothing is computed with them.'
  )
}

/** After the hours of a column that holds all tests without a tag. */
export const NO_TAG = 'no tag'

export const MEAL_TITLES = {
  night: 'night',
  'before-breakfast': 'before breakfast',
  'after-breakfast': 'after breakfast',
  'before-lunch': 'before lunch',
  'after-lunch': 'after lunch',
  'before-dinner': 'before dinner',
  'after-dinner': 'after dinner',
  bedtime: 'bedtime',
} as const
