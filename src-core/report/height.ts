import { textWidth } from '../charts/textWidth'
import type { Block, Columns, Inline, Paragraph, Table } from './document'
import { BOX, CELL_PADDING, CLOSE_PADDING, LINE_HEIGHT, TABLE_RULE, TYPE } from './parts'

/** Height of a line of Source Sans 3 as a share of its size: ascender 1000, descender 326. */
export const FONT_HEIGHT = 1.326

/**
 * Height in points that blocks take in a column of that width, from the widths of the letters. The PDF library
 * breaks lines a little tighter now and then, so this is an upper estimate rather than a measure.
 */
export function heightOf(blocks: readonly Block[], width: number): number {
  return blocks.reduce((sum, block) => sum + blockHeight(block, width), 0)
}

/** How many words with a letter in them blocks hold, those of pictures left out. */
export function wordCount(blocks: readonly Block[]): number {
  return blocks.reduce((sum, block) => {
    if ('text' in block) return sum + wordsOf(block).filter(({ text }) => /\p{L}/u.test(text)).length
    if ('stack' in block) return sum + wordCount(block.stack)
    if ('columns' in block) return sum + wordCount(block.columns)
    return 'table' in block ? sum + wordCount(block.table.body.flat()) : sum
  }, 0)
}

/** Blocks up to this height are moved to the next page rather than parted, points. */
const TALLEST_KEPT_TOGETHER = 430

/** A heading with what follows it: on one page unless it is tall. */
export function keptTogether(blocks: readonly Block[], width: number): readonly Block[] {
  return heightOf(blocks, width) <= TALLEST_KEPT_TOGETHER ? [{ stack: blocks, unbreakable: true }] : blocks
}

function blockHeight(block: Block, width: number): number {
  const [left, top, right, bottom] = block.margin ?? [0, 0, 0, 0]
  return top + bottom + contentHeight(block, width - left - right)
}

function contentHeight(block: Block, width: number): number {
  if ('text' in block) return paragraphHeight(block, width)
  if ('stack' in block) return heightOf(block.stack, width)
  if ('columns' in block) return columnsHeight(block, width)
  if ('table' in block) return rowHeights(block, width).reduce((sum, row) => sum + row, 0)
  if ('svg' in block) return block.height
  return 'pageReference' in block ? lineHeight(block.fontSize) : 0
}

function lineHeight(size: number = TYPE.body): number {
  return size * FONT_HEIGHT * LINE_HEIGHT
}

function paragraphHeight(paragraph: Paragraph, width: number): number {
  const largest = Math.max(
    ...inlines(paragraph).map((run) => (typeof run === 'string' ? 0 : (run.fontSize ?? 0))),
  )
  return linesOf(paragraph, width) * lineHeight(largest > 0 ? largest : paragraph.fontSize)
}

/** How many lines the words take, each put on the current line where it has room. */
function linesOf(paragraph: Paragraph, width: number): number {
  let lines = 1
  let used = 0
  for (const { text, size, bold, furtherBlanks } of wordsOf(paragraph)) {
    const space = textWidth(' ', size)
    const length = textWidth(text, size, bold)
    used += furtherBlanks * space
    if (used > 0 && !paragraph.noWrap && used + length > width) {
      lines++
      used = 0
    }
    used += length + space
  }
  return lines
}

function wordsOf(paragraph: Paragraph) {
  return inlines(paragraph).flatMap((run) => {
    const { text, fontSize, bold } = typeof run === 'string' ? { text: run } : run
    const size = fontSize ?? paragraph.fontSize ?? TYPE.body
    return (text.match(/\s*\S+/g) ?? []).map((found) => {
      const word = found.trimStart()
      // Every blank before a word is drawn, the first of them is counted behind the word before.
      const furtherBlanks = Math.max(0, found.length - word.length - 1)
      return { text: word, size, bold: bold ?? paragraph.bold, furtherBlanks }
    })
  })
}

function inlines({ text }: Paragraph): readonly Inline[] {
  return typeof text === 'string' ? [text] : text
}

function columnsHeight({ columns, columnGap = 0 }: Columns, width: number): number {
  const gaps = columnGap * (columns.length - 1)
  const wanted = columns.map((column) => ('width' in column ? column.width : undefined))
  const natural = columns.map((column) => ('text' in column ? naturalWidth(column) : 0))
  const widths = shared(wanted, natural, width - gaps)
  return Math.max(0, ...columns.map((column, i) => blockHeight(column, widths[i])))
}

/** Height of each row of a table, that of the heads first; a table that is framed has its upper rule in the first. */
export function rowHeights({ table, layout }: Table, width: number): readonly number[] {
  const around = layout === 'closeColumns' ? CLOSE_PADDING : CELL_PADDING
  const inner = 2 * around.across * (table.widths.length - 1)
  const boxed = 2 * BOX.across * table.widths.length + BOX.rule * (table.widths.length + 1)
  const [rule, padding, top] = layout === 'boxes' ? [BOX.rule, boxed, BOX.rule] : [TABLE_RULE, inner, 0]
  const natural = table.widths.map((_, i) => Math.max(...table.body.map((row) => naturalWidth(row[i]))))
  const widths = shared(table.widths, natural, width - padding)
  return table.body.map(
    (row, i) =>
      Math.max(...row.map((cell, column) => paragraphHeight(cell, widths[column]))) +
      around.above +
      around.below +
      rule +
      (i === 0 ? top : 0),
  )
}

function naturalWidth(paragraph: Paragraph): number {
  const words = wordsOf(paragraph)
  return words.reduce((sum, { text, size, bold }) => sum + textWidth(`${text} `, size, bold), 0)
}

/** The widths of columns: given, as wide as their text ('auto'), or an equal part of what is left. */
function shared(
  wanted: readonly (number | 'auto' | '*' | undefined)[],
  natural: readonly number[],
  width: number,
): readonly number[] {
  const fixed = wanted.map((want, i) =>
    typeof want === 'number' ? want : want === 'auto' ? natural[i] : null,
  )
  const free = width - fixed.reduce<number>((sum, value) => sum + (value ?? 0), 0)
  const parts = fixed.filter((value) => value === null).length
  return fixed.map((value) => value ?? free / parts)
}
