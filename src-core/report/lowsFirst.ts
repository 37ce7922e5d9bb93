import { type LowEvent, sequenceOf } from '../told/lowEvents'
import { lowsTold } from '../told/lows'
import { markedText, type ReportContext } from './context'
import type { Block, Paragraph } from './document'
import { highsBeyond } from '../analysis/highsBeyond'
import { greyParagraph, paragraph, sectionHeading } from './parts'
import { lowsOfTwoPeriods } from './twoPeriods'

/** The lows, before any other figure. */
export function lowsFirst(context: ReportContext): readonly Block[] {
  const { analysis, figures, unit, words } = context
  const { counted, lowest, remarks } = lowsTold(analysis, figures)
  const ofTwo = lowsOfTwoPeriods(words, analysis, context.years)
  return [
    ...sectionHeading(words.pages.TITLES.lowsFirst, context.width),
    paragraph(words.lows.lowsHeadline(counted, unit)),
    ...(ofTwo === null ? [] : [paragraph(ofTwo, { bold: true })]),
    ...inTwoColumns(lowest.map((event) => lowItem(context, event))),
    paragraph(remarks.map((remark) => words.lows.lowRemarkSentence(remark, unit)).join(' ')),
    ...highsOf(context),
    greyParagraph(words.lows.PEN_LINE, { margin: [0, 2, 0, 0] }),
  ]
}

/** The readings above the meter's range, the latest one by one; nothing where there are none. */
function highsOf(context: ReportContext): readonly Block[] {
  const { analysis, figures, words } = context
  const { readings } = analysis
  const highs = highsBeyond(analysis, figures)
  if (highs === null) return []
  const moment = (index: number) => words.dates.readingMoment(readings, index, context.years)
  const headline = words.highs.highsHeadline(
    highs.n,
    highs.days,
    moment(highs.latest[highs.latest.length - 1]),
  )
  const more = words.highs.latestHighsSentence(highs.latest.length, highs.n)
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
  const { dates, lows } = context.words
  const spread = event.minutes === null ? '' : ` (${dates.durationText(event.minutes)})`
  const after = lows.afterLowText({ ...event, minutes: null }, readings, context.unit)
  return {
    text: [
      {
        text: `${bracketBefore(context, event.members)}■ ${sequenceText(context, event.members)}`,
        bold: true,
      },
      `  ${dates.readingMoment(readings, event.members[0], context.years)}${spread}; ${after}`,
    ],
    margin: [0, 0, 0, 2],
  }
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
  return sequenceOf(context.analysis.readings, members)
    .map((index) => (index === null ? '…' : markedText(context, index)))
    .join(' → ')
}
