import { isLow } from '../log/readings'
import { readingMoment } from '../wording/dates'
import {
  CHOICE_TEXT,
  DECIDED_INTRODUCTION,
  DECIDED_TITLE,
  decisionsGoneText,
  whyDecided,
} from '../wording/decided'
import { readingText } from '../wording/numbers'
import { typedMark } from '../wording/typed'
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
    readingMoment(readings, index, context.years),
    `${isLow(readings, index) ? '■ ' : ''}${readingText(readings, index, context.unit)}${typedMark(readings, index)}`,
    CHOICE_TEXT[choice](isLow(readings, index)),
    flagged ? 'doubtful' : 'not doubtful',
    oneLine(whyDecided(why), REASON_LENGTH),
  ])
  const gone = decisionsGone.length === 0 ? [] : [paragraph(decisionsGoneText(decisionsGone.length))]
  const blocks = [
    heading(DECIDED_TITLE),
    greyParagraph(DECIDED_INTRODUCTION),
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
