import type { Analysis, PeriodFigures } from '../analysis/analysis'
import { BLOCK_HOURS } from '../reference/dayParts'
import { TOLD_LIMITS } from '../told/limits'
import { namingOf } from '../told/measures'
import { type ChangeTold, type TwoPeriodsTold, twoPeriodsTold } from '../told/twoPeriods'
import { type Years, yearsOf } from '../told/years'
import type { GlucoseUnit } from '../units/glucose'
import type { Words } from '../wording/words'
import type { PlainTable } from './plainTable'

/** Two periods side by side: words, cautions, tables. */
export interface ComparedPeriods {
  /** How the lows changed, before anything else. */
  readonly lows: string
  readonly introduction: string
  /** What of the table is clear, to be told after the cautions. */
  readonly clear: string
  readonly cautions: readonly string[]
  readonly measures: PlainTable
  readonly measuresNote: string
  readonly blocks: PlainTable | null
}

/** The earlier period and the later; null where one period was asked for. */
export function comparedPeriods(words: Words, analysis: Analysis): ComparedPeriods | null {
  const told = twoPeriodsTold(analysis)
  if (told === null) return null
  const { unit } = analysis.settings
  const years = yearsOf(analysis.readings)
  const { earlier, later, cautions, blocks, sameTimesFrom } = told
  const extent = (period: PeriodFigures) => ({ ...period, n: period.asLogged.n })
  const names = [earlier, later].map((period) => words.comparison.periodName(period, years))
  return {
    lows: words.comparison.lowsChangeSentence(told.lows, names, unit),
    introduction: words.comparison.twoPeriodsIntroduction(extent(earlier), extent(later)),
    clear: words.comparison.clearSentence(told.clear, namingOf(analysis.settings, told.later)),
    cautions: cautions.map((caution) => words.comparison.cautionSentence(caution, names, years)),
    measures: measuresTable(words, analysis, told, names),
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
    blocks: blocks.length === 0 ? null : blockChanges(words, unit, told, names),
  }
}

function measuresTable(
  words: Words,
  { settings, periods }: Analysis,
  { earlier, later, lows, rows }: TwoPeriodsTold,
  names: readonly string[],
): PlainTable {
  const { unit } = settings
  const naming = namingOf(settings, periods[0])
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
        words.comparison.lowsChangeText(lows, unit),
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

function blockChanges(
  words: Words,
  unit: GlucoseUnit,
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

/** How the lows changed, and with `why` what may have made it where it is not clear; null where one period was asked for. */
export function lowsOfTwoPeriods(words: Words, analysis: Analysis, years: Years, why = true): string | null {
  const told = twoPeriodsTold(analysis)
  if (told === null) return null
  const names = [told.earlier, told.later].map((period) => words.comparison.periodName(period, years))
  return words.comparison.lowsChangeSentence(told.lows, names, analysis.settings.unit, why)
}
