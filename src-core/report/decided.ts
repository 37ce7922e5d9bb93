import { isLow } from '../log/readings'
import { isInPeriod, type ReportContext } from './context'
import type { Block } from './document'
import { keptTogether } from './height'
import { greyParagraph, heading, heads, paragraph, table } from './parts'
import { oneLine } from './printable'

const REASON_LENGTH = 200

/** What the person decided of readings, shown as theirs; nothing where nothing was decided. */
export function decidedReadings(context: ReportContext): readonly Block[] {
  const { words } = context
  const { readings, technique, decisionsGone } = context.analysis
  const decided = technique.decided.filter(({ index }) => isInPeriod(context, index))
  if (decided.length === 0 && decisionsGone.length === 0) return []
  const rows = decided.map(({ index, choice, flagged, ...why }) => [
    words.dates.readingMoment(readings, index, context.years),
    `${isLow(readings, index) ? '■ ' : ''}${words.numbers.readingText(readings, index, context.unit)}${words.typed.typedMark(readings, index)}`,
    words.decided.CHOICE_TEXT[choice](isLow(readings, index)),
    words.decided.ownMark(flagged),
    oneLine(words.decided.whyDecided(why), REASON_LENGTH),
  ])
  const gone =
    decisionsGone.length === 0 ? [] : [paragraph(words.decided.decisionsGoneText(decisionsGone.length))]
  const blocks = [
    heading(words.decided.DECIDED_TITLE),
    greyParagraph(words.decided.DECIDED_INTRODUCTION),
    ...(rows.length === 0 ? [] : [table(heads(words.pages.COLUMNS.decided, [110, 50, 120, 80, '*']), rows)]),
    ...gone,
  ]
  return keptTogether(blocks, context.width)
}
