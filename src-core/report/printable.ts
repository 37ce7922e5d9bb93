import type { Block, Inline } from './document'
import { hasGlyph } from './glyphs'

/** Stands for every character that the pages' type does not hold, so that nothing vanishes unseen. */
export const REPLACEMENT = '□'

/**
 * Text from a log or a person as it can be printed: one line, and a visible sign for each character without a
 * glyph (other scripts, emoji, control characters, marks that turn the direction of writing).
 */
export function printable(text: string): string {
  let result = ''
  for (const character of text.replace(/[\t\n\v\f\r\u0085\u2028\u2029]+/g, ' ')) {
    result += hasGlyph(character.codePointAt(0) ?? 0) ? character : REPLACEMENT
  }
  return result
}

/** The first `length` characters, with '…' where something was cut. */
export function shortened(text: string, length: number): string {
  const characters = [...text]
  return characters.length <= length ? text : `${characters.slice(0, length - 1).join('')}…`
}

/** A run that ends a line. */
export const LINE_END = '\n'

const LONGEST_WORD = 18
const ZERO_WIDTH_SPACE = '\u200b'

/** The same text with places in very long words where a line may end, so that none leaves its column. */
export function softened(text: string): string {
  const longWord = new RegExp(`\\S{${LONGEST_WORD}}(?=\\S)`, 'gu')
  return text.replace(longWord, (part) => part + ZERO_WIDTH_SPACE)
}

/** A log's text for a narrow place: shortened, and free to break anywhere. */
export function oneLine(text: string, length: number): string {
  return softened(shortened(text.trim(), length))
}

/** The same blocks with every text printable. Pictures hold no text of others and stay as they are. */
export function printableBlocks(blocks: readonly Block[]): readonly Block[] {
  return blocks.map((block) => withPrintableTexts(block) as Block)
}

/** Whether a text of these blocks holds a letter that the pages' type lacks, before or after `printableBlocks`. */
export function lacksGlyphs(blocks: readonly Block[]): boolean {
  return JSON.stringify(printableBlocks(blocks)).includes(REPLACEMENT)
}

function withPrintableTexts(value: unknown): unknown {
  if (Array.isArray(value)) return value.map(withPrintableTexts)
  if (typeof value !== 'object' || value === null) return value
  return Object.fromEntries(
    Object.entries(value).map(([key, item]) => [
      key,
      key === 'text' ? printableInlines(item as string | readonly Inline[]) : withPrintableTexts(item),
    ]),
  )
}

function printableInlines(text: string | readonly Inline[]): string | readonly Inline[] {
  if (typeof text !== 'string') return text.flatMap(printableRuns)
  const runs = printableRuns(text)
  return runs.length === 1 && typeof runs[0] === 'string' ? runs[0] : runs
}

/** Numbers with what they count, which no line end parts. */
const DURATIONS = /(\d) (?=(?:h|min)\b)/g

/** Measurement units, with what must not be parted from them. */
const UNITS = /((?:mg\/dL|mmol\/L|mmol\/mol)[.,;:)]*)/

/** The run in printable characters, its units in runs of their own that no line end cuts after the stroke. */
function printableRuns(run: Inline): readonly Inline[] {
  // A line end that a page sets itself stands alone in its run; those of others come within their text.
  if (run === LINE_END) return [run]
  const style = typeof run === 'string' ? {} : run
  const text = printable(typeof run === 'string' ? run : run.text).replaceAll(DURATIONS, '$1\u00A0')
  return text
    .split(UNITS)
    .filter((part, _, parts) => part !== '' || parts.length === 1)
    .map((part) => {
      if (UNITS.test(part)) return { ...style, text: part, noWrap: true }
      return typeof run === 'string' ? part : { ...style, text: part }
    })
}
