import { isLow } from '../log/readings'
import { isInPeriod, type ReportContext } from './context'
import type { Block } from './document'
import { keptTogether } from './height'
import { greyParagraph, heading, paragraph, table } from './parts'
import { oneLine } from './printable'

const REASON_LENGTH = 200

/** What the person decided of readings, shown as theirs; nothing where nothing was decided. */
export function decidedReadings(context: ReportContext): readonly Block[] {
  const { readings, technique, decisionsGone } = context.analysis
  const decided = technique.decided.filter(({ index }) => isInPeriod(context, index))
  if (decided.length === 0 && decisionsGone.length === 0) return []
  const rows = decided.map(({ index, choice, flagged, ...why }) => [
    context.words.dates.readingMoment(readings, index, context.years),
    `${isLow(readings, index) ? '■ ' : ''}${context.words.numbers.readingText(readings, index, context.unit)}${context.words.typed.typedMark(readings, index)}`,
    context.words.decided.CHOICE_TEXT[choice](isLow(readings, index)),
    flagged ? 'doubtful' : 'not doubtful',
    oneLine(context.words.decided.whyDecided(why), REASON_LENGTH),
  ])
  const gone =
    decisionsGone.length === 0
      ? []
      : [paragraph(context.words.decided.decisionsGoneText(decisionsGone.length))]
  const blocks = [
    heading(context.words.decided.DECIDED_TITLE),
    greyParagraph(context.words.decided.DECIDED_INTRODUCTION),
    ...(rows.length === 0
      ? []
      : [
          table(
            [
              { title: 'when', width: 110 },
              { title: 'reading', width: 50 },
              { title: 'decided', width: 120 },
              { title: 'the program’s own mark', width: 80 },
              { title: 'why', width: '*' },
            ],
            rows,
          ),
        ]),
    ...gone,
  ]
  return keptTogether(blocks, context.width)
}
