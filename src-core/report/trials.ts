import { isLow } from '../log/readings'
import type { Trial } from '../technique/technique'
import { pooledConditions } from '../technique/trials'
import { capitalised } from '../wording/phrases'
import { markedText, type ReportContext } from './context'
import type { Block } from './document'
import { keptTogether } from './height'
import { greyParagraph, heading, paragraph, table } from './parts'
import { oneLine } from './printable'
import { SECTION } from './sections'

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
      [
        heading(context.words.pages.TITLES.trials, SECTION.trials),
        greyParagraph(context.words.trials.TRIALS_MEANING),
        ...first,
      ],
      context.width,
    ),
    ...others.flatMap((blocks) => keptTogether(blocks, context.width)),
    ...(pooled.length === 0
      ? []
      : keptTogether(
          [
            paragraph(context.words.trials.POOLED_TITLE, { bold: true, margin: [0, 4, 0, 2] }),
            ...pooled.map((condition) =>
              paragraph(capitalised(context.words.trials.pooledSentence(condition))),
            ),
          ],
          context.width,
        )),
    paragraph(`${context.words.trials.scatterSentence(ownScatter)} ${context.words.trials.FAIR_TRIAL}`),
  ]
}

function oneTrial(
  context: ReportContext,
  { baseline, baselineMgDl, closingMgDl, steps }: Trial,
): readonly Block[] {
  const { readings } = context.analysis
  const { unit, years } = context
  const columns = context.words.pages.COLUMNS.trials
  const value = context.words.numbers.glucoseText(baselineMgDl, unit)
  const closing = closingMgDl === null ? null : context.words.numbers.glucoseText(closingMgDl, unit)
  return [
    paragraph(
      `${context.words.dates.readingMoment(readings, baseline[0], years)}. ${context.words.trials.baselineSentence(value, unit, baseline.length, closing)}`,
      { bold: true, margin: [0, 4, 0, 2] },
    ),
    table(
      [
        { title: columns[0], width: '*' },
        { title: columns[1], width: 46, align: 'right' },
        { title: columns[2], width: 50, align: 'right' },
        { title: columns[3], width: 70, align: 'right' },
        { title: columns[4], width: 176 },
      ],
      steps.map((step) => [
        oneLine(step.label, LABEL_LENGTH),
        step.indexes
          .map((index) => `${isLow(readings, index) ? '■ ' : ''}${markedText(context, index)}`)
          .join(', '),
        context.words.trials.stepDifferenceText(step),
        step.withinTolerance ? 'yes' : 'no',
        step.changed
          ? context.words.trials.verdictText(step, step.indexes.length)
          : context.words.trials.unchangedText(step),
      ]),
    ),
  ]
}

const LABEL_LENGTH = 80
