import { isLow } from '../log/readings'
import type { Trial } from '../technique/technique'
import { pooledConditions } from '../technique/trials'
import { readingMoment } from '../wording/dates'
import { glucoseText } from '../wording/numbers'
import { capitalised } from '../wording/phrases'
import {
  baselineSentence,
  FAIR_TRIAL,
  POOLED_TITLE,
  pooledSentence,
  scatterSentence,
  stepDifferenceText,
  TRIALS_MEANING,
  unchangedText,
  verdictText,
} from '../wording/trials'
import { markedText, type ReportContext } from './context'
import type { Block } from './document'
import { keptTogether } from './height'
import { greyParagraph, heading, paragraph, table } from './parts'
import { oneLine } from './printable'
import { SECTION, TRIALS_TITLE } from './sections'

/** Of more, the latest. */
const MOST_TRIALS = 10

/** Each technique trial with its steps beside the baseline, or nothing where there is none. */
export function techniqueTrials(context: ReportContext): readonly Block[] {
  const { trials, ownScatter } = context.analysis.technique
  if (trials.length === 0) return []
  const pooled = pooledConditions(trials, ownScatter)
  const [first, ...others] = trials.slice(-MOST_TRIALS).map((trial) => oneTrial(context, trial))
  return [
    ...keptTogether(
      [heading(TRIALS_TITLE, SECTION.trials), greyParagraph(TRIALS_MEANING), ...first],
      context.width,
    ),
    ...others.flatMap((blocks) => keptTogether(blocks, context.width)),
    ...(pooled.length === 0
      ? []
      : keptTogether(
          [
            paragraph(POOLED_TITLE, { bold: true, margin: [0, 4, 0, 2] }),
            ...pooled.map((condition) => paragraph(capitalised(pooledSentence(condition)))),
          ],
          context.width,
        )),
    paragraph(`${scatterSentence(ownScatter)} ${FAIR_TRIAL}`),
  ]
}

function oneTrial(
  context: ReportContext,
  { baseline, baselineMgDl, closingMgDl, steps }: Trial,
): readonly Block[] {
  const { readings } = context.analysis
  const { unit, years } = context
  const value = glucoseText(baselineMgDl, unit)
  const closing = closingMgDl === null ? null : glucoseText(closingMgDl, unit)
  return [
    paragraph(
      `${readingMoment(readings, baseline[0], years)}. ${baselineSentence(value, unit, baseline.length, closing)}`,
      { bold: true, margin: [0, 4, 0, 2] },
    ),
    table(
      [
        { title: 'what was different, in the log’s words', width: '*' },
        { title: 'reading', width: 46, align: 'right' },
        { title: 'difference', width: 50, align: 'right' },
        { title: 'within tolerance', width: 70, align: 'right' },
        { title: 'what it shows', width: 176 },
      ],
      steps.map((step) => [
        oneLine(step.label, LABEL_LENGTH),
        step.indexes
          .map((index) => `${isLow(readings, index) ? '■ ' : ''}${markedText(context, index)}`)
          .join(', '),
        stepDifferenceText(step),
        step.withinTolerance ? 'yes' : 'no',
        step.changed ? verdictText(step, step.indexes.length) : unchangedText(step),
      ]),
    ),
  ]
}

const LABEL_LENGTH = 80
