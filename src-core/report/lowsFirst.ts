import { markedText } from '../shown/markedText'
import type { ReportContext } from './context'
import type { Block, Paragraph } from './document'
import { highsBeyond } from '../analysis/highsBeyond'
import { greyParagraph, paragraph } from './parts'

/** The readings above the meter's range, the latest one by one; nothing where there are none. */
export function highsBehind(context: ReportContext): readonly Block[] {
  const { analysis, figures, words } = context
  const { readings } = analysis
  const highs = highsBeyond(analysis, figures)
  if (highs === null) return []
  const moment = (index: number) => words.dates.readingMoment(readings, index, context.years)
  const headline = words.highs.highsHeadline(highs, moment(highs.latest[highs.latest.length - 1]))
  const more = words.highs.latestHighsSentence(highs.latest.length, highs.n)
  if (highs.n === 1) return [paragraph(headline)]
  return [
    paragraph(headline),
    ...(more === null ? [] : [greyParagraph(more)]),
    ...inColumns(
      highs.latest.map((index) => ({
        text: [{ text: `▲ ${markedText(words, analysis, index)}`, bold: true }, `  ${moment(index)}`],
        margin: [0, 0, 0, 2] as const,
      })),
      4,
    ),
  ]
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

/** '[ ' where one of the readings lies in a stretch that is told once, else ''. */
export function bracketBefore(
  { analysis: { bracketed }, words }: ReportContext,
  members: readonly number[],
): string {
  return members.some((index) => bracketed.has(index)) ? `${words.stretches.BRACKET}\u00A0` : ''
}
