import type { Analysis, PeriodFigures } from '../analysis/analysis'
import { PRINT_PALETTE } from '../charts/palette'
import { type Shape, twoPeriodsPicture } from '../charts/twoPeriodsPicture'
import { type MeasureChange, type MeasureName, standingOf } from '../compare/comparison'
import { heldMeasure } from '../compare/heldMeasure'
import { type PeriodsInOrder, periodsInOrder } from '../analysis/inOrderOfTime'
import { BLOCK_HOURS } from '../reference/dayParts'
import { LIMITS } from '../reference/limits'
import type { LaterChange } from '../wording/english/comparison'
import { newMeters } from '../technique/newMeters'
import type { ReportContext } from './context'
import type { PlainTable } from './dayInNumbers'
import type { Block } from './document'
import { keptTogether } from './height'
import { greyParagraph, heading, paragraph, picture, table, TYPE } from './parts'
import { SECTION } from './sections'
import type { Years } from '../wording/years'
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
  const inOrder = periodsInOrder(context.analysis)
  if (inOrder === null) return null
  const { comparison, earlier, later, firstIsLater } = inOrder
  const extent = (period: PeriodFigures) => ({ ...period, n: period.asLogged.n })
  const names = [earlier, later].map((period) => context.words.comparison.periodName(period, context.years))
  const span = { from: Math.min(earlier.from, later.from), to: Math.max(earlier.to, later.to) }
  const { readings, technique } = context.analysis
  const cautions = [
    ...newMeters(readings, technique.meterPairs, span).map((found) =>
      context.words.besideNumbers.newMeterSentence(
        found,
        context.meterNames[found.meter],
        context.meterNames[found.other],
        context.years,
      ),
    ),
    context.words.comparison.habitSentence(comparison, names, firstIsLater),
    meterMix(context, inOrder, names),
    context.words.comparison.sharedDaysSentence(comparison.sharedDays, context.years),
    context.words.comparison.fewDaysSentence([earlier.daysWithReadings, later.daysWithReadings]),
  ].filter((sentence) => sentence !== null)
  return {
    lows: context.words.comparison.lowsChangeSentence(inOrder.lows, names, context.unit),
    introduction: context.words.comparison.twoPeriodsIntroduction(extent(earlier), extent(later)),
    cautions,
    measures: measuresTable(context, inOrder, names),
    measuresNote: [
      context.words.comparison.sameTimesSentence(hoursUsed(context.words, inOrder)),
      context.words.comparison.sameMealsSentence(comparison),
      context.words.comparison.manyRowsSentence(comparison),
    ]
      .filter((sentence) => sentence !== null)
      .join(' '),
    blocks: comparison.blocks.length === 0 ? null : blocksTable(context, inOrder, names),
    shapes: dayShapes(inOrder, names),
  }
}

/** Two periods side by side, earlier and later; nothing where one period was asked for. */
export function twoPeriods(context: ReportContext): readonly Block[] {
  const compared = comparedPeriods(context)
  if (compared === null) return []
  const { lows, introduction, cautions, measures, measuresNote, shapes, blocks } = compared
  const size = { width: context.width, height: PICTURE_HEIGHT, palette: PRINT_PALETTE }
  const right = { width: 104, align: 'right' } as const
  return [
    heading(context.words.comparison.TWO_PERIODS_TITLE, SECTION.compared),
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
            ...picture(twoPeriodsPicture(context.words, context.analysis, shapes, size)),
            margin: [0, 8, 0, 0] as const,
          },
        ]),
    ...(blocks === null
      ? []
      : keptTogether(
          [
            heading(`Change by part of the day: mean in ${context.unit} (readings)`),
            table(
              [{ width: 50 }, right, right, { ...right, width: 60 }, { width: '*' as const }].map(
                (column, i) => ({ ...column, title: blocks.titles[i] }),
              ),
              blocks.rows,
              SMALL,
            ),
            greyParagraph(context.words.comparison.BLOCK_CHANGES_NOTE, { fontSize: TYPE.small }),
          ],
          context.width,
        )),
  ]
}

function meterMix(
  context: ReportContext,
  { comparison, firstIsLater }: PeriodsInOrder,
  names: readonly string[],
): string | null {
  const mix = comparison.meters.map(({ meter, firstPercent, secondPercent }) => ({
    meter: context.meterNames[meter],
    earlierPercent: firstIsLater ? secondPercent : firstPercent,
    laterPercent: firstIsLater ? firstPercent : secondPercent,
  }))
  return context.words.comparison.meterMixSentence(mix, names)
}

function hoursUsed(words: Words, { comparison }: PeriodsInOrder): readonly string[] | null {
  return comparison.sameTimesOfDay?.fromHours.map((hour) => words.day.hoursText(hour, hour + 3)) ?? null
}

