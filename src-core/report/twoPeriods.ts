import type { Analysis, PeriodFigures } from '../analysis/analysis'
import { PRINT_PALETTE } from '../charts/palette'
import { type Shape, twoPeriodsPicture } from '../charts/twoPeriodsPicture'
import { type MeasureChange, type MeasureName, standingOf } from '../compare/comparison'
import { heldMeasure } from '../compare/heldMeasure'
import { type PeriodsInOrder, periodsInOrder } from '../analysis/inOrderOfTime'
import { BLOCK_HOURS } from '../reference/dayParts'
import { LIMITS } from '../reference/limits'
import {
  BLOCK_CHANGES_NOTE,
  blockWords,
  changeText,
  fewDaysSentence,
  habitSentence,
  type LaterChange,
  laterChange,
  lowsCountText,
  lowsChangeSentence,
  lowsChangeText,
  manyRowsSentence,
  measured,
  measuredText,
  meterMixSentence,
  periodName,
  SAME_MEALS_LABEL,
  sameMealsSentence,
  SAME_TIMES_LABEL,
  sameTimesSentence,
  sharedDaysSentence,
  twoPeriodsIntroduction,
  TWO_PERIODS_TITLE,
} from '../wording/comparison'
import { newMeters } from '../technique/newMeters'
import { newMeterSentence } from '../wording/besideNumbers'
import { hoursText } from '../wording/day'
import { glucoseOrNone, heldBackText, targetText } from '../wording/figures'
import { differenceText, limitText, NO_NUMBER } from '../wording/numbers'
import type { ReportContext } from './context'
import type { PlainTable } from './dayInNumbers'
import type { Block } from './document'
import { keptTogether } from './height'
import { greyParagraph, heading, paragraph, picture, table, TYPE } from './parts'
import { SECTION } from './sections'
import type { Years } from '../wording/years'

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
  const names = [earlier, later].map((period) => periodName(period, context.years))
  const span = { from: Math.min(earlier.from, later.from), to: Math.max(earlier.to, later.to) }
  const { readings, technique } = context.analysis
  const cautions = [
    ...newMeters(readings, technique.meterPairs, span).map((found) =>
      newMeterSentence(
        found,
        context.meterNames[found.meter],
        context.meterNames[found.other],
        context.years,
      ),
    ),
    habitSentence(comparison, names, firstIsLater),
    meterMix(context, inOrder, names),
    sharedDaysSentence(comparison.sharedDays, context.years),
    fewDaysSentence([earlier.daysWithReadings, later.daysWithReadings]),
  ].filter((sentence) => sentence !== null)
  return {
    lows: lowsChangeSentence(inOrder.lows, names, context.unit),
    introduction: twoPeriodsIntroduction(extent(earlier), extent(later)),
    cautions,
    measures: measuresTable(context, inOrder, names),
    measuresNote: [
      sameTimesSentence(hoursUsed(inOrder)),
      sameMealsSentence(comparison),
      manyRowsSentence(comparison),
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
    heading(TWO_PERIODS_TITLE, SECTION.compared),
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
      : [{ ...picture(twoPeriodsPicture(context.analysis, shapes, size)), margin: [0, 8, 0, 0] as const }]),
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
            greyParagraph(BLOCK_CHANGES_NOTE, { fontSize: TYPE.small }),
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
  return meterMixSentence(mix, names)
}

