import type { DaySpan, Readings } from '../../log/readings'
import type { BlockMedian, DayTold } from '../../told/day'
import type { GlucoseUnit } from '../../units/glucose'
import { readingMoment, spanText } from './dates'
import { valueText } from './figures'
import { count, inWords, readingText } from './numbers'
import type { Years } from '../../told/years'

/** '06–09', the block's hours. */
export function hoursText(fromHour: number, toHour: number): string {
  return `${String(fromHour).padStart(2, '0')}–${String(toHour).padStart(2, '0')}`
}

export const blocksTitle = (unit: GlucoseUnit) => `The day in blocks of three hours, ${unit}`
export const BLOCK_COLUMNS = ['hours', 'readings'] as const
export function blocksNote(fewest: number, fewestDays: number, fewestForSd: number): string {
  return (
    `Medians, means and shares need ${fewest} readings on ${fewestDays} days, the SD ${fewestForSd}; lows are always counted. ` +
    'No mean or SD where more than one reading in ten is HI or LO.'
  )
}

/** The row of readings of which the log gives the day alone. */
export const WITHOUT_A_TIME = 'no time'

/** In place of the day's picture. */
export const NO_TIMES =
  'The log gives dates but no times of day: its readings count in the numbers above but cannot be shown by the hour.'

/** Under the day's picture: a bar must not be taken for the spread of the readings. */
export const MEDIAN_KEY = 'Small bar: how well the median is known. Outline: middle half of the readings.'

export function lowestLabelledSentence(labelled: number, lows: number): string {
  return `The ${inWords(labelled)} lowest of ${lows} lows are labelled with value and date.`
}

/** '06–09 106 (12 readings)'. */
export function blockMedianText({ hours: [from, to], median, n }: BlockMedian, unit: GlucoseUnit): string {
  return `${hoursText(from, to)} ${valueText(median, unit)} (${count(n, 'reading')})`
}

/** What the picture of the day shows, for those who cannot see it. */
export function dayPictureDescription(
  { medians, hardlyTested, lows, lowest }: DayTold,
  { from, to }: DaySpan,
  readings: Readings,
  unit: GlucoseUnit,
  years: Years,
): string {
  const told = lowest.map(
    (index) => `${readingText(readings, index, unit)} on ${readingMoment(readings, index, years)}`,
  )
  return [
    `Readings by time of day, ${spanText(from, to)}, in ${unit}.`,
    medians.length > 0
      ? `Medians: ${medians.map((block) => blockMedianText(block, unit)).join('; ')}.`
      : 'No block of three hours has enough readings for a median.',
    ...(hardlyTested.length > 0
      ? [`Hardly tested: ${hardlyTested.map(([first, end]) => hoursText(first, end)).join(', ')}.`]
      : []),
    lows > 0 ? `${count(lows, 'low')}, lowest first: ${told.join('; ')}.` : 'No lows.',
  ].join(' ')
}

/** What the small picture around one doubtful reading shows. */
export function contextPictureDescription(
  readings: Readings,
  index: number,
  others: readonly number[],
  unit: GlucoseUnit,
  years: Years,
): string {
  const text = (i: number) => `${readingText(readings, i, unit)} on ${readingMoment(readings, i, years)}`
  return (
    `The hours around ${text(index)}, in ${unit}. ` +
    (others.length > 0 ? `Other readings: ${others.map(text).join('; ')}.` : 'No other reading.')
  )
}
