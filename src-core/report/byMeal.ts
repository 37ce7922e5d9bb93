import { tellsMeals } from '../day/meals'
import { momentName, goalsSentence } from '../wording/meals'
import { LIMITS } from '../reference/limits'
import { glucoseText, limitText, NO_NUMBER, rangeText, readingText } from '../wording/numbers'
import type { ReportContext } from './context'
import type { Block } from './document'
import { keptTogether } from './height'
import { greyParagraph, heading, sectionHeading, table, TYPE } from './parts'

/** The readings by meal for the first page; nothing where the log does not tell them. */
export function byMealTable(context: ReportContext): readonly Block[] {
  if (!tellsMeals(context.figures.byMeal)) return []
  return [...sectionHeading('By meal', context.width), ...tableAndGoals(context)]
}

/** The same for a later page. */
export function byMealBehind(context: ReportContext): readonly Block[] {
  if (!tellsMeals(context.figures.byMeal)) return []
  return keptTogether([heading(`By meal, ${context.unit}`), ...tableAndGoals(context)], context.width)
}

function tableAndGoals(context: ReportContext): readonly Block[] {
  const { unit } = context
  const { readings, settings } = context.analysis
  const { moments } = context.figures.byMeal
  const rows = moments.map((moment) => [
    momentName(moment.moment),
    String(moment.n),
    [{ text: glucoseText(moment.median, unit), bold: true }],
    rangeText(glucoseText(moment.q1, unit), glucoseText(moment.q3, unit)),
    readingText(readings, moment.lowest, unit),
    readingText(readings, moment.highest, unit),
    moment.below70 === 0 ? NO_NUMBER : String(moment.below70),
    moment.withinGoal === null ? NO_NUMBER : `${moment.withinGoal} of ${moment.n}`,
  ])
  const right = { width: '*', align: 'right' } as const
  const small = { fontSize: TYPE.small + 0.4 }
  return [
    table(
      [
        { title: '', width: 84 },
        { title: 'n', width: 34, align: 'right' },
        { title: 'median', ...right },
        { title: 'middle half', ...right },
        { title: 'lowest', ...right },
        { title: 'highest', ...right },
        { title: `below ${limitText(LIMITS.low, unit)}`, ...right },
        { title: 'within goal', ...right },
      ],
      rows,
      small,
    ),
    greyParagraph(goalsSentence(settings), { fontSize: TYPE.small }),
  ]
}
