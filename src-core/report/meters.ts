import { FLAG, hasFlag } from '../log/readings'
import { FEWEST_PAIRS } from '../technique/meterPairs'
import type { ReportContext } from './context'
import type { Block } from './document'
import { keptTogether } from './height'
import { greyParagraph, heading, paragraph, table } from './parts'

/** Two meters each that have pairs; of more, those with most. */
const MOST_LISTED = 12

/** Clocks that seem to differ: a question, no correction. */
function clocksOf({ analysis, meterNames, words }: ReportContext): readonly Block[] {
  return analysis.technique.clockOffsets.map((offset) =>
    paragraph(words.meters.clockOffsetSentence(meterNames[offset.first], meterNames[offset.second], offset)),
  )
}

/** The meters against each other, or nothing where no two of them were used within minutes. */
export function metersAgainstEachOther(context: ReportContext): readonly Block[] {
  const { readings, technique } = context.analysis
  const { meterPairs } = technique
  const clocks = clocksOf(context)
  if (meterPairs.length === 0 && clocks.length > 0) {
    return keptTogether([heading(context.words.pages.TITLES.meters), ...clocks], context.width)
  }
  if (meterPairs.length === 0) return []
  const listed = [...meterPairs].sort((a, b) => b.pairs.length - a.pairs.length).slice(0, MOST_LISTED)
  const name = (meter: number) => context.meterNames[meter]
  const columns = context.words.pages.COLUMNS.meters
  const sentences = listed.map(({ first, second, meanDifferencePercent, meanCi95Percent, pairs, line }) => {
    const withTrialSteps = pairs.filter((pair) =>
      pair.some((index) => hasFlag(readings, index, FLAG.changedConditions)),
    ).length
    if (pairs.length < FEWEST_PAIRS) {
      const shown = pairs.map(
        ([a, b]) =>
          `${context.words.numbers.readingText(readings, a, context.unit)} and ${context.words.numbers.readingText(readings, b, context.unit)}`,
      )
      return context.words.meters.fewPairsSentence(name(first), name(second), shown)
    }
    const words = context.words.meters.differenceBetweenMetersSentence(
      name(first),
      name(second),
      meanDifferencePercent,
      {
        n: pairs.length,
        withTrialSteps,
        ci95Percent: meanCi95Percent,
      },
    )
    return line === null
      ? words
      : `${words} ${context.words.meters.lineSentence(name(first), name(second), line, context.unit)}`
  })
  return keptTogether(
    [
      heading(context.words.pages.TITLES.meters),
      greyParagraph(context.words.meters.NO_REFERENCE),
      table(
        [
          { title: columns[0], width: '*' },
          { title: columns[1], width: 50, align: 'right' },
          { title: columns[2], width: 90, align: 'right' },
          { title: columns[3], width: 110, align: 'right' },
          { title: columns[4], width: 110, align: 'right' },
        ],
        listed.map((pair) => [
          `${name(pair.first)}, ${name(pair.second)}`,
          String(pair.pairs.length),
          pair.nextPairPercent === null
            ? context.words.numbers.NO_NUMBER
            : context.words.meters.signedPercent(pair.meanDifferencePercent),
          context.words.meters.limitsText(pair.nextPairPercent),
          pair.nextPairPercent === null
            ? context.words.numbers.NO_NUMBER
            : context.words.meters.within15Text(pair.within15),
        ]),
      ),
      ...sentences.map((sentence) => paragraph(sentence)),
      ...clocks,
    ],
    context.width,
  )
}
