import type { Analysis, PeriodFigures } from '../analysis/analysis'
import { periodReadings } from '../analysis/periodReadings'
import type { BlockFigures } from '../day/timeOfDay'
import { hasClockTime, isLow } from '../log/readings'
import { blockMeasure, type MeasureKey, namingOf, shareCount } from '../told/measures'
import type { Words } from '../wording/words'
import type { PlainTable } from './plainTable'

const SHOWN: readonly MeasureKey[] = [
  'medianMgDl',
  'middleHalfMgDl',
  'meanMgDl',
  'sdMgDl',
  'readingsBelow70',
  'percentAbove180',
]

/** The day in blocks of three hours as titles and rows. */
export function blocksTable(words: Words, analysis: Analysis, figures: PeriodFigures): PlainTable {
  const { unit } = analysis.settings
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
      ...rowWithoutTime(words, analysis, figures),
    ],
  }
}

/** What stands in no block, so that the lows add up; nothing where every reading has a time of day. */
function rowWithoutTime(words: Words, analysis: Analysis, figures: PeriodFigures): PlainTable['rows'] {
  const { readings } = analysis
  const untimed = periodReadings(analysis, figures).filter((index) => !hasClockTime(readings, index))
  if (untimed.length === 0) return []
  const lows = untimed.filter((index) => isLow(readings, index)).length
  const none = Array<string>(4).fill(words.numbers.NO_NUMBER)
  return [[words.day.WITHOUT_A_TIME, String(untimed.length), ...none, String(lows), words.numbers.NO_NUMBER]]
}
