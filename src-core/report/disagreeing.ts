import { isLow } from '../log/readings'
import { minutesBetween } from '../technique/chronology'
import { readNote } from '../technique/notes/readNote'
import { contradictions } from '../technique/reasons/contradictedByRepeat'
import { noteTellsOfTechnique } from '../technique/reasons/noteTellsOfTechnique'
import { markedSequence } from '../shown/markedText'
import type { RepeatSet } from '../technique/technique'
import { reasonsTold } from '../told/reasons'
import type { ReportContext } from './context'
import type { Block } from './document'
import { keptTogether } from './height'
import { greyParagraph, heading, heads, paragraph, right, table } from './parts'
import { SECTION } from './sections'

/** Sets that are listed; of more, the latest. */
export const MOST_SETS = 40

/** The repeat sets whose tests cannot all be right, or nothing where all agree. */
export function disagreeingSets(context: ReportContext): readonly Block[] {
  const sets = context.analysis.technique.repeatSets.filter((set) => !set.agree)
  if (sets.length === 0) return []
  const shown = sets.slice(-MOST_SETS)
  const more = sets.length - shown.length
  const { pages } = context.words
  const columns = pages.COLUMNS.disagreeing
  const blocks = [
    heading(pages.TITLES.disagreeing, SECTION.disagreeing),
    greyParagraph(pages.DISAGREEING_NOTE),
    table(
      heads(columns, [110, '*', right(44), right(96), 80]),
      shown.map((set) => row(context, set)),
    ),
    ...shown.flatMap((set) => contradictedLow(context, set)),
    ...(more > 0 ? [paragraph(pages.earlierSetsText(more))] : []),
  ]
  return keptTogether(blocks, context.width)
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

/** Of a set with a low and no marked member, which stands nowhere else: that the low and a test beside it cannot both be right. */
function contradictedLow(context: ReportContext, { members, holdsLow }: RepeatSet): readonly Block[] {
  const { words } = context
  const { readings } = context.analysis
  if (!holdsLow || members.some((index) => context.analysis.marked.has(index))) return []
  const told = contradictions(readings, members)
  const place = members.findIndex((index, i) => isLow(readings, index) && told[i] !== null)
  const reason = told[place]
  if (!reason) return []
  const index = members[place]
  const note = noteTellsOfTechnique(readNote(readings.note(index)))
  const reasons = words.reasons.reasonsText(
    reasonsTold(note === null ? [reason] : [reason, note], readings, index),
    readings,
    context.unit,
  )
  return [paragraph(`${words.dates.readingMoment(readings, index, context.years)}: ${reasons}`)]
}
