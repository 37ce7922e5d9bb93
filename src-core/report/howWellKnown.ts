import { FEWEST_DAYS } from '../statistics/errorByDays'
import { type MeasureKey, namingOf, periodMeasure } from '../told/measures'
import { capitalised } from '../wording/phrases'
import type { ReportContext } from './context'
import type { Block } from './document'
import { keptTogether } from './height'
import { greyParagraph, heading, paragraph, table, TYPE } from './parts'

const SMALL = { fontSize: TYPE.small + 0.4 }

const SHOWN: readonly MeasureKey[] = [
  'meanMgDl',
  'balancedMeanMgDl',
  'sdMgDl',
  'cvPercent',
  'percentBelow54',
  'percentBelow70',
  'percentInTarget',
  'percentAbove180',
  'percentAbove250',
]

/** The 95 % limits of the figures as logged; behind, where nobody takes them for the spread of the readings. */
export function howWellKnown({ analysis, figures, unit, width, words }: ReportContext): readonly Block[] {
  const title = heading(words.figures.HOW_WELL_KNOWN_TITLE)
  if (figures.intervals.asLogged.ci95 === null) {
    const why = `${capitalised(words.figures.tooFewDaysText(FEWEST_DAYS))}.`
    return keptTogether([title, paragraph(why, SMALL)], width)
  }
  const [figure, value, knownTo] = words.figures.HOW_WELL_KNOWN_COLUMNS
  const naming = namingOf(analysis.settings, figures)
  const blocks = [
    title,
    table(
      [
        { title: figure, width: 195 },
        { title: value, width: 60, align: 'right' },
        { title: knownTo, width: 90, align: 'right' },
      ],
      SHOWN.map((key) => periodMeasure(key, figures))
        .filter(({ heldBack }) => heldBack === null)
        .map((measure) => [
          words.figures.withUnit(
            words.figures.measureLabel(measure.key, naming),
            words.figures.unitText(measure, unit),
          ),
          words.figures.valueText(measure, unit),
          words.figures.limitsOfText(measure, unit),
        ]),
      SMALL,
    ),
    greyParagraph(words.figures.HOW_WELL_KNOWN_NOTE, { fontSize: TYPE.small }),
    greyParagraph(words.lows.lowsBehindShareSentence(figures), { fontSize: TYPE.small }),
  ]
  return keptTogether(blocks, width)
}
