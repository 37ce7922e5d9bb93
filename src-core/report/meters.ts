import { clocksTold, meterPairsTold } from '../told/meters'
import type { ReportContext } from './context'
import type { Block } from './document'
import { keptTogether } from './height'
import { greyParagraph, heading, heads, paragraph, right, table, TYPE } from './parts'

/** Clocks that seem to differ: a question, no correction. */
function clocksOf({ analysis, meterNames, words }: ReportContext): readonly Block[] {
  return clocksTold(analysis).map((clocks) => paragraph(words.meters.clockOffsetSentence(clocks, meterNames)))
}

/** The meters against each other, or nothing where no two of them were used within minutes. */
export function metersAgainstEachOther(context: ReportContext): readonly Block[] {
  const { words, unit, meterNames } = context
  const meterPairs = meterPairsTold(context.analysis)
  const clocks = clocksOf(context)
  const title = heading(words.pages.TITLES.meters)
  if (meterPairs.length === 0)
    return clocks.length === 0 ? [] : keptTogether([title, ...clocks], context.width)
  return keptTogether(
    [
      title,
      greyParagraph(words.meters.NO_REFERENCE, { fontSize: TYPE.small }),
      table(
        heads(words.pages.COLUMNS.meters, ['*', right(50), right(90), right(110), right(110)]),
        meterPairs.map((pair) => [
          `${meterNames[pair.first]}, ${meterNames[pair.second]}`,
          String(pair.pairs.length),
          ...(pair.nextPairPercent === null
            ? Array<string>(3).fill(words.numbers.NO_NUMBER)
            : [
                words.meters.signedPercent(pair.meanDifferencePercent),
                words.meters.limitsText(pair.nextPairPercent),
                words.meters.within15Text(pair.within15),
              ]),
        ]),
      ),
      ...meterPairs.map((pair) =>
        paragraph(words.meters.pairSentence(pair, meterNames, context.analysis.readings, unit)),
      ),
      ...clocks,
    ],
    context.width,
  )
}
