import type { Analysis, PeriodFigures } from '../../analysis/analysis'
import { dayOf } from '../../units/wallClock'
import { readingMoment, spanText } from './dates'
import { medianText } from './figures'
import { count, inWords, readingText } from './numbers'
import { yearsFor } from '../years'

/** Hours of the clock, ascending, as runs from the first to behind the last. */
export function hourRuns(hours: readonly number[]): readonly (readonly [number, number])[] {
  const runs: [number, number][] = []
  for (const hour of hours) {
    const last = runs.at(-1)
    if (last?.[1] === hour) last[1] = hour + 1
    else runs.push([hour, hour + 1])
  }
  return runs
}

/** '06–09', the block's hours. */
export function hoursText(fromHour: number, toHour: number): string {
  return `${String(fromHour).padStart(2, '0')}–${String(toHour).padStart(2, '0')}`
}

/** The row of readings of which the log gives the day alone. */
export const WITHOUT_A_TIME = 'no time'

/** In place of the day's picture. */
export const NO_TIMES =
  'The log gives days without times of day: its readings count in the numbers above, and cannot be shown by the hour.'

/** Under the day's picture: a bar must not be taken for the spread of the readings. */
export const MEDIAN_KEY = 'Small bar: how well the median is known. Outline: half of the readings.'

export function lowestLabelledSentence(labelled: number, lows: number): string {
  return `The ${inWords(labelled)} lowest of ${lows} lows have value and date.`
}

const MOST_LOWS_READ_OUT = 20

/** What the picture of the day shows, for those who cannot see it. */
export function dayPictureDescription(
  analysis: Analysis,
  figures: PeriodFigures,
  hardlyBelow: number,
): string {
  const { readings, settings } = analysis
  const blocks = figures.timeOfDay.blocks
  const medians = blocks
    .filter((block) => block.n >= hardlyBelow && block.median !== null)
    .map(
      (block) =>
        `${hoursText(block.fromHour, block.toHour)} ${medianText(block, settings.unit)} (${count(block.n, 'reading')})`,
    )
  const hardly = blocks
    .filter((block) => block.n < hardlyBelow)
    .map((block) => hoursText(block.fromHour, block.toHour))
  const years =
    readings.n > 0 ? yearsFor(dayOf(readings.at[0]), dayOf(readings.at[readings.n - 1])) : 'with-year'
  const lows = [...figures.lows.each]
    .sort((a, b) => readings.mgDl[a.index] - readings.mgDl[b.index] || a.index - b.index)
    .slice(0, MOST_LOWS_READ_OUT)
    .map(
      ({ index }) =>
        `${readingText(readings, index, settings.unit)} on ${readingMoment(readings, index, years)}`,
    )
  return [
    `Readings by time of day, ${spanText(figures.from, figures.to)}, in ${settings.unit}.`,
    medians.length > 0
      ? `Medians: ${medians.join('; ')}.`
      : 'No three hours hold enough readings for a median.',
    hardly.length > 0 ? `Hardly tested: ${hardly.join(', ')}.` : '',
    lows.length > 0
      ? `${count(figures.lows.each.length, 'low')}, lowest first: ${lows.join('; ')}.`
      : 'No lows.',
  ]
    .filter((sentence) => sentence !== '')
    .join(' ')
}

/** What the small picture around one doubtful reading shows. */
export function contextPictureDescription(
  analysis: Analysis,
  index: number,
  shown: readonly number[],
): string {
  const { readings, settings } = analysis
  const years = yearsFor(dayOf(readings.at[0]), dayOf(readings.at[readings.n - 1]))
  const text = (i: number) =>
    `${readingText(readings, i, settings.unit)} on ${readingMoment(readings, i, years)}`
  const others = shown.filter((i) => i !== index)
  return (
    `The hours around ${text(index)}, in ${settings.unit}. ` +
    (others.length > 0 ? `Other readings: ${others.map(text).join('; ')}.` : 'No other reading.')
  )
}
