import { awarenessTold, type Listed } from '../told/awareness'
import { printedNote, type ReportContext } from './context'
import type { Block } from './document'
import { heading, paragraph } from './parts'
import { oneLine } from './printable'

const NOTE_LENGTH = 60

/** Where what was felt and what was measured differ, by the notes of the log; nothing without any. */
export function awareness(context: ReportContext): readonly Block[] {
  const { words, unit } = context
  const { feltLow, nothingFelt } = awarenessTold(context.analysis, context.figures)
  if (feltLow.n + nothingFelt.n === 0) return []
  return [
    heading(words.awareness.TITLE),
    ...(nothingFelt.n === 0
      ? []
      : [paragraph(words.awareness.nothingFeltText(nothingFelt.n, noted(context, nothingFelt)))]),
    ...(feltLow.n === 0
      ? []
      : [paragraph(words.awareness.feltLowText(feltLow.n, noted(context, feltLow), unit))]),
  ]
}

function noted(context: ReportContext, { listed }: Listed) {
  const { analysis, unit, words, years } = context
  return listed.map((index) => ({
    moment: words.dates.readingMoment(analysis.readings, index, years),
    value: words.numbers.readingText(analysis.readings, index, unit),
    note: oneLine(printedNote(context, index), NOTE_LENGTH),
  }))
}
