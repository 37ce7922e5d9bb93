import type { Analysis, PeriodFigures } from '../analysis/analysis'
import { periodsInOrder } from '../analysis/inOrderOfTime'
import { PRINT_PALETTE } from '../charts/palette'
import { type Shape, twoPeriodsPicture } from '../charts/twoPeriodsPicture'
import { BLOCK_HOURS } from '../reference/dayParts'
import { TOLD_LIMITS } from '../told/limits'
import { namingOf } from '../told/measures'
import { type ChangeTold, type TwoPeriodsTold, twoPeriodsTold } from '../told/twoPeriods'
import type { ReportContext } from './context'
import type { PlainTable } from './dayInNumbers'
import type { Block } from './document'
import { keptTogether } from './height'
import { greyParagraph, heading, paragraph, picture, table, TYPE } from './parts'
import { SECTION } from './sections'
import type { Years } from '../told/years'
import type { Words } from '../wording/words'

const SMALL = { fontSize: TYPE.small + 0.4 }
const PICTURE_HEIGHT = 215

/** Two periods side by side, for paper and window: words, cautions, tables, and the shapes of their days. */
export interface ComparedPeriods {
  /** How the lows changed, before anything else. */
  readonly lows: string
  readonly introduction: string
  readonly cautions: readonly string[]
  readonly measures: PlainTable
  readonly measuresNote: string
  readonly blocks: PlainTable | null
  /** Null where no reading has a time of day. */
  readonly shapes: readonly [Shape, Shape] | null
}

/** The earlier period and the later; null where one period was asked for. */
export function comparedPeriods(context: ReportContext): ComparedPeriods | null {
  const told = twoPeriodsTold(context.analysis)
  if (told === null) return null
  const { words, unit, years } = context
  const { earlier, later, cautions, blocks, sameTimesFrom } = told
  const extent = (period: PeriodFigures) => ({ ...period, n: period.asLogged.n })
  const names = [earlier, later].map((period) => words.comparison.periodName(period, years))
  return {
    lows: words.comparison.lowsChangeSentence(told.lows, names, unit),
    introduction: words.comparison.twoPeriodsIntroduction(extent(earlier), extent(later)),
    cautions: cautions.map((caution) => words.comparison.cautionSentence(caution, names, years)),
    measures: measuresTable(context, told, names),
    measuresNote: [
      words.comparison.sameTimesSentence(
        TOLD_LIMITS,
        sameTimesFrom && sameTimesFrom.map((hour) => words.day.hoursText(hour, hour + BLOCK_HOURS)),
      ),
      words.comparison.sameMealsSentence(TOLD_LIMITS, told.noSameMeals),
      words.comparison.manyRowsSentence(told),
    ]
      .filter((sentence) => sentence !== null)
      .join(' '),
    blocks: blocks.length === 0 ? null : blocksTable(context, told, names),
    shapes: dayShapes(told, names),
  }
}

/** Two periods side by side, earlier and later; nothing where one period was asked for. */
export function twoPeriods(context: ReportContext): readonly Block[] {
  const { words } = context
  const compared = comparedPeriods(context)
  if (compared === null) return []
  const { lows, introduction, cautions, measures, measuresNote, shapes, blocks } = compared
  const size = { width: context.width, height: PICTURE_HEIGHT, palette: PRINT_PALETTE }
  const right = { width: 104, align: 'right' } as const
  return [
    heading(words.comparison.TWO_PERIODS_TITLE, SECTION.compared),
    paragraph(lows, { bold: true }),
    paragraph(introduction),
    ...cautions.map((sentence) => paragraph(sentence, { bold: true })),
    table(
      [{ width: 128 }, right, right, { width: '*' as const }].map((column, i) => ({
        ...column,
        title: measures.titles[i],
      })),
      measures.rows,
      SMALL,
    ),
    greyParagraph(measuresNote, { fontSize: TYPE.small }),
    ...(shapes === null
      ? []
      : [
          {
            ...picture(twoPeriodsPicture(words, context.analysis, shapes, size)),
            margin: [0, 8, 0, 0] as const,
          },
        ]),
    ...(blocks === null
      ? []
      : keptTogether(
          [
            heading(words.comparison.blockChangesTitle(context.unit)),
            table(
              [{ width: 50 }, right, right, { ...right, width: 60 }, { width: '*' as const }].map(
                (column, i) => ({ ...column, title: blocks.titles[i] }),
              ),
              blocks.rows,
              SMALL,
            ),
            greyParagraph(words.comparison.blockChangesNote(TOLD_LIMITS), { fontSize: TYPE.small }),
          ],
          context.width,
        )),
  ]
}

