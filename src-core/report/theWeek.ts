import { fastingSpread } from '../day/fasting'
import { isLow } from '../log/readings'
import { tellsMeals } from '../day/meals'
import { hasManyMarkers } from '../statistics/heldBack'
import { type ReportContext, timesKnown } from './context'
import type { Block } from './document'
import { keptTogether } from './height'
import { heading, paragraph, TYPE } from './parts'

const SMALL = { fontSize: TYPE.small + 0.4 }

/** The days against one another: weekdays and weekends, the trend, what was hardly tested. */
export function theWeek(context: ReportContext): readonly Block[] {
  const { figures, unit } = context
  const sentences = [
    context.words.week.weekendSentence(figures.week, unit),
    // A step that page 1 tells of is no slope over all weeks: ‘no clear change’ would contradict it.
    hasManyMarkers(figures.asLogged) || hasChangedLately(figures)
      ? null
      : context.words.week.trendSentence(figures.week, unit),
    tellsMeals(figures.byMeal) ? context.words.meals.risesSentence(figures.byMeal.rises, unit) : null,
    context.words.week.enoughSentence(figures.week, figures.days),
    timesKnown(context) ? context.words.week.neverTestedSentence(figures.week) : null,
  ].filter((sentence) => sentence !== null)
  return keptTogether([heading('From day to day'), paragraph(sentences.join(' '), SMALL)], context.width)
}

function hasChangedLately({ latestStretch }: ReportContext['figures']): boolean {
  return latestStretch !== null && latestStretch.before.changedSince !== null
}

/** What a month of finger-sticks could tell, by the readings that are not doubtful; nothing for a sensor. */
export function nextMonth(context: ReportContext): readonly Block[] {
  if (context.figures.kind === 'sensor') return []
  const { readings } = context.analysis
  const sound = context.indexes.filter((index) => !context.doubtful.has(index) || isLow(readings, index))
  // What was left out as doubtful may be what had no number.
  const spread = hasManyMarkers(context.figures.asLogged) ? null : fastingSpread(readings, sound)
  const blocks = [
    heading('What next month could answer'),
    paragraph(context.words.week.nextMonthText(spread, context.unit), SMALL),
  ]
  return keptTogether(blocks, context.width)
}