function hoursUsed({ comparison }: PeriodsInOrder): readonly string[] | null {
  return comparison.sameTimesOfDay?.fromHours.map((hour) => hoursText(hour, hour + 3)) ?? null
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
    return found && [label, NO_NUMBER, NO_NUMBER, heldBackText(found.why, found.of)]
  }
  const row = (change: MeasureChange): readonly string[] => {
    const of = measured(change.measure, unit)
    const label = measureLabel(context, change.measure)
    const heldRow = held(change.measure, label)
    if (heldRow !== null) return heldRow
    const inTime = laterChange(change, firstIsLater, standingOf(comparison, 'measures'))
    return [label, measuredText(inTime.earlier, of), measuredText(inTime.later, of), changeText(inTime, of)]
  }
  const lows = ({ lows }: PeriodFigures) => lowsCountText(lows)
  const [mean, ...others] = comparison.measures.map(row)
  const standardised = (label: string, change: LaterChange): readonly string[] => {
    const of = { kind: 'glucose', unit } as const
    return [label, measuredText(change.earlier, of), measuredText(change.later, of), changeText(change, of)]
  }
  const { sameTimesOfDay: sameTimes, sameMeals } = comparison
  return {
    titles: [`as logged, ${unit}`, ...names, 'change, earlier to later'],
    rows: [
      [
        `Lows, readings below ${limitText(LIMITS.low, unit)}`,
        lows(earlier),
        lows(later),
        lowsChangeText(inOrder.lows),
      ],
      mean,
      ...(sameTimes === null
        ? []
        : [
            held('meanMgDl', SAME_TIMES_LABEL) ??
              standardised(
                SAME_TIMES_LABEL,
                laterChange(sameTimes, firstIsLater, standingOf(comparison, 'sameTimes')),
              ),
          ]),
      ...(typeof sameMeals === 'string'
        ? []
        : [
            held('meanMgDl', SAME_MEALS_LABEL) ??
              standardised(
                SAME_MEALS_LABEL,
                laterChange(sameMeals, firstIsLater, standingOf(comparison, 'sameMeals')),
              ),
          ]),
      ...others,
    ],
  }
}

function measureLabel({ analysis, unit }: ReportContext, measure: MeasureName): string {
  const { targetLow, targetHigh } = analysis.settings
  const labels: Readonly<Record<MeasureName, string>> = {
    meanMgDl: 'Mean',
    medianMgDl: 'Median',
    sdMgDl: 'SD',
    cvPercent: 'Coefficient of variation',
    percentBelow54: `Readings below ${limitText(LIMITS.veryLow, unit)}`,
    percentBelow70: `Readings below ${limitText(LIMITS.low, unit)}`,
    percentInTarget: `Readings ${targetText(targetLow, targetHigh, unit)}`,
    percentAbove180: `Readings above ${limitText(LIMITS.high, unit)}`,
    percentAbove250: `Readings above ${limitText(LIMITS.veryHigh, unit)}`,
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
  { analysis: { settings }, unit }: ReportContext,
  { comparison, firstIsLater, earlier, later }: PeriodsInOrder,
  names: readonly string[],
): PlainTable {
  return {
    titles: ['hours', ...names, 'change', ''],
    rows: comparison.blocks.map((block) => {
      const figures = [
        { n: block.firstN, mean: glucoseOrNone(block.first, unit) },
        { n: block.secondN, mean: glucoseOrNone(block.second, unit) },
      ]
      const [before, after] = firstIsLater ? [figures[1], figures[0]] : figures
      const counted = [earlier, later].map(({ timeOfDay }) => timeOfDay.blocks[block.fromHour / BLOCK_HOURS])
      const held = heldMeasure('meanMgDl', counted, settings)
      if (held !== null) {
        const none = (n: number) => `${NO_NUMBER} (${n})`
        const hours = hoursText(block.fromHour, block.toHour)
        return [hours, none(before.n), none(after.n), NO_NUMBER, heldBackText(held.why, held.of)]
      }
      return [
        hoursText(block.fromHour, block.toHour),
        `${before.mean} (${before.n})`,
        `${after.mean} (${after.n})`,
        differenceText(before.mean, after.mean),
        blockWords(block, firstIsLater),
      ]
    }),
  }
}

/** How the lows changed, for the first page and the window; null where one period was asked for. */
export function lowsOfTwoPeriods(analysis: Analysis, years: Years): string | null {
  const inOrder = periodsInOrder(analysis)
  if (inOrder === null) return null
  const names = [inOrder.earlier, inOrder.later].map((period) => periodName(period, years))
  return lowsChangeSentence(inOrder.lows, names, analysis.settings.unit)
}
