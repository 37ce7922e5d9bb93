import { tellsMeals } from '../day/meals'
import { goalsSentence, goalText, momentName, untaggedSentence } from '../wording/meals'
import { LIMITS } from '../reference/limits'
import { glucoseText, limitText, NO_NUMBER, rangeText, readingText } from '../wording/numbers'
import type { ReportContext } from './context'
import type { Block } from './document'
import { keptTogether } from './height'
import { greyParagraph, heading, table, TYPE } from './parts'

const BY_MEAL = 'By meal'

/** The readings by meal for the first page; nothing where the log does not tell them. */
export function byMealTable(context: ReportContext): readonly Block[] {
  if (!tellsMeals(context.figures.byMeal)) return []
  return [{ ...momentsTable(context, BY_MEAL), margin: [0, 3, 0, 4] }]
}

/** The same for a later page, with the goals in words. */
export function byMealBehind(context: ReportContext): readonly Block[] {
  if (!tellsMeals(context.figures.byMeal)) return []
  const { asLogged, byMeal, lows } = context.figures
  const untagged = asLogged.n - byMeal.tagged
  const lowsInRows = byMeal.moments.reduce((sum, { below70 }) => sum + below70, 0)
  const outside = untagged > 0 ? ` ${untaggedSentence(untagged, lows.readingsBelow70 - lowsInRows)}` : ''
  const goals = greyParagraph(`${goalsSentence(context.analysis.settings)}${outside}`, {
    fontSize: TYPE.small,
  })
  return keptTogether(
    [heading(`${BY_MEAL}, ${context.unit}`), momentsTable(context, ''), goals],
    context.width,
  )
}

function momentsTable(context: ReportContext, title: string): Block {
  const { unit } = context
  const { readings } = context.analysis
  const { moments } = context.figures.byMeal
  const goals = moments.some(({ goal }) => goal !== null)
  const rows = moments.map((moment) => [
    momentName(moment.moment),
    String(moment.n),
    [{ text: glucoseText(moment.median, unit), bold: true }],
    rangeText(glucoseText(moment.q1, unit), glucoseText(moment.q3, unit)),
    readingText(readings, moment.lowest, unit),
    readingText(readings, moment.highest, unit),
    String(moment.below70),
    ...(goals
      ? [
          moment.goal === null ? NO_NUMBER : `${moment.withinGoal ?? 0} of ${moment.n}`,
          moment.goal === null ? NO_NUMBER : goalText(moment.goal, unit),
        ]
      : []),
  ])
  const right = { width: '*', align: 'right' } as const
  return table(
    [
      { title, width: 84 },
      { title: 'n', width: 30, align: 'right' },
      { title: 'median', ...right },
      { title: 'middle half', ...right },
      { title: 'lowest', ...right },
      { title: 'highest', ...right },
      { title: `below ${limitText(LIMITS.low, unit)}`, ...right },
      ...(goals
        ? [
            { title: 'within goal', ...right },
            { title: 'goal', ...right },
          ]
        : []),
    ],
    rows,
    { fontSize: TYPE.small + 0.4 },
  )
}
