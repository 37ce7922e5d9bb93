import { lowsOfTwoPeriods } from '../shown/comparedPeriods'
import { markersText } from '../shown/largeFigures'
import { markedText } from '../shown/markedText'
import { sensorShares } from '../shown/sensorShares'
import { besideNumbers } from '../told/besideNumbers'
import { areMost, listedFirst, usualHours } from '../told/lowEpisodes'
import type { LowRemark } from '../told/lows'
import { periodMeasure } from '../told/measures'
import { SAID_OF_SENSORS, type SensorEpisodeTold, type SensorLowsTold, type SensorTold } from '../told/sensor'
import { lowRemarkInWords, printedNote, type ReportContext } from './context'
import { dayInNumbers } from './dayInNumbers'
import { decidedReadings } from './decided'
import type { Block, Paragraph } from './document'
import { FIRST_TEXT, headed, inTwoColumns, large, lowsQuestion, noteLengthBeside } from './firstParts'
import { estimatedPages } from './flow'
import { forTheVisit } from './forTheVisit'
import { method } from './method'
import { onNewPage, paragraph, TYPE } from './parts'
import { daysUnderOneAnother } from './pictures'
import { oneLine } from './printable'
import { theWeek } from './theWeek'
import { twoPeriods } from './twoPeriods'

// The log of a sensor: hundreds of readings a day, of which nothing is listed one by one.

/** The lows of a sensor on the first page: episodes of 15 minutes or more, the lowest listed, and the readings of none. */
export function sensorLowsFirst(
  context: ReportContext,
  told: SensorLowsTold,
  remarks: readonly LowRemark[],
  most: number,
): readonly Block[] {
  const { analysis, unit, words, years } = context
  const { firstPage: own, sensor } = words
  const episodes = told.episodes ?? []
  const shown = listedFirst(analysis.readings, episodes, most)
  const hours = usualHours(analysis.readings, episodes)
  const ofTwo = lowsOfTwoPeriods(words, analysis, years)
  const sentences = [
    sensor.sensorLowReadings(told, unit),
    shown.length < episodes.length
      ? own.listedText(
          shown.length,
          episodes.length,
          episodes.some(({ helped }) => helped),
        )
      : null,
    hours.length === 0 ? null : own.usualHoursText(hours, areMost(hours)),
    ...remarks
      .filter(({ code }) => SAID_OF_SENSORS.includes(code))
      .map((remark) => lowRemarkInWords(context, remark)),
    ...lowsQuestion(context),
  ].filter((sentence) => sentence !== null)
  return [
    ...headed(context, own.TITLES.lows, sensor.sensorLowsHeadline(told, unit)),
    ...(ofTwo === null ? [] : [paragraph(ofTwo, { bold: true, ...FIRST_TEXT })]),
    ...inTwoColumns(shown.map((episode) => episodeItem(context, episode, noteLengthBeside(shown.length)))),
    paragraph(sentences.join(' '), FIRST_TEXT),
    paragraph(own.PEN_LINE, { fontSize: TYPE.person }),
  ]
}

function episodeItem(context: ReportContext, episode: SensorEpisodeTold, noteLength: number): Paragraph {
  const { analysis, words, years } = context
  const note = episode.noted === null ? '' : printedNote(context, episode.noted)
  const said = [
    ...(episode.helped ? [words.firstPage.HELPED] : []),
    ...(note === '' ? [] : [`‘${oneLine(note, noteLength)}’`]),
  ]
  const when = words.dates.readingMoment(analysis.readings, episode.lows[0], years)
  const lowest = words.sensor.lowestText(markedText(words, analysis, episode.lowest))
  return {
    text: [
      { text: `■ ${lowest}`, bold: true },
      `  ${words.sensor.sensorEpisodeText(episode, when)}${said.length > 0 ? ` (${said.join('; ')})` : ''}`,
    ],
    ...FIRST_TEXT,
    margin: [0, 0, 0, 1],
  }
}

const TARGET_WIDTH = 138

/** The shares below, in and above the target, and what they are shares of. */
export function sensorTimes(context: ReportContext, { time }: SensorTold): readonly Block[] {
  const { analysis, figures, words } = context
  const { sensor, figures: text } = words
  return [
    ...headed(context, sensor.TIMES_TITLE, [sensor.timeText(time, figures.days)]),
    {
      columns: sensorShares(words, analysis, figures).map(({ key, label, percent, n }) => {
        const { heldBack } = periodMeasure(key, figures)
        const figure =
          heldBack !== null || percent === null
            ? large(label, words.numbers.NO_NUMBER, '', heldBack === null ? '' : text.heldBackText(heldBack))
            : large(label, sensor.shareText(percent), '%', sensor.readingsText(n))
        return { ...figure, width: key === 'percentInTarget' ? TARGET_WIDTH : ('*' as const) }
      }),
      columnGap: 8,
    },
  ]
}

/** Single days as far as they leave the page to the rest, else weeks. */
const FEW_ROWS = 20

/** What stands behind the first page, on one page where nothing was told besides: blocks, days, cautions, logs. */
export function behindSensor(context: ReportContext): readonly Block[] {
  const blocks = behind(context)
  return estimatedPages(context, blocks) === 1 ? blocks : behind(context, FEW_ROWS)
}

/** Two periods have a page of their own, so that all others have theirs. */
function behind(context: ReportContext, mostRows?: number): readonly Block[] {
  const { analysis, figures, words, years } = context
  const markers = markersText(words, analysis, figures)
  const beside = besideNumbers(analysis, figures).map((each) =>
    words.besideNumbers.besideSentence(each, analysis.settings, years),
  )
  const compared = twoPeriods(context)
  const day = dayInNumbers(context)
  return [
    ...compared,
    ...(compared.length > 0 ? onNewPage(day) : day),
    ...[...(markers === null ? [] : [markers]), ...beside].map((sentence) => paragraph(sentence)),
    ...theWeek(context),
    ...daysUnderOneAnother(context, mostRows),
    ...decidedReadings(context),
    ...forTheVisit(context),
    ...method(context, false),
  ]
}
