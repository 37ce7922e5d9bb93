import { hasClockTime, isLow } from '../log/readings'
import { countMarks } from '../technique/equipmentStretches'
import { nightsTold } from '../told/nights'
import { bracketedLows } from '../told/stretches'
import { markedText, type ReportContext, timesKnown } from './context'
import type { Block, Paragraph } from './document'
import { highsBeyond } from '../analysis/highsBeyond'
import { belowMeters, type LowEvent, lowestEvents, lowEvents, lowsNotFollowed } from './lowEvents'
import { MOST_LOWS_LISTED } from './limits'
import { greyParagraph, paragraph, sectionHeading } from './parts'
import { lowsOfTwoPeriods } from './twoPeriods'

/** Longer sequences leave out their middle, but no low. */
const MOST_MEMBERS = 4

/** The lows, before any other figure. */
export function lowsFirst(context: ReportContext): readonly Block[] {
  const { analysis, figures, unit } = context
  const { lows } = figures
  const events = lowEvents(analysis, figures)
  const shown = lowestEvents(analysis, events)
  const marks = countMarks(
    lows.each.map(({ index }) => index),
    analysis,
  )
  const headline = context.words.lows.lowsHeadline(
    {
      below70: lows.readingsBelow70,
      below54: lows.readingsBelow54,
      days: lows.daysWithLows,
      ...marks,
    },
    unit,
  )
  const ofTwo = lowsOfTwoPeriods(context.words, analysis, context.years)
  const remarks = [
    context.words.stretches.bracketedLowsSentence(marks.bracketed, bracketedLows(analysis, figures)),
    shown.length < events.length
      ? context.words.lows.furtherLowsSentence(
          shown.length,
          Math.min(events.length, MOST_LOWS_LISTED),
          events.length,
        )
      : null,
    context.words.lows.nightsSentence(timesKnown(context) ? nightsTold(lows) : null),
    context.words.lows.notFollowedSentence(lowsNotFollowed(analysis, figures), lows.readingsBelow70),
    context.words.lows.belowMetersSentence(belowMeters(analysis, figures), unit),
    context.words.lows.nearLowsSentence(lows.nearLows, lows.readingsBelow70, unit),
    context.words.lows.notCountedSentence(lows.notCounted),
  ]
  return [
    ...sectionHeading(context.words.pages.TITLES.lowsFirst, context.width),
    paragraph(headline),
    ...(ofTwo === null ? [] : [paragraph(ofTwo, { bold: true })]),
    ...inTwoColumns(shown.map((event) => lowItem(context, event))),
    paragraph(remarks.filter((remark) => remark !== null).join(' ')),
    ...highsOf(context),
    greyParagraph(context.words.lows.PEN_LINE, { margin: [0, 2, 0, 0] }),
  ]
}

/** The readings above the meter's range, the latest one by one; nothing where there are none. */
function highsOf(context: ReportContext): readonly Block[] {
  const { analysis, figures } = context
  const { readings } = analysis
  const highs = highsBeyond(analysis, figures)
  if (highs === null) return []
  const moment = (index: number) => context.words.dates.readingMoment(readings, index, context.years)
  const headline = context.words.highs.highsHeadline(
    highs.n,
    highs.days,
    moment(highs.latest[highs.latest.length - 1]),
  )
  const more = context.words.highs.latestHighsSentence(highs.latest.length, highs.n)
  if (highs.n === 1) return [paragraph(headline)]
  return [
    paragraph(headline),
    ...(more === null ? [] : [greyParagraph(more)]),
    ...inColumns(
      highs.latest.map((index) => ({
        text: [{ text: `▲ ${markedText(context, index)}`, bold: true }, `  ${moment(index)}`],
        margin: [0, 0, 0, 2] as const,
      })),
      4,
    ),
  ]
}

/** The first half at the left, in order of time from top to bottom. */
function inTwoColumns(items: readonly Paragraph[]): readonly Block[] {
  return inColumns(items, 2)
}

function inColumns(items: readonly Paragraph[], columns: number): readonly Block[] {
  if (items.length === 0) return []
  const rows = Math.ceil(items.length / columns)
  return [
    {
      columns: Array.from({ length: columns }, (_, i) => ({ stack: items.slice(i * rows, (i + 1) * rows) })),
      columnGap: 14,
    },
  ]
}

function lowItem(context: ReportContext, event: LowEvent): Paragraph {
  const { readings } = context.analysis
  const spread = event.minutes === null ? '' : ` (${context.words.dates.durationText(event.minutes)})`
  return {
    text: [
      {
        text: `${bracketBefore(context, event.members)}■ ${sequenceText(context, event.members)}`,
        bold: true,
      },
      `  ${context.words.dates.readingMoment(readings, event.members[0], context.years)}${spread}${nextText(context, event)}`,
    ],
    margin: [0, 0, 0, 2],
  }
}

function nextText(context: ReportContext, event: LowEvent): string {
  const { readings } = context.analysis
  const { lowest, next } = event
  const told = !hasClockTime(readings, lowest)
    ? 'no-times'
    : next === null
      ? 'log-ends'
      : {
          value: context.words.numbers.readingText(readings, next.index, context.unit),
          minutes: next.minutes,
        }
  return `; ${context.words.lows.afterLowText(null, told)}`
}

/** '[ ' where one of the readings lies in a stretch that is told once, else ''. */
export function bracketBefore(
  { analysis: { bracketed }, words }: ReportContext,
  members: readonly number[],
): string {
  return members.some((index) => bracketed.has(index)) ? `${words.stretches.BRACKET}\u00A0` : ''
}

/** '52 → 90', with '?' at doubtful members. */
export function sequenceText(context: ReportContext, members: readonly number[]): string {
  return sequenceOf(context, members)
    .map((index) => (index === null ? '…' : markedText(context, index)))
    .join(' → ')
}

/** The members of a set that are shown, null for what is left out between them. */
export function sequenceOf(
  { analysis: { readings } }: ReportContext,
  members: readonly number[],
): readonly (number | null)[] {
  if (members.length <= MOST_MEMBERS) return members
  const isShown = (i: number) => i === 0 || i === members.length - 1 || isLow(readings, members[i])
  return members
    .map((index, i) => (isShown(i) ? index : null))
    .filter((index, i, all) => index !== null || all[i - 1] !== null)
}
