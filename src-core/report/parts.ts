import { PRINT_PALETTE } from '../charts/palette'
import type { Scene } from '../charts/scene'
import { sceneToSvg } from '../charts/sceneToSvg'
import type { Phrase } from '../wording/phrases'
import type { Block, Columns, Inline, Margin, Paragraph, Picture, Rule, Table, TextStyle } from './document'

/** Sizes of type, points. */
export const TYPE = {
  title: 17,
  heading: 10.5,
  figure: 21,
  /** All of the first page, and what on it is the person's to fill in or to heed. */
  first: 9.5,
  person: 10,
  /** What is not known of the day. */
  covered: 13,
  body: 8.4,
  small: 7.4,
} as const

/** Height of a line, in lines of the type. */
export const LINE_HEIGHT = 1
/** Around the text of a table's cells, points; the outer edges have none. */
export const CELL_PADDING = { above: 1.4, below: 1.2, across: 5 } as const
/** In a table of many columns and rows. */
export const CLOSE_PADDING = { above: 0.6, below: 0.3, across: 2 } as const
/** Thickness of the rule under a table's row, points. */
export const TABLE_RULE = 0.5
/** Boxes to write in: thickness of their rules and what is left free beside them, points. */
export const BOX = { rule: 1, across: 2 } as const

const SPACE = { beforeRule: 4, afterRule: 2 } as const

/** A section's rule and heading; bookmarked. */
export function sectionHeading(title: string, width: number, id?: string): readonly [Rule, Paragraph] {
  const rule = ruleAcross(width, [0, SPACE.beforeRule, 0, SPACE.afterRule])
  return [rule, { ...heading(title, id), margin: [0, 0, 0, 2] }]
}

/** A heading without a rule above it. */
export function heading(title: string, id?: string): Paragraph {
  return {
    text: title,
    bold: true,
    fontSize: TYPE.heading,
    outline: true,
    level: 2,
    margin: [0, 8, 0, 2],
    ...(id ? { id } : {}),
  }
}

/** A scene at its own size. */
export function picture(scene: Scene): Picture {
  return { svg: sceneToSvg(scene), alt: scene.description, width: scene.width, height: scene.height }
}

export function ruleAcross(width: number, margin: Margin): Rule {
  return {
    canvas: [{ type: 'line', x1: 0, y1: 0, x2: width, y2: 0, lineWidth: 0.7, lineColor: PRINT_PALETTE.ink }],
    margin,
  }
}

export function paragraph(
  words: string | readonly Phrase[],
  style: TextStyle & { margin?: Margin } = {},
): Paragraph {
  return { text: typeof words === 'string' ? words : runs(words), margin: [0, 0, 0, 3], ...style }
}

export function greyParagraph(words: string, style: TextStyle & { margin?: Margin } = {}): Paragraph {
  return paragraph(words, { color: PRINT_PALETTE.grey, ...style })
}

export function runs(words: readonly Phrase[]): readonly Inline[] {
  return words.map((word) => (typeof word === 'string' ? word : { text: word.strong, bold: true }))
}

/** 'Doubtful readings: page' 3, in one line. */
export function pageReferences(
  places: readonly { readonly words: string; readonly id: string }[],
  style: TextStyle = {},
): Columns {
  // A width that is off by the last digit of a sum would break the line.
  const grey = { width: 'auto', color: PRINT_PALETTE.grey, noWrap: true, ...style } as const
  return {
    columns: places.flatMap(({ words, id }, i) => [
      { text: words, ...grey, ...(i > 0 && { margin: [12, 0, 0, 0] as const }) },
      { pageReference: id, ...grey },
    ]),
    columnGap: 2.5,
  }
}

type Width = number | 'auto' | '*'
export interface ColumnHead {
  readonly title: string
  readonly width: Width
  readonly align?: 'right'
}

/** A column of this width whose cells end at its right. */
export const right = (width: Width) => ({ width, align: 'right' }) as const

/** The heads of columns of these widths. */
export function heads(
  titles: readonly string[],
  columns: readonly (Width | ReturnType<typeof right>)[],
): readonly ColumnHead[] {
  return columns.map((column, i) => ({
    title: titles[i],
    ...(typeof column === 'object' ? column : { width: column }),
  }))
}

/** A table with grey heads that come again on every page, thin rules under its rows. */
export function table(
  heads: readonly ColumnHead[],
  rows: readonly (readonly (string | readonly Inline[])[])[],
  style: TextStyle & { margin?: Margin; layout?: 'closeColumns' } = {},
): Table {
  const { margin = [0, 0, 0, 4] as const, layout = 'thinRules', ...text } = style
  const alignment = (head: ColumnHead) => ({ alignment: head.align ?? ('left' as const) })
  return {
    table: {
      widths: heads.map((head) => head.width),
      headerRows: 1,
      keepWithHeaderRows: 1,
      dontBreakRows: true,
      body: [
        heads.map((head) => ({ text: head.title, color: PRINT_PALETTE.grey, ...text, ...alignment(head) })),
        ...rows.map((row) => row.map((cell, i) => ({ text: cell, ...text, ...alignment(heads[i]) }))),
      ],
    },
    layout,
    margin,
  }
}

/** Between two columns of text, points. */
export const COLUMN_GAP = 18

/** Blocks in two columns; one of them alone takes the whole width. */
export function besideEachOther(
  left: readonly Block[],
  right: readonly Block[],
  leftWidth: number | '*' = '*',
): readonly Block[] {
  if (left.length === 0 || right.length === 0) return [...left, ...right]
  return [
    {
      columns: [
        { stack: left, width: leftWidth },
        { stack: right, width: '*' },
      ],
      columnGap: COLUMN_GAP,
    },
  ]
}

/** The blocks from the top of a page on. */
export function onNewPage(blocks: readonly Block[]): readonly Block[] {
  if (blocks.length === 0) return []
  const [first, ...rest] = blocks
  return [{ ...first, pageBreak: 'before', margin: [0, 0, 0, 3] }, ...rest]
}
