import { isLow } from '../log/readings'
import { markedText } from '../shown/markedText'
import type { Trial } from '../technique/technique'
import { isVisible, pooledConditions } from '../technique/trials'
import { capitalised } from '../wording/phrases'
import type { ReportContext } from './context'
import type { Block } from './document'
import { keptTogether } from './height'
import { greyParagraph, heading, heads, paragraph, right, table } from './parts'
import { oneLine } from './printable'
import { SECTION } from './sections'

/** Of more, the latest. */
const MOST_TRIALS = 10

/** Each technique trial with its steps beside the baseline, or nothing where there is none. */
export function techniqueTrials(context: ReportContext): readonly Block[] {
  const { words } = context
  const { trials, ownScatter } = context.analysis.technique
  if (trials.length === 0) return []
  const pooled = pooledConditions(trials, ownScatter)
  const [first, ...others] = trials.slice(-MOST_TRIALS).map((trial) => oneTrial(context, trial))
  return [
    ...keptTogether(
      [
        heading(words.pages.TITLES.trials, SECTION.trials),
        greyParagraph(words.trials.TRIALS_MEANING),
        ...first,
      ],
      context.width,
    ),
    ...others.flatMap((blocks) => keptTogether(blocks, context.width)),
    ...(pooled.length === 0
      ? []
      : keptTogether(
          [
            paragraph(words.trials.POOLED_TITLE, { bold: true, margin: [0, 4, 0, 2] }),
            ...pooled.map((condition) => paragraph(capitalised(words.trials.pooledSentence(condition)))),
          ],
          context.width,
        )),
    paragraph(`${words.trials.scatterSentence(ownScatter)} ${words.trials.FAIR_TRIAL}`),
  ]
}

function oneTrial(
  context: ReportContext,
  { baseline, baselineMgDl, closingMgDl, steps }: Trial,
): readonly Block[] {
  const { analysis, unit, years, words } = context
  const { readings } = analysis
  const columns = words.pages.COLUMNS.trials
  const value = words.numbers.glucoseText(baselineMgDl, unit)
  const closing = closingMgDl === null ? null : words.numbers.glucoseText(closingMgDl, unit)
  return [
    paragraph(
      `${words.dates.readingMoment(readings, baseline[0], years)}. ${words.trials.baselineSentence(value, unit, baseline.length, closing)}`,
      { bold: true, margin: [0, 4, 0, 2] },
    ),
    table(
      heads(columns, ['*', right(46), right(50), right(70), 176]),
      steps.map((step) => [
        oneLine(step.label, LABEL_LENGTH),
        step.indexes
          .map((index) => `${isLow(readings, index) ? '■ ' : ''}${markedText(words, analysis, index)}`)
          .join(', '),
        words.meters.signedPercent(step.differencePercent),
        step.withinTolerance ? 'yes' : 'no',
        step.changed
          ? words.trials.verdictText(step, step.indexes.length)
          : words.trials.unchangedText(isVisible(step), step.smallestVisiblePercent),
      ]),
    ),
  ]
}

const LABEL_LENGTH = 80
