import { minutesBetween } from '../technique/chronology'
import { markedSequence } from '../shown/markedText'
import type { RepeatSet } from '../technique/technique'
import { contradictedLow, disagreeingSets } from '../told/disagreeing'
import { reasonsInWords, type ReportContext } from './context'
import type { Block } from './document'
import { keptTogether } from './height'
import { greyParagraph, heading, heads, paragraph, right, table } from './parts'
import { SECTION } from './sections'

/** The repeat sets whose tests cannot all be right; nothing where all agree. */
export function disagreeing(context: ReportContext): readonly Block[] {
  const { all, above, sets, earlier } = disagreeingSets(context.analysis, context.figures)
  if (all === 0) return []
  const { pages } = context.words
  const toldAbove = above === 0 ? [] : [paragraph(pages.setsAboveText(above, all))]
  if (sets.length === 0) return toldAbove
  const list = [
    greyParagraph(pages.DISAGREEING_NOTE),
    table(
      heads(pages.COLUMNS.disagreeing, [110, '*', right(44), right(96), 80]),
      sets.map((set) => row(context, set)),
    ),
    ...sets.flatMap((set) => lowOf(context, set)),
    ...(earlier > 0 ? [paragraph(pages.earlierSetsText(earlier))] : []),
  ]
  return keptTogether(
    [heading(pages.TITLES.disagreeing, SECTION.disagreeing), ...toldAbove, ...list],
    context.width,
  )
}

function row(context: ReportContext, set: RepeatSet): readonly string[] {
  const { words } = context
  const { readings } = context.analysis
  const [first] = set.members
  const minutes = minutesBetween(readings, first, set.members[set.members.length - 1])
  const sequence = markedSequence(words, context.analysis, set.members)
  const meters = [...new Set(set.members.map((index) => context.meterNames[readings.meter[index]]))]
  return [
    words.dates.readingMoment(readings, first, context.years),
    `${set.holdsLow ? '■ ' : ''}${sequence} (${words.dates.durationText(minutes)})`,
    `${words.numbers.percentText(set.spreadPercent)} %`,
    set.holdsLow ? words.pages.A_SEQUENCE : words.numbers.glucoseText(set.consensusMgDl, context.unit),
    words.numbers.listed(meters),
  ]
}

function lowOf(context: ReportContext, set: RepeatSet): readonly Block[] {
  const { words, analysis, years } = context
  const low = contradictedLow(analysis, set)
  if (low === null) return []
  const reasons = reasonsInWords(context, low.reasons)
  return [paragraph(`${words.dates.readingMoment(analysis.readings, low.index, years)}: ${reasons}`)]
}
