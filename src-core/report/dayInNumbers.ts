import { HARDLY_TESTED_BELOW } from '../charts/blockMarks'
import { LIMITS } from '../reference/limits'
import { hoursText } from '../wording/day'
import { FEWEST_READINGS, glucoseOrNone, percentOrNone } from '../wording/figures'
import { limitText, NO_NUMBER, rangeText } from '../wording/numbers'
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
export function blocksTable({ figures, unit }: ReportContext): PlainTable {
  return {
    titles: [
      'hours',
      'readings',
      'median',
      'middle half',
      'mean',
      'SD',
      `below ${limitText(LIMITS.low, unit)}`,
      `above ${limitText(LIMITS.high, unit)}, %`,
    ],
    rows: figures.timeOfDay.blocks.map((block) => {
      const enough = block.n >= HARDLY_TESTED_BELOW
      return [
        hoursText(block.fromHour, block.toHour),
        String(block.n),
        enough ? glucoseOrNone(block.median, unit) : NO_NUMBER,
        enough && block.q1 !== null
          ? rangeText(glucoseOrNone(block.q1, unit), glucoseOrNone(block.q3, unit))
          : NO_NUMBER,
        enough ? glucoseOrNone(block.mean, unit) : NO_NUMBER,
        block.n >= FEWEST_READINGS ? glucoseOrNone(block.sd, unit) : NO_NUMBER,
        String(Math.round(((block.percentBelow70 ?? 0) * block.n) / 100)),
        enough ? percentOrNone(block.percentAbove180) : NO_NUMBER,
      ]
    }),
  }
}

export const BLOCKS_NOTE =
  `Medians, means and shares are shown from ${HARDLY_TESTED_BELOW} readings on, the SD from ${FEWEST_READINGS}; lows are counted always. ` +
  'Readings without a time of day are in no block.'

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
