import type { Analysis } from '../analysis/analysis'
import type { Words } from '../wording/words'

/** A reading with '?' where it is marked as doubtful; one that was typed says so. */
export function markedText(words: Words, { readings, marked, settings }: Analysis, index: number): string {
  const text = words.numbers.readingText(readings, index, settings.unit)
  return `${text}${marked.has(index) ? '?' : ''}${words.typed.typedMark(readings, index)}`
}

/** '52? → … → 90'; null is left out. */
export function markedSequence(
  words: Words,
  analysis: Analysis,
  sequence: readonly (number | null)[],
): string {
  return sequence.map((index) => (index === null ? '…' : markedText(words, analysis, index))).join(' → ')
}
