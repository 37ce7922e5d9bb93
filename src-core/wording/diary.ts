import type { GlucoseUnit } from '../units/glucose'
import { count } from './numbers'

export const DIARY = 'Diary'
export const NO_READINGS_THEN = 'no readings'
export const NO_TIME_COLUMN = 'no time'

/** '28 latest days of 90, mg/dL.' */
export function diaryCaption(days: number, ofDays: number, unit: GlucoseUnit): string {
  return days < ofDays
    ? `The latest ${count(days, 'day')} of ${ofDays} up to the last reading, ${unit}.`
    : `${count(days, 'day')} up to the last reading, ${unit}.`
}

export function diaryLegend(): string {
  return (
    '■ low; → test after test within minutes, because sugar may have been taken in between. ? doubtful. ' +
    'A number in brackets: the mean of so many tests within minutes; a doubtful one among them stands beside it. ' +
    'Insulin, carbohydrates and events are the log’s own words; nothing is computed with them.'
  )
}
