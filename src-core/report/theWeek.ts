import { hoursKnown } from '../told/day'
import { fastingSpread } from '../day/fasting'
import { isLow } from '../log/readings'
import { tellsMeals } from '../day/meals'
import { hasManyMarkers } from '../statistics/heldBack'
import { nextMonth as nextMonthOf, weekTold } from '../told/week'
import { type ReportContext } from './context'
import type { Block } from './document'
import { keptTogether } from './height'
import { heading, paragraph, TYPE } from './parts'

const SMALL = { fontSize: TYPE.small + 0.4 }

/** The days against one another: weekdays and weekends, the trend, what was hardly tested. */
export function theWeek(context: ReportContext): readonly Block[] {
  const { figures, unit, width, words } = context
  const { weekend, trend, enough, neverTested } = weekTold(figures, unit)
  const { rises } = figures.byMeal
  const sentences = [
    weekend && words.week.weekendSentence(weekend, unit),
    trend && words.week.trendSentence(trend, unit),
    rises.length > 0 && tellsMeals(figures.byMeal) ? words.meals.risesSentence(rises, unit) : null,
    words.week.enoughSentence(enough),
    hoursKnown(context.analysis.readings, context.indexes)
      ? words.week.neverTestedSentence(neverTested)
      : null,
  ].filter((sentence) => sentence !== null)
  return keptTogether([heading(words.week.WEEK_TITLE), paragraph(sentences.join(' '), SMALL)], width)
}

/** What a month of finger-sticks could tell, by the readings that are not doubtful; nothing for a sensor. */
export function nextMonth(context: ReportContext): readonly Block[] {
  const { figures, unit, width, words } = context
  if (figures.kind === 'sensor') return []
  const { readings } = context.analysis
  const sound = context.indexes.filter((index) => !context.doubtful.has(index) || isLow(readings, index))
  // What was left out as doubtful may be what had no number.
  const spread = hasManyMarkers(figures.asLogged) ? null : fastingSpread(readings, sound)
  return keptTogether(
    [
      heading(words.week.NEXT_MONTH_TITLE),
      paragraph(words.week.nextMonthText(nextMonthOf(spread, unit)), SMALL),
    ],
    width,
  )
}
