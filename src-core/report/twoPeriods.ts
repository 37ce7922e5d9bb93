import { PRINT_PALETTE } from '../charts/palette'
import { dayShapes, twoPeriodsPicture } from '../charts/twoPeriodsPicture'
import { comparedPeriods } from '../shown/comparedPeriods'
import { TOLD_LIMITS } from '../told/limits'
import { PAPERS } from '../reference/paper'
import { PAGE_MARGINS, type ReportContext } from './context'
import type { Block } from './document'
import { heightOf, keptTogether } from './height'
import { greyParagraph, heading, heads, paragraph, picture, right, table, TYPE } from './parts'
import { SECTION } from './sections'

const SMALL = { fontSize: TYPE.small + 0.4 }
/** The picture takes what the rest leaves of the page, points. */
const PICTURE_HEIGHT = { least: 110, most: 215 } as const
const PICTURE_MARGIN = [0, 8, 0, 0] as const
/** Kept free at the foot: line breaks are estimated, points. */
const SPARE = 14

/** Two periods side by side, earlier and later; nothing where one period was asked for. */
export function twoPeriods(context: ReportContext): readonly Block[] {
  const { analysis, words } = context
  const compared = comparedPeriods(words, analysis)
  if (compared === null) return []
  const { lows, introduction, cautions, clear, measures, measuresNote, blocks } = compared
  const shapes = dayShapes(words, analysis)
  const above = [
    heading(words.comparison.TWO_PERIODS_TITLE, SECTION.compared),
    paragraph(lows, { bold: true }),
    ...cautions.map((sentence) => paragraph(sentence, { bold: true })),
    paragraph(clear, { bold: true }),
    paragraph(introduction),
    table(heads(measures.titles, [128, right(104), right(104), '*']), measures.rows, SMALL),
    greyParagraph(measuresNote, { fontSize: TYPE.small }),
  ]
  const below =
    blocks === null
      ? []
      : keptTogether(
          [
            heading(words.comparison.blockChangesTitle(context.unit)),
            table(heads(blocks.titles, [50, right(104), right(104), right(60), '*']), blocks.rows, SMALL),
            greyParagraph(words.comparison.blockChangesNote(TOLD_LIMITS), { fontSize: TYPE.small }),
          ],
          context.width,
        )
  const page = PAPERS[context.options.paper].height - PAGE_MARGINS[1] - PAGE_MARGINS[3]
  const left = page - heightOf([...above, ...below], context.width) - PICTURE_MARGIN[1] - SPARE
  const height = Math.min(Math.max(left, PICTURE_HEIGHT.least), PICTURE_HEIGHT.most)
  const size = { width: context.width, height, palette: PRINT_PALETTE }
  const drawn = shapes && picture(twoPeriodsPicture(words, analysis, shapes, size))
  return [...above, ...(drawn === null ? [] : [{ ...drawn, margin: PICTURE_MARGIN }]), ...below]
}
