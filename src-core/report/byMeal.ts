import { type RowFigures, tellsMeals } from '../day/meals'
import { LIMITS } from '../reference/limits'
import { goalsTold } from '../told/goals'
import { measureOf } from '../told/measures'
import type { ReportContext } from './context'
import type { Block } from './document'
import { keptTogether } from './height'
import { greyParagraph, heading, table, TYPE } from './parts'

const BY_MEAL = 'By meal'

/** The readings by meal, with the goals in words; nothing where the log does not tell them. */
export function byMealBehind(context: ReportContext): readonly Block[] {
  if (!tellsMeals(context.figures.byMeal)) return []
  const goals = greyParagraph(
    context.words.meals.goalsSentence(goalsTold(context.analysis.settings), context.unit),
    {
      fontSize: TYPE.small,
    },
  )
  return keptTogether([heading(`${BY_MEAL}, ${context.unit}`), momentsTable(context), goals], context.width)
}

/** The last row holds what has no tag: every reading stands in a row, and so does every low. */
function momentsTable(context: ReportContext): Block {
  const { unit, words } = context
  const { readings } = context.analysis
  const { moments, untagged } = context.figures.byMeal
  const goals = moments.some(({ goal }) => goal !== null)
  const figuresOf = (row: RowFigures) => {
    const median = measureOf('medianMgDl', row, { interval: row.medianCi95MgDl })
    return [
      String(row.n),
      [{ text: words.figures.valueText(median, unit), bold: true }],
      words.figures.limitsOfText(median, unit),
      words.figures.valueText(measureOf('middleHalfMgDl', row), unit),
      words.numbers.readingText(readings, row.lowest, unit),
      words.numbers.readingText(readings, row.highest, unit),
      String(row.readingsBelow70),
    ]
  }
  const rows = [
    ...moments.map((moment) => [
      words.meals.momentName(moment.moment),
      ...figuresOf(moment),
      ...(goals
        ? [
            moment.goal === null ? words.numbers.NO_NUMBER : `${moment.withinGoal ?? 0} of ${moment.n}`,
            moment.goal === null ? words.numbers.NO_NUMBER : words.meals.goalText(moment.goal, unit),
          ]
        : []),
    ]),
    [
      words.meals.WITHOUT_A_TAG,
      ...(untagged === null
        ? ['0', ...Array<string>(5).fill(words.numbers.NO_NUMBER), '0']
        : figuresOf(untagged)),
      ...(goals ? [words.numbers.NO_NUMBER, words.numbers.NO_NUMBER] : []),
    ],
  ]
  const right = { width: '*', align: 'right' } as const
  const columns = words.pages.BY_MEAL_COLUMNS
  return table(
    [
      { title: '', width: 84 },
      { title: columns.n, width: 30, align: 'right' },
      { title: columns.median, ...right },
      { title: columns.knownTo, ...right },
      { title: columns.middleHalf, ...right },
      { title: columns.lowest, ...right },
      { title: columns.highest, ...right },
      { title: `below ${words.numbers.limitText(LIMITS.low, unit)}`, ...right },
      ...(goals
        ? [
            { title: columns.withinGoal, ...right },
            { title: columns.goal, ...right },
          ]
        : []),
    ],
    rows,
    { fontSize: TYPE.small + 0.4, layout: 'closeColumns' },
  )
}
