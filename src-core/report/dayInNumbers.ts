import type { BlockFigures } from '../day/timeOfDay'
import { hasClockTime, isLow } from '../log/readings'
import { FEWEST_BLOCK_READINGS, FEWEST_READINGS } from '../statistics/heldBack'
import { blockMeasure, type MeasureKey, namingOf, shareCount } from '../told/measures'
import { type ReportContext } from './context'
import type { Block } from './document'
import { keptTogether } from './height'
import { greyParagraph, heading, table, TYPE } from './parts'

const SMALL = { fontSize: TYPE.small + 0.4 }

/** Titles and rows of a table, for paper and window. */
export interface PlainTable {
  readonly titles: readonly string[]
  readonly rows: readonly (readonly string[])[]
}

const SHOWN: readonly MeasureKey[] = [
  'medianMgDl',
  'middleHalfMgDl',
  'meanMgDl',
  'sdMgDl',
  'readingsBelow70',
  'percentAbove180',
]

/** The day in blocks of three hours as titles and rows. */
export function blocksTable(context: ReportContext): PlainTable {
  const { analysis, figures, unit, words } = context
  const naming = namingOf(analysis.settings, figures)
  const measuresOf = (block: BlockFigures) => {
    const { count: readingsBelow70 } = shareCount('percentBelow70', block)
    return SHOWN.map((key) => blockMeasure(key, { ...block, readingsBelow70 }))
  }
  const { blocks } = figures.timeOfDay
  return {
    titles: [
      ...words.day.BLOCK_COLUMNS,
      ...measuresOf(blocks[0]).map((measure) => words.figures.columnTitle(measure, naming)),
    ],
    rows: [
      ...blocks.map((block) => [
        words.day.hoursText(block.fromHour, block.toHour),
        String(block.n),
        ...measuresOf(block).map((measure) => words.figures.valueText(measure, unit)),
      ]),
      ...rowWithoutTime(context),
    ],
  }
}

/** What stands in no block, so that the lows add up; nothing where every reading has a time of day. */
function rowWithoutTime({
  analysis: { readings },
  indexes,
  words,
}: ReportContext): readonly (readonly string[])[] {
  const untimed = indexes.filter((index) => !hasClockTime(readings, index))
  if (untimed.length === 0) return []
  const lows = untimed.filter((index) => isLow(readings, index)).length
  const none = Array<string>(4).fill(words.numbers.NO_NUMBER)
  return [[words.day.WITHOUT_A_TIME, String(untimed.length), ...none, String(lows), words.numbers.NO_NUMBER]]
}

/** The day in blocks of three hours: how many readings, their middle and their spread. Nothing where the log gives no times. */
export function dayInNumbers(context: ReportContext): readonly Block[] {
  if (!context.timesKnown) return []
  const { unit, words } = context
  const { titles, rows } = blocksTable(context)
  const right = { width: '*', align: 'right' } as const
  const blocks = [
    heading(words.day.blocksTitle(unit)),
    table(
      titles.map((title, i) => (i === 0 ? { title, width: 50 } : { title, ...right })),
      rows,
      SMALL,
    ),
    greyParagraph(words.day.blocksNote(FEWEST_BLOCK_READINGS, FEWEST_READINGS), {
      fontSize: TYPE.small,
    }),
  ]
  return keptTogether(blocks, context.width)
}
