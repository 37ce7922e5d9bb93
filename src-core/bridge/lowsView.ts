import type { Analysis, PeriodFigures } from '../analysis/analysis'
import { isLow } from '../log/readings'
import { lowsOfTwoPeriods } from '../shown/comparedPeriods'
import { markedSequence } from '../shown/markedText'
import { highsBeyond } from '../analysis/highsBeyond'
import { confirmedLows } from '../told/confirmedLows'
import { listedFirst } from '../told/lowEpisodes'
import { type LowEvent, MOST_LOWS_FIRST } from '../told/lowEvents'
import { type LowRemark, lowsTold } from '../told/lows'
import { SAID_OF_SENSORS, type SensorEpisodeTold, type SensorTold, sensorTold } from '../told/sensor'
import { plainText } from '../wording/phrases'
import { type Years, yearsFor } from '../told/years'
import type { Words } from '../wording/words'

/** One test that read low, or a set of repeats with a low in it, told as a sequence. */
export interface LowView {
  /** '31 March, 22:15'. */
  readonly moment: string
  /** '67', 'LO', '52 → 90'; the usual mark of doubt is in it: '67?'. */
  readonly values: string
  /** What a screen reader is told besides: that a low among them is doubtful and stays counted. */
  readonly doubtful: boolean
  /** Whether it lies in a stretch that is told once: a bracket stands beside it. */
  readonly bracketed: boolean
  /** 'low either way' where only how low is in doubt; null else. */
  readonly confirmed: string | null
  /** 'next test 109 after 40 min'. */
  readonly after: string
}

export interface HighsView {
  readonly headline: string
  /** That not all are listed; null where all are. */
  readonly latestTold: string | null
  /** '31 March, 22:15', in order of time; empty where the headline tells the only one. */
  readonly latest: readonly string[]
}

export interface LowsView {
  readonly headline: string
  /** Those that page 1 shows, in order of time. */
  readonly lowest: readonly LowView[]
  /** That these are the lowest; null where they are all. */
  readonly lowestTold: string | null
  /** The others, in order of time. */
  readonly others: readonly LowView[]
  /** Lows beyond those here; the list of readings holds them all. */
  readonly unlisted: number
  /** Readings above the meter's range, which have no number: what to do, and the latest; null where there are none. */
  readonly highs: HighsView | null
  /** What the list cannot show. */
  readonly remarks: readonly string[]
}

/** More than a person reads one by one. */
const MOST_LISTED = 200

/** The lows of a period, one by one, the lowest before the others, in the words of the printed page. */
export function lowsView(words: Words, analysis: Analysis, period: PeriodFigures): LowsView {
  const { readings, settings, marked, bracketed } = analysis
  const { unit } = settings
  const years = yearsFor(period.from, period.to)
  const { counted, events, lowest, remarks } = lowsTold(analysis, period)
  const sensor = sensorTold(analysis, period)
  if (sensor?.lows.episodes) return lowsOfSensor(words, analysis, period, sensor, remarks)
  const confirmed = confirmedLows(analysis, period)
  const others = events.filter((event) => !lowest.includes(event))
  const listed = others.slice(0, MOST_LISTED)
  const view = (event: LowEvent): LowView => ({
    moment: words.dates.readingMoment(readings, event.members[0], years),
    values: markedSequence(words, analysis, event.members),
    doubtful: event.members.some((index) => marked.has(index) && isLow(readings, index)),
    bracketed: event.members.some((index) => bracketed.has(index)),
    confirmed: event.members.some((index) => confirmed.has(index)) ? words.lows.CONFIRMED : null,
    after: words.lows.afterLowText(event, readings, unit),
  })
  const ofTwo = lowsOfTwoPeriods(words, analysis, years)
  return {
    headline: words.lows.lowsHeadline(counted, unit),
    lowest: lowest.map(view),
    lowestTold: others.length > 0 ? words.lows.lowestText(lowest.length) : null,
    others: listed.map(view),
    unlisted: others.length - listed.length,
    highs: highsView(words, analysis, period, years),
    remarks: [
      ...(ofTwo === null ? [] : [ofTwo]),
      // The others stand below, not behind.
      ...remarks
        .filter(({ code }) => code !== 'further')
        .map((remark) => words.lows.lowRemarkSentence(remark, unit)),
      ...(counted.below70 > 0 ? [words.lows.AFTER_A_LOW] : []),
    ],
  }
}

/** Of a sensor its episodes: nobody reads hundreds of readings one by one. */
function lowsOfSensor(
  words: Words,
  analysis: Analysis,
  period: PeriodFigures,
  { lows, time }: SensorTold,
  remarks: readonly LowRemark[],
): LowsView {
  const { readings, settings } = analysis
  const { unit } = settings
  const years = yearsFor(period.from, period.to)
  const episodes = lows.episodes ?? []
  const lowest = listedFirst(readings, episodes, MOST_LOWS_FIRST)
  const others = episodes.filter((episode) => !lowest.includes(episode))
  const listed = others.slice(0, MOST_LISTED)
  const view = (episode: SensorEpisodeTold): LowView => ({
    moment: words.dates.readingMoment(readings, episode.lows[0], years),
    values: words.sensor.lowestText(markedSequence(words, analysis, [episode.lowest])),
    doubtful: false,
    bracketed: false,
    confirmed: null,
    after: words.sensor.sensorEpisodeLasted(episode),
  })
  const ofTwo = lowsOfTwoPeriods(words, analysis, years)
  return {
    headline: plainText(words.sensor.sensorLowsHeadline(lows, unit)),
    lowest: lowest.map(view),
    lowestTold: others.length > 0 ? words.lows.lowestText(lowest.length) : null,
    others: listed.map(view),
    unlisted: others.length - listed.length,
    highs: highsView(words, analysis, period, years),
    remarks: [
      words.sensor.sensorLowReadings(lows, unit),
      words.sensor.timeText(time, period.days),
      ofTwo,
      ...remarks
        .filter(({ code }) => SAID_OF_SENSORS.includes(code))
        .map((remark) => words.lows.lowRemarkSentence(remark, unit)),
    ].filter((sentence) => sentence !== null),
  }
}

function highsView(words: Words, analysis: Analysis, period: PeriodFigures, years: Years): HighsView | null {
  const highs = highsBeyond(analysis, period)
  if (highs === null) return null
  const moments = highs.latest.map((index) => words.dates.readingMoment(analysis.readings, index, years))
  return {
    headline: plainText(words.highs.highsHeadline(highs, moments[moments.length - 1])),
    latestTold: words.highs.latestHighsSentence(moments.length, highs.n),
    latest: highs.n === 1 ? [] : moments,
  }
}
