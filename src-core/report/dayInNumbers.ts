import { HARDLY_TESTED_BELOW } from '../charts/blockMarks'
import { hasClockTime, isLow } from '../log/readings'
import { LIMITS } from '../reference/limits'
import { FEWEST_READINGS, heldBack } from '../statistics/heldBack'
import { type ReportContext, timesKnown } from './context'
import type { Block } from './document'
import { keptTogether } from './height'
import { greyParagraph, heading, table, TYPE } from './parts'

const SMALL = { fontSize: TYPE.small + 0.4 }

/** Titles and rows of a table, for paper and window. */
export interface PlainTable {
  readonly titles: readonly string[]
  readonly rows: readonly (readonly string[])[]
}

/** The day in blocks of three hours as titles and rows. */
export function blocksTable(context: ReportContext): PlainTable {
  const {
    analysis: { settings },
    figures,
    unit,
  } = context
  return {
    titles: [
      'hours',
      'readings',
      'median',
      'middle half',
      'mean',
      'SD',
      `below ${context.words.numbers.limitText(LIMITS.low, unit)}`,
      `above ${context.words.numbers.limitText(LIMITS.high, unit)}, %`,
    ],
    rows: [
      ...figures.timeOfDay.blocks.map((block) => {
        const enough = block.n >= HARDLY_TESTED_BELOW
        return [
          context.words.day.hoursText(block.fromHour, block.toHour),
          String(block.n),
          enough ? context.words.figures.medianText(block, unit) : context.words.numbers.NO_NUMBER,
          enough && block.q1 !== null
            ? context.words.figures.middleHalfText(block, unit)
            : context.words.numbers.NO_NUMBER,
          enough && heldBack('mean', block, settings) === null
            ? context.words.figures.glucoseOrNone(block.mean, unit)
            : context.words.numbers.NO_NUMBER,
          heldBack('spread', block, settings) === null
            ? context.words.figures.glucoseOrNone(block.sd, unit)
            : context.words.numbers.NO_NUMBER,
          String(Math.round(((block.percentBelow70 ?? 0) * block.n) / 100)),
          enough
            ? context.words.figures.percentOrNone(block.percentAbove180)
            : context.words.numbers.NO_NUMBER,
        ]
      }),
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

export const BLOCKS_NOTE =
  `Medians, means and shares are shown from ${HARDLY_TESTED_BELOW} readings on, the SD from ${FEWEST_READINGS}; lows are counted always. ` +
  'No mean and SD where more than one reading in ten is HI or LO.'

/** The day in blocks of three hours: how many readings, their middle and their spread. Nothing where the log gives no times. */
export function dayInNumbers(context: ReportContext): readonly Block[] {
  if (!timesKnown(context)) return []
  const { unit } = context
  const { titles, rows } = blocksTable(context)
  const right = { width: '*', align: 'right' } as const
  const blocks = [
    heading(`The day in blocks of three hours, ${unit}`),
    table(
      titles.map((title, i) => (i === 0 ? { title, width: 50 } : { title, ...right })),
      rows,
      SMALL,
    ),
    greyParagraph(BLOCKS_NOTE, { fontSize: TYPE.small }),
  ]
  return keptTogether(blocks, context.width)
}
