import { hasClockTime, isLow } from '../log/readings'
import { countMarks } from '../technique/equipmentStretches'
import { dayOf } from '../units/wallClock'
import { durationText, readingMoment } from '../wording/dates'
import {
  furtherLowsSentence,
  lowsHeadline,
  belowMetersSentence,
  nearLowsSentence,
  nightsSentence,
  notCountedSentence,
  notFollowedSentence,
  PEN_LINE,
} from '../wording/lows'
import { readingText } from '../wording/numbers'
import { BRACKET, bracketedLowsSentence } from '../wording/stretches'
import { markedText, type ReportContext, timesKnown } from './context'
import type { Block, Paragraph } from './document'
import { belowMeters, type LowEvent, lowestEvents, lowEvents, lowsNotFollowed } from './lowEvents'
import { bracketedLows } from './knownCauses'
import { MOST_LOWS_LISTED } from './limits'
import { greyParagraph, paragraph, sectionHeading } from './parts'
import { lowsOfTwoPeriods } from './twoPeriods'

/** Longer sequences leave out their middle, but no low. */
const MOST_MEMBERS = 4

/** The lows, before any other figure. */
export function lowsFirst(context: ReportContext): readonly Block[] {
  const { analysis, figures, unit } = context
  const { lows } = figures
  const { readings } = analysis
  const events = lowEvents(analysis, figures)
  const shown = lowestEvents(analysis, events)
  const marks = countMarks(
    lows.each.map(({ index }) => index),
    analysis,
  )
  const headline = lowsHeadline(
    {
      below70: lows.readingsBelow70,
      below54: lows.readingsBelow54,
      days: new Set(lows.each.map(({ index }) => dayOf(readings.at[index]))).size,
      ...marks,
    },
    unit,
  )
  const ofTwo = lowsOfTwoPeriods(analysis, context.years)
  const remarks = [
    bracketedLowsSentence(marks.bracketed, bracketedLows(analysis, figures)),
    shown.length < events.length
      ? furtherLowsSentence(shown.length, Math.min(events.length, MOST_LOWS_LISTED), events.length)
      : null,
    nightsSentence(lows.nightsTested, lows.nights, timesKnown(context)),
    notFollowedSentence(lowsNotFollowed(analysis, figures), lows.readingsBelow70),
    belowMetersSentence(belowMeters(analysis, figures), unit),
    nearLowsSentence(lows.nearLows, lows.readingsBelow70, unit),
    notCountedSentence(lows.notCounted),
  ]
  return [
    ...sectionHeading('Lows first', context.width),
    paragraph(headline),
    ...(ofTwo === null ? [] : [paragraph(ofTwo, { bold: true })]),
    ...inTwoColumns(shown.map((event) => lowItem(context, event))),
    paragraph(remarks.filter((remark) => remark !== null).join(' ')),
    greyParagraph(PEN_LINE, { margin: [0, 2, 0, 0] }),
  ]
}

/** The first half at the left, in order of time from top to bottom. */
function inTwoColumns(items: readonly Paragraph[]): readonly Block[] {
  if (items.length === 0) return []
  const half = Math.ceil(items.length / 2)
  return [{ columns: [{ stack: items.slice(0, half) }, { stack: items.slice(half) }], columnGap: 14 }]
}

function lowItem(context: ReportContext, event: LowEvent): Paragraph {
  const { readings } = context.analysis
  const spread = event.minutes === null ? '' : ` (${durationText(event.minutes)})`
  return {
    text: [
      {
        text: `${bracketBefore(context, event.members)}■ ${sequenceText(context, event.members)}`,
        bold: true,
      },
      `  ${readingMoment(readings, event.members[0], context.years)}${spread}${nextText(context, event)}`,
    ],
    margin: [0, 0, 0, 2],
  }
}

function nextText(context: ReportContext, event: LowEvent): string {
  const { readings } = context.analysis
  if (!hasClockTime(readings, event.lowest)) return '; no time in the log'
  if (event.next === null) return '; the log ends here'
  return `; next test ${readingText(readings, event.next.index, context.unit)} after ${durationText(event.next.minutes)}`
}

/** '[ ' where one of the readings lies in a stretch that is told once, else ''. */
export function bracketBefore(
  { analysis: { bracketed } }: ReportContext,
  members: readonly number[],
): string {
  return members.some((index) => bracketed.has(index)) ? `${BRACKET}\u00A0` : ''
}

/** '52 → 90', with '?' at doubtful members. */
export function sequenceText(context: ReportContext, members: readonly number[]): string {
  const texts = members.map((index) => markedText(context, index))
  if (texts.length <= MOST_MEMBERS) return texts.join(' → ')
  const parts: string[] = []
  members.forEach((index, i) => {
    const atAnEnd = i === 0 || i === members.length - 1
    if (atAnEnd || isLow(context.analysis.readings, index)) parts.push(texts[i])
    else if (parts.at(-1) !== '…') parts.push('…')
  })
  return parts.join(' → ')
}
