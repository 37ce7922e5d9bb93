import { FEWEST_BLOCK_DAYS, FEWEST_BLOCK_READINGS, FEWEST_READINGS } from '../statistics/heldBack'
import { blocksTable } from '../shown/blocksTable'
import type { ReportContext } from './context'
import type { Block } from './document'
import { keptTogether } from './height'
import { greyParagraph, heading, table, TYPE } from './parts'

const SMALL = { fontSize: TYPE.small + 0.4 }

/** The day in blocks of three hours: how many readings, their middle and their spread. Nothing where the log gives no times. */
export function dayInNumbers(context: ReportContext): readonly Block[] {
  if (!context.timesKnown) return []
  const { analysis, figures, unit, words } = context
  const { titles, rows } = blocksTable(words, analysis, figures)
  const right = { width: '*', align: 'right' } as const
  const blocks = [
    heading(words.day.blocksTitle(unit)),
    table(
      titles.map((title, i) => (i === 0 ? { title, width: 50 } : { title, ...right })),
      rows,
      { ...SMALL, layout: 'closeColumns' },
    ),
    greyParagraph(words.day.blocksNote(FEWEST_BLOCK_READINGS, FEWEST_BLOCK_DAYS, FEWEST_READINGS), {
      fontSize: TYPE.small,
    }),
  ]
  return keptTogether(blocks, context.width)
}