function measuresTable(
  { analysis, figures, unit, words }: ReportContext,
  { earlier, later, lows, rows }: TwoPeriodsTold,
  names: readonly string[],
): PlainTable {
  const naming = namingOf(analysis.settings, figures)
  const label = (of: ChangeTold['of']) =>
    of === 'sameTimes' || of === 'sameMeals'
      ? words.comparison.STANDARDISED_LABELS[of]
      : words.figures.measureLabel(of, naming)
  const none = words.numbers.NO_NUMBER
  return {
    titles: [words.comparison.asLoggedTitle(unit), ...names, words.comparison.CHANGE_TITLE],
    rows: [
      [
        words.comparison.lowsLabel(unit),
        words.comparison.lowsCountText(earlier.lows),
        words.comparison.lowsCountText(later.lows),
        words.comparison.lowsChangeText(lows),
      ],
      ...rows.map((row) => [
        label(row.of),
        ...(row.heldBack !== null
          ? [none, none, words.figures.heldBackText(row.heldBack)]
          : [
              words.comparison.measuredText(row.earlier, row, unit),
              words.comparison.measuredText(row.later, row, unit),
              words.comparison.changeText(row, unit),
            ]),
      ]),
    ],
  }
}

function dayShapes(
  { earlier, later, firstIsLater }: TwoPeriodsTold,
  names: readonly string[],
): readonly [Shape, Shape] | null {
  const timed = [earlier, later].some(({ timeOfDay }) => timeOfDay.hours.some(({ n }) => n > 0))
  if (!timed) return null
  return [
    { figures: earlier, name: names[0], sign: firstIsLater ? 'triangles' : 'dots' },
    { figures: later, name: names[1], sign: firstIsLater ? 'dots' : 'triangles' },
  ]
}

function blocksTable(
  { unit, words }: ReportContext,
  { blocks }: TwoPeriodsTold,
  names: readonly string[],
): PlainTable {
  const { hours, change } = words.comparison.BLOCK_TITLES
  return {
    titles: [hours, ...names, change, ''],
    rows: blocks.map((block) => {
      const [before, after] = [block.earlier, block.later].map((mean) => words.figures.valueText(mean, unit))
      const none = words.numbers.NO_NUMBER
      const told =
        block.heldBack === null
          ? [words.numbers.differenceText(before, after), words.comparison.BLOCK_SAID[block.said]]
          : [none, words.figures.heldBackText(block.heldBack)]
      const shown = (text: string, n: number) => `${block.heldBack === null ? text : none} (${n})`
      return [
        words.day.hoursText(block.fromHour, block.toHour),
        shown(before, block.earlierN),
        shown(after, block.laterN),
        ...told,
      ]
    }),
  }
}

/** How the lows changed, for the first page and the window; null where one period was asked for. */
export function lowsOfTwoPeriods(words: Words, analysis: Analysis, years: Years): string | null {
  const inOrder = periodsInOrder(analysis)
  if (inOrder === null) return null
  const names = [inOrder.earlier, inOrder.later].map((period) => words.comparison.periodName(period, years))
  return words.comparison.lowsChangeSentence(inOrder.lows, names, analysis.settings.unit)
}
