import type { Inline, Paragraph } from '../report/document'
import { LINE_HEIGHT, TYPE } from '../report/parts'

/** Width of letters in points. */
export type WidthOf = (text: string, size: number, bold: boolean) => number

/** Ascent and height of a line of Source Sans 3 as a share of its size: ascender 1000, descender 326. */
export const ASCENT = 1
export const FONT_HEIGHT = 1.326

/** Letters of one look. */
export interface Letters {
  readonly text: string
  readonly size: number
  readonly bold: boolean
  readonly color: string
}

/** Letters in their place on a line. */
export interface SetLetters extends Letters {
  /** From the left end of the column, points. */
  readonly x: number
}

export interface Line {
  readonly letters: readonly SetLetters[]
  readonly height: number
  /** From the top of the line to its baseline. */
  readonly baseline: number
}

/** Letters that no line end parts, and the white space after them. */
interface Word {
  readonly pieces: Letters[]
  width: number
  space: Letters | null
  endsLine: boolean
}

const ZERO_WIDTH_SPACE = '\u200b'
/** White space at which a line may end; a space that joins (U+00A0) is none. */
const PARTS = /([ \t]+|\n|\u200b)/

/** The paragraph in lines of that width, as many words on each as have room. */
export function linesOf(
  paragraph: Paragraph,
  width: number,
  color: string,
  widthOf: WidthOf,
): readonly Line[] {
  const words = wordsOf(paragraph, color, widthOf)
  const lines: Word[][] = [[]]
  let used = 0
  for (const whole of words) {
    for (const word of paragraph.noWrap ? [whole] : cutToFit(whole, width, widthOf)) {
      const line = lines[lines.length - 1]
      if (line.length > 0 && !paragraph.noWrap && used + word.width > width + TOLERANCE) {
        lines.push([word])
        used = 0
      } else line.push(word)
      used += word.width + (word.space === null ? 0 : lengthOf(word.space, widthOf))
      if (word.endsLine) {
        lines.push([])
        used = 0
      }
    }
  }
  return lines.map((line) => setLine(line, paragraph, width, color, widthOf))
}

/** Sums of widths differ in their last digits. */
const TOLERANCE = 0.01

/** Width of the paragraph in one line. */
export function naturalWidth(paragraph: Paragraph, widthOf: WidthOf): number {
  let widest = 0
  let line = 0
  for (const word of wordsOf(paragraph, '', widthOf)) {
    widest = Math.max(widest, line + word.width)
    line = word.endsLine ? 0 : line + word.width + (word.space === null ? 0 : lengthOf(word.space, widthOf))
  }
  return widest
}

function wordsOf(paragraph: Paragraph, color: string, widthOf: WidthOf): readonly Word[] {
  const words: Word[] = []
  let open: Word | null = null
  const opened = () => {
    if (open === null) {
      open = { pieces: [], width: 0, space: null, endsLine: false }
      words.push(open)
    }
    return open
  }
  for (const run of inlines(paragraph)) {
    const look = lookOf(run, paragraph, color)
    for (const part of look.text.split(PARTS)) {
      if (part === '') continue
      if (part === '\n') {
        opened().endsLine = true
        open = null
      } else if (part === ZERO_WIDTH_SPACE) open = null
      else if (part[0] === ' ' || part[0] === '\t') {
        if (open === null && words.length > 0) {
          const last: Word = words[words.length - 1]
          if (!last.endsLine) last.space = { ...look, text: (last.space?.text ?? '') + part }
        } else if (open !== null) (open as Word).space = { ...look, text: part }
        open = null
      } else {
        const letters = { ...look, text: part }
        const word = opened()
        word.pieces.push(letters)
        word.width += lengthOf(letters, widthOf)
      }
    }
  }
  return words
}

function inlines({ text }: Paragraph): readonly Inline[] {
  return typeof text === 'string' ? [text] : text
}

function lookOf(run: Inline, paragraph: Paragraph, color: string): Letters {
  const own = typeof run === 'string' ? { text: run } : run
  return {
    text: own.text,
    size: own.fontSize ?? paragraph.fontSize ?? TYPE.body,
    bold: own.bold ?? paragraph.bold ?? false,
    color: own.color ?? paragraph.color ?? color,
  }
}

function lengthOf({ text, size, bold }: Letters, widthOf: WidthOf): number {
  return widthOf(text, size, bold)
}

/** A word wider than its column is cut where the column ends. */
function cutToFit(word: Word, width: number, widthOf: WidthOf): readonly Word[] {
  if (word.width <= width + TOLERANCE) return [word]
  const cut: Word[] = []
  let part: Word | null = null
  for (const piece of word.pieces) {
    for (const character of piece.text) {
      const letters = { ...piece, text: character }
      const length = lengthOf(letters, widthOf)
      if (part === null || part.width + length > width) {
        part = { pieces: [], width: 0, space: null, endsLine: false }
        cut.push(part)
      }
      part.pieces.push(letters)
      part.width += length
    }
  }
  if (part !== null) {
    part.space = word.space
    part.endsLine = word.endsLine
  }
  return cut
}

function setLine(
  words: readonly Word[],
  paragraph: Paragraph,
  width: number,
  color: string,
  widthOf: WidthOf,
): Line {
  const pieces = words.flatMap((word, i) =>
    word.space === null || i === words.length - 1 ? word.pieces : [...word.pieces, word.space],
  )
  const letters: SetLetters[] = []
  let x = 0
  for (const piece of pieces) {
    const last = letters.at(-1)
    if (last !== undefined && sameLook(last, piece)) {
      letters[letters.length - 1] = { ...last, text: last.text + piece.text }
    } else letters.push({ ...piece, x })
    x += lengthOf(piece, widthOf)
  }
  const { size } = lookOf('', paragraph, color)
  const largest = letters.reduce((most, piece) => Math.max(most, piece.size), 0) || size
  const shift =
    paragraph.alignment === 'right' ? width - x : paragraph.alignment === 'center' ? (width - x) / 2 : 0
  return {
    letters: shift === 0 ? letters : letters.map((piece) => ({ ...piece, x: piece.x + shift })),
    height: largest * FONT_HEIGHT * (paragraph.lineHeight ?? LINE_HEIGHT),
    baseline: largest * ASCENT,
  }
}

function sameLook(a: Letters, b: Letters): boolean {
  return a.size === b.size && a.bold === b.bold && a.color === b.color
}
