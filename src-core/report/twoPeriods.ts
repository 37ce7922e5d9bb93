import { PRINT_PALETTE } from '../charts/palette'
import { dayShapes, twoPeriodsPicture } from '../charts/twoPeriodsPicture'
import { comparedPeriods } from '../shown/comparedPeriods'
import { TOLD_LIMITS } from '../told/limits'
import type { ReportContext } from './context'
import type { Block } from './document'
import { keptTogether } from './height'
import { greyParagraph, heading, heads, paragraph, picture, right, table, TYPE } from './parts'
import { SECTION } from './sections'

const SMALL = { fontSize: TYPE.small + 0.4 }
const PICTURE_HEIGHT = 215

/** Two periods side by side, earlier and later; nothing where one period was asked for. */
export function twoPeriods(context: ReportContext): readonly Block[] {
  const { analysis, words } = context
  const compared = comparedPeriods(words, analysis)
  if (compared === null) return []
  const { lows, introduction, cautions, measures, measuresNote, blocks } = compared
  const shapes = dayShapes(words, analysis)
  const size = { width: context.width, height: PICTURE_HEIGHT, palette: PRINT_PALETTE }
  const drawn = shapes && picture(twoPeriodsPicture(words, analysis, shapes, size))
  return [
    heading(words.comparison.TWO_PERIODS_TITLE, SECTION.compared),
    paragraph(lows, { bold: true }),
    paragraph(introduction),
    ...cautions.map((sentence) => paragraph(sentence, { bold: true })),
    table(heads(measures.titles, [128, right(104), right(104), '*']), measures.rows, SMALL),
    greyParagraph(measuresNote, { fontSize: TYPE.small }),
    ...(drawn === null ? [] : [{ ...drawn, margin: [0, 8, 0, 0] as const }]),
    ...(blocks === null
      ? []
      : keptTogether(
          [
            heading(words.comparison.blockChangesTitle(context.unit)),
            table(heads(blocks.titles, [50, right(104), right(104), right(60), '*']), blocks.rows, SMALL),
            greyParagraph(words.comparison.blockChangesNote(TOLD_LIMITS), { fontSize: TYPE.small }),
          ],
          context.width,
        )),
  ]
}