function measuresTable(
  context: ReportContext,
  inOrder: PeriodsInOrder,
  names: readonly string[],
): PlainTable {
  const { comparison, earlier, later, firstIsLater } = inOrder
  const { unit } = context
  const { settings } = context.analysis
  const held = (measure: MeasureName, label: string) => {
    const found = heldMeasure(measure, [earlier.asLogged, later.asLogged], settings)
    return (
      found && [
        label,
        context.words.numbers.NO_NUMBER,
        context.words.numbers.NO_NUMBER,
        context.words.figures.heldBackText(found.why, found.of),
      ]
    )
  }
  const row = (change: MeasureChange): readonly string[] => {
    const of = context.words.comparison.measured(change.measure, unit)
    const label = measureLabel(context, change.measure)
    const heldRow = held(change.measure, label)
    if (heldRow !== null) return heldRow
    const inTime = context.words.comparison.laterChange(
      change,
      firstIsLater,
      standingOf(comparison, 'measures'),
    )
    return [
      label,
      context.words.comparison.measuredText(inTime.earlier, of),
      context.words.comparison.measuredText(inTime.later, of),
      context.words.comparison.changeText(inTime, of),
    ]
  }
  const lows = ({ lows }: PeriodFigures) => context.words.comparison.lowsCountText(lows)
  const [mean, ...others] = comparison.measures.map(row)
  const standardised = (label: string, change: LaterChange): readonly string[] => {
    const of = { kind: 'glucose', unit } as const
    return [
      label,
      context.words.comparison.measuredText(change.earlier, of),
      context.words.comparison.measuredText(change.later, of),
      context.words.comparison.changeText(change, of),
    ]
  }
  const { sameTimesOfDay: sameTimes, sameMeals } = comparison
  return {
    titles: [`as logged, ${unit}`, ...names, 'change, earlier to later'],
    rows: [
      [
        `Lows, readings below ${context.words.numbers.limitText(LIMITS.low, unit)}`,
        lows(earlier),
        lows(later),
        context.words.comparison.lowsChangeText(inOrder.lows),
      ],
      mean,
      ...(sameTimes === null
        ? []
        : [
            held('meanMgDl', context.words.comparison.SAME_TIMES_LABEL) ??
              standardised(
                context.words.comparison.SAME_TIMES_LABEL,
                context.words.comparison.laterChange(
                  sameTimes,
                  firstIsLater,
                  standingOf(comparison, 'sameTimes'),
                ),
              ),
          ]),
      ...(typeof sameMeals === 'string'
        ? []
        : [
            held('meanMgDl', context.words.comparison.SAME_MEALS_LABEL) ??
              standardised(
                context.words.comparison.SAME_MEALS_LABEL,
                context.words.comparison.laterChange(
                  sameMeals,
                  firstIsLater,
                  standingOf(comparison, 'sameMeals'),
                ),
              ),
          ]),
      ...others,
    ],
  }
}

function measureLabel({ analysis, unit, words }: ReportContext, measure: MeasureName): string {
  const { targetLow, targetHigh } = analysis.settings
  const labels: Readonly<Record<MeasureName, string>> = {
    meanMgDl: 'Mean',
    medianMgDl: 'Median',
    sdMgDl: 'SD',
    cvPercent: 'Coefficient of variation',
    percentBelow54: `Readings below ${words.numbers.limitText(LIMITS.veryLow, unit)}`,
    percentBelow70: `Readings below ${words.numbers.limitText(LIMITS.low, unit)}`,
    percentInTarget: `Readings ${words.figures.targetText(targetLow, targetHigh, unit)}`,
    percentAbove180: `Readings above ${words.numbers.limitText(LIMITS.high, unit)}`,
    percentAbove250: `Readings above ${words.numbers.limitText(LIMITS.veryHigh, unit)}`,
  }
  return labels[measure]
}

function dayShapes(
  { earlier, later, firstIsLater }: PeriodsInOrder,
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
  { analysis: { settings }, unit, words }: ReportContext,
  { comparison, firstIsLater, earlier, later }: PeriodsInOrder,
  names: readonly string[],
): PlainTable {
  return {
    titles: ['hours', ...names, 'change', ''],
    rows: comparison.blocks.map((block) => {
      const figures = [
        { n: block.firstN, mean: words.figures.glucoseOrNone(block.first, unit) },
        { n: block.secondN, mean: words.figures.glucoseOrNone(block.second, unit) },
      ]
      const [before, after] = firstIsLater ? [figures[1], figures[0]] : figures
      const counted = [earlier, later].map(({ timeOfDay }) => timeOfDay.blocks[block.fromHour / BLOCK_HOURS])
      const held = heldMeasure('meanMgDl', counted, settings)
      if (held !== null) {
        const none = (n: number) => `${words.numbers.NO_NUMBER} (${n})`
        const hours = words.day.hoursText(block.fromHour, block.toHour)
        return [
          hours,
          none(before.n),
          none(after.n),
          words.numbers.NO_NUMBER,
          words.figures.heldBackText(held.why, held.of),
        ]
      }
      return [
        words.day.hoursText(block.fromHour, block.toHour),
        `${before.mean} (${before.n})`,
        `${after.mean} (${after.n})`,
        words.numbers.differenceText(before.mean, after.mean),
        words.comparison.blockWords(block, firstIsLater),
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
