import type { PeriodFigures } from '../../analysis/analysis'
import type { SensorTime } from '../../day/sensorLows'
import { LIMITS } from '../../reference/limits'
import type { Summary } from '../../statistics/summary'
import type { SensorEpisodeTold, SensorLowsTold } from '../../told/sensor'
import type { GlucoseUnit } from '../../units/glucose'
import { fixed } from '../../units/rounding'
import { type Phrase, strong } from '../phrases'
import { durationText } from './dates'
import { a1cText, count, limitText, percentText } from './numbers'

// Words made for sensors: shares of time and the indicator may be said of a sensor's readings alone.

/** The name of the share in target: finger-sticks are counted, a sensor's readings stand for time. */
export function inTargetLabel(kind: PeriodFigures['kind'], target: string): string {
  return kind === 'sensor' ? `Time in range ${target}` : `Readings ${target}`
}

/** The same with its percentage within a sentence. */
export function inTargetPhrase(kind: PeriodFigures['kind'], target: string, percent: string): string {
  return kind === 'sensor'
    ? `time in range ${target} ${percent} %`
    : `${percent} % of readings from ${target}`
}

/** 'glucose management indicator 7.1 %', null for finger-sticks. */
export function indicatorNote({ gmiPercent }: Summary): string | null {
  return typeof gmiPercent === 'number' ? `glucose management indicator ${a1cText(gmiPercent)} %` : null
}

/** In place of how far the readings can be trusted. */
export const SENSOR_NOT_JUDGED =
  'Sensor readings are not judged: what is said here about doubt is for finger-sticks only.'

/** How the indicator is computed, for the page on method. */
export const INDICATOR_DEFINITION = {
  figure: 'Glucose management indicator',
  how: 'In percent: 3.31 + 0.02392 × mean in mg/dL. For sensors only.',
  source: 'Bergenstal et al., Diabetes Care 2018;41:2275',
} as const

export const TIMES_TITLE = 'Time below, in and above range'

/** Names of the shares over their figures; that in target has its own. */
export const SHARE_LABELS = {
  percentBelow54: (unit: GlucoseUnit) => `Below ${limitText(LIMITS.veryLow, unit)}`,
  percentBelow70: (unit: GlucoseUnit) => `Below ${limitText(LIMITS.low, unit)}`,
  percentAbove180: (unit: GlucoseUnit) => `Above ${limitText(LIMITS.high, unit)}`,
  percentAbove250: (unit: GlucoseUnit) => `Above ${limitText(LIMITS.veryHigh, unit)}`,
} as const

/** A share that is not nothing is not printed as nothing: 'under 1'. */
export function shareText(percent: number): string {
  return percent > 0 && percentText(percent) === '0' ? 'under 1' : percentText(percent)
}

/** Whether shares of readings are shares of time, and of how much of it. */
export function timeText(time: SensorTime | null, days: number): string {
  if (time === null)
    return 'These are shares of readings: too few have a time of day to say how much of the time they cover.'
  const covered = `cover ${percentText(time.coveredPercent)} % of the ${days === 1 ? 'day' : `${days} days`}`
  return time.even
    ? `One reading every ${durationText(time.spacingMinutes)}: the shares of readings are shares of the time covered. The readings ${covered}.`
    : `The readings are not evenly spaced: these are shares of readings, not of time. The readings ${covered}.`
}

/** '12 episodes of 15 minutes or more below 70, 3 with 15 minutes or more below 54; 6.0 a week of the time covered.' */
export function sensorLowsHeadline(
  { below70, episodes, veryLow, perWeek, fewestMinutes }: SensorLowsTold,
  unit: GlucoseUnit,
): readonly Phrase[] {
  const [low, deep] = [limitText(LIMITS.low, unit), limitText(LIMITS.veryLow, unit)]
  if (below70 === 0) return [strong('No low was recorded.'), ' That does not show that there were none.']
  if (episodes === null) return [strong(`${count(below70, 'reading')} below ${low}.`)]
  if (episodes.length === 0)
    return [
      strong(`${count(below70, 'reading')} below ${low}, no episode of ${fewestMinutes} minutes or more.`),
    ]
  const rate = perWeek === null ? '' : `; ${fixed(perWeek, 1)} a week of the time covered`
  const deepToo = veryLow === 0 ? `none with as long below ${deep}` : `${veryLow} with as long below ${deep}`
  return [
    strong(
      `${count(episodes.length, 'episode')} of ${fewestMinutes} minutes or more below ${low}, ${deepToo}`,
    ),
    `${rate}.`,
  ]
}

