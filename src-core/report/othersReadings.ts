import { isLow } from '../log/readings'
import { othersReadingsTold } from '../told/othersReadings'
import { printedNote, type ReportContext } from './context'
import type { Block } from './document'
import { heading, paragraph } from './parts'
import { oneLine } from './printable'

const NOTE_LENGTH = 60

/** The readings that may be somebody else's by their note and of which nothing was decided; nothing without any. */
export function othersReadings(context: ReportContext): readonly Block[] {
  const { analysis, figures, unit, words, years } = context
  const { n, listed } = othersReadingsTold(analysis, figures)
  if (n === 0) return []
  const each = listed.map((index) => ({
    moment: words.dates.readingMoment(analysis.readings, index, years),
    value: `${isLow(analysis.readings, index) ? '■ ' : ''}${words.numbers.readingText(analysis.readings, index, unit)}`,
    note: oneLine(printedNote(context, index), NOTE_LENGTH),
  }))
  return [heading(words.others.TITLE), paragraph(words.others.othersText(n, each))]
}