/** '40 readings lie below 70, none below 54. Of the 40, 7 were not seen to last 15 minutes; they count all the same.' */
export function sensorLowReadings(
  { below70, below54, episodes, lowsInNone, fewestMinutes }: SensorLowsTold,
  unit: GlucoseUnit,
): string | null {
  if (below70 === 0) return null
  const [low, deep] = [limitText(LIMITS.low, unit), limitText(LIMITS.veryLow, unit)]
  const readings = `${count(below70, 'reading')} ${below70 === 1 ? 'lies' : 'lie'} below ${low}, ${below54 === 0 ? 'none' : below54} below ${deep}.`
  if (episodes === null)
    return `${readings} They come too far apart to tell which lows lasted ${fewestMinutes} minutes; every one counts.`
  if (lowsInNone === 0) return readings
  if (lowsInNone === below70)
    return `${readings} ${below70 === 1 ? 'It was' : 'They were'} not seen to last ${fewestMinutes} minutes, and ${below70 === 1 ? 'counts' : 'count'} all the same.`
  return lowsInNone === 1
    ? `${readings} Of the ${below70}, one was not seen to last ${fewestMinutes} minutes; it counts all the same.`
    : `${readings} Of the ${below70}, ${lowsInNone} were not seen to last ${fewestMinutes} minutes; they count all the same.`
}

/** An episode of a sensor: 'lowest 47'. */
export const lowestText = (value: string) => `lowest ${value}`

/** Under a share. */
export const readingsText = (n: number) => count(n, 'reading')

/** How long an episode went on, and when it began: '45 min, 14 April, 16:21; end not seen'. */
export function sensorEpisodeText(
  { minutes, beginSeen, endSeen }: Pick<SensorEpisodeTold, 'minutes' | 'beginSeen' | 'endSeen'>,
  moment: string,
): string {
  return `${lastedText({ minutes, beginSeen, endSeen })}, ${moment}${endSeen ? '' : '; end not seen'}`
}

/** Beside an episode whose moment stands already: '45 min', 'at least 20 min, end not seen'. */
export function sensorEpisodeLasted(
  episode: Pick<SensorEpisodeTold, 'minutes' | 'beginSeen' | 'endSeen'>,
): string {
  return `${lastedText(episode)}${episode.endSeen ? '' : ', end not seen'}`
}

function lastedText({
  minutes,
  beginSeen,
  endSeen,
}: Pick<SensorEpisodeTold, 'minutes' | 'beginSeen' | 'endSeen'>): string {
  return `${beginSeen && endSeen ? '' : 'at least '}${durationText(minutes)}`
}

/** Under the large figures: the indicator is computed from the mean and tells nothing besides. */
export const indicatorSentence = (note: string) => `From the mean alone: ${note}.`

/** How episodes are found, for the page on method. */
export const EPISODES_DEFINITION = {
  figure: 'Episodes of lows',
  how:
    'An episode begins with 15 minutes in a row below the limit and ends with 15 minutes at the limit of a low or above. ' +
    'A reading stands for the usual time between readings. A gap of more than 15 minutes, or of one and a half times that usual ' +
    'time where readings come more seldom, ends what is known. Two sensors are looked at each by itself and together. ' +
    'Lows of no episode are counted among the readings.',
  source: 'Danne et al., Diabetes Care 2017;40:1631. Battelino et al., Lancet Diabetes Endocrinol 2023;11:42',
} as const

/** The shares on the terminal, from the lowest on. */
export function sharesLine(
  shares: readonly { readonly label: string; readonly percent: number; readonly n: number }[],
): string {
  const each = shares.map(({ label, percent, n }) => `${label} ${shareText(percent)} % (${n})`)
  return `Share of readings, with their number: ${each.join(', ')}`
}
