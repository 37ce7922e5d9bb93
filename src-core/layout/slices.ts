import { PRINT_PALETTE } from '../charts/palette'
import type { Scene } from '../charts/scene'
import type { Block, Columns, PageReference, Paragraph, Rule, Table } from '../report/document'
import { CELL_PADDING, TABLE_RULE } from '../report/parts'
import { linesOf, naturalWidth, type SetLetters, type WidthOf } from './lines'
import { type Element, element, type ElementKind } from './structure'

/** Something drawn, placed from the top left of its slice; what belongs to no element is decoration. */
export type Drawn = { readonly x: number; readonly y: number; readonly element: Element | null } & (
  | { readonly kind: 'letters'; readonly letters: readonly SetLetters[] }
  /** The number of the page on which the block with this id stands. */
  | { readonly kind: 'page-of'; readonly id: string; readonly letters: SetLetters }
  | { readonly kind: 'rule'; readonly length: number; readonly width: number; readonly color: string }
  | { readonly kind: 'scene'; readonly scene: Scene }
)

/** A piece of a column that no page end parts. */
export interface Slice {
  readonly height: number
  /** Free above it, but not at the top of a page. */
  readonly above: number
  readonly below: number
  readonly drawn: readonly Drawn[]
  readonly startsPage?: boolean
  /** Stands on the page of the slice after it. */
  readonly keepsWithNext?: boolean
  /** Comes again above the slice at the top of a page: the heads of a table. */
  readonly heads?: Slice
  readonly ids?: readonly string[]
  readonly bookmarks?: readonly string[]
}

/** How wide a page number is taken to be. */
const PAGE_NUMBER = '00'

/** Blocks under one another as slices of that width; their elements become children of `parent`. */
export function slicesOf(
  blocks: readonly Block[],
  width: number,
  widthOf: WidthOf,
  parent: Element | null,
): readonly Slice[] {
  return blocks.flatMap((block) => blockSlices(block, width, widthOf, parent))
}

export function heightOfSlices(slices: readonly Slice[]): number {
  return slices.reduce((sum, { above, height, below }) => sum + above + height + below, 0)
}

function blockSlices(block: Block, width: number, widthOf: WidthOf, parent: Element | null) {
  const [left, top, right, bottom] = block.margin ?? [0, 0, 0, 0]
  const inner = width - left - right
  const inside = contentSlices(block, inner, widthOf, parent)
  const whole = block.unbreakable ? [oneSlice(inside)] : inside
  return whole.map((slice, i): Slice => {
    const last = i === whole.length - 1
    return {
      ...slice,
      ...(left !== 0 && shiftedSlice(slice, left)),
      above: slice.above + (i === 0 ? top : 0),
      below: slice.below + (last ? bottom : 0),
      ...(i === 0 && block.pageBreak === 'before' && { startsPage: true }),
    }
  })
}

function contentSlices(
  block: Block,
  width: number,
  widthOf: WidthOf,
  parent: Element | null,
): readonly Slice[] {
  if ('text' in block) return paragraphSlices(block, width, widthOf, parent)
  if ('stack' in block) return slicesOf(block.stack, width, widthOf, parent)
  if ('columns' in block) return [columnsSlice(block, width, widthOf, parent)]
  if ('table' in block) return tableSlices(block, width, widthOf, parent)
  if ('scene' in block) {
    const { scene } = block
    const figure = element('Figure', parent, scene.description)
    return [slice(scene.height, [{ kind: 'scene', x: 0, y: 0, element: figure, scene }])]
  }
  if ('canvas' in block) return [ruleSlice(block)]
  return [referenceSlice(block, widthOf, parent)]
}

function slice(height: number, drawn: readonly Drawn[]): Slice {
  return { height, above: 0, below: 0, drawn }
}

/** Shorter paragraphs are not parted. */
const LINES_KEPT_TOGETHER = 4

function paragraphSlices(
  paragraph: Paragraph,
  width: number,
  widthOf: WidthOf,
  parent: Element | null,
  kind = kindOf(paragraph),
): readonly Slice[] {
  const lines = linesOf(paragraph, width, PRINT_PALETTE.ink, widthOf)
  const empty = lines.every(({ letters }) => letters.length === 0)
  const own = empty && kind === 'P' ? null : element(kind, parent)
  const slices = lines.map(({ letters, height, baseline }, i): Slice => ({
    ...slice(
      height,
      letters.length === 0 ? [] : [{ kind: 'letters', x: 0, y: baseline, element: own, letters }],
    ),
    ...(i === 0 && paragraph.id !== undefined && { ids: [paragraph.id] }),
    ...(i === 0 && paragraph.outline && { bookmarks: [textOf(paragraph)] }),
    ...(paragraph.outline && { keepsWithNext: true }),
  }))
  return slices.length <= LINES_KEPT_TOGETHER ? [oneSlice(slices)] : slices
}

function kindOf({ outline, fontSize = 0 }: Paragraph): ElementKind {
  if (!outline) return 'P'
  return fontSize >= TITLE_SIZE ? 'H1' : 'H2'
}

const TITLE_SIZE = 14

function textOf({ text }: Paragraph): string {
  if (typeof text === 'string') return text
  return text.map((run) => (typeof run === 'string' ? run : run.text)).join('')
}

function referenceSlice(reference: PageReference, widthOf: WidthOf, parent: Element | null): Slice {
  const number: Paragraph = { ...reference, text: PAGE_NUMBER }
  const [{ letters, height, baseline }] = linesOf(number, Infinity, PRINT_PALETTE.ink, widthOf)
  const own = element('P', parent)
  const id = reference.pageReference
  return slice(height, [{ kind: 'page-of', x: 0, y: baseline, element: own, id, letters: letters[0] }])
}

function ruleSlice({ canvas }: Rule): Slice {
  return {
    ...slice(
      0,
      canvas.map(({ x1, x2, y1, lineWidth, lineColor }) => ({
        kind: 'rule',
        x: x1,
        y: y1,
        element: null,
        length: x2 - x1,
        width: lineWidth,
        color: lineColor,
      })),
    ),
    keepsWithNext: true,
  }
}

/** Slices under one another as one. */
function oneSlice(slices: readonly Slice[]): Slice {
  if (slices.length === 1) return slices[0]
  const drawn: Drawn[] = []
  let y = 0
  for (const { above, height, below, drawn: own } of slices) {
    y += above
    for (const item of own) drawn.push({ ...item, y: item.y + y })
    y += height + below
  }
  const [first] = slices
  const last = slices.at(-1)
  return {
    height: y,
    above: 0,
    below: 0,
    drawn,
    ids: slices.flatMap(({ ids = [] }) => ids),
    bookmarks: slices.flatMap(({ bookmarks = [] }) => bookmarks),
    ...(first?.startsPage && { startsPage: true }),
    ...(last?.keepsWithNext && { keepsWithNext: true }),
  }
}

function shiftedSlice(slice: Slice, by: number): Pick<Slice, 'drawn' | 'heads'> {
  const { heads } = slice
  return {
    drawn: slice.drawn.map((item) => ({ ...item, x: item.x + by })),
    ...(heads && { heads: { ...heads, ...shiftedSlice(heads, by) } }),
  }
}

/** Columns beside one another; they stay on one page. */
function columnsSlice(
  { columns, columnGap = 0 }: Columns,
  width: number,
  widthOf: WidthOf,
  parent: Element | null,
): Slice {
  const widths = shared(
    columns.map((column) => column.width),
    (i) => blockWidth(columns[i], widthOf),
    width - columnGap * (columns.length - 1),
  )
  let x = 0
  const beside = columns.map((column, i) => {
    const whole = oneSlice(blockSlices(column, widths[i], widthOf, parent))
    const placed: Slice = {
      ...whole,
      drawn: whole.drawn.map((item) => ({ ...item, x: item.x + x, y: item.y + whole.above })),
    }
    x += widths[i] + columnGap
    return placed
  })
  return {
    height: Math.max(0, ...beside.map(({ above, height, below }) => above + height + below)),
    above: 0,
    below: 0,
    drawn: beside.flatMap(({ drawn }) => drawn),
    ids: beside.flatMap(({ ids = [] }) => ids),
    bookmarks: beside.flatMap(({ bookmarks = [] }) => bookmarks),
    ...(beside.some(({ keepsWithNext }) => keepsWithNext) && { keepsWithNext: true }),
  }
}

function blockWidth(block: Block, widthOf: WidthOf): number {
  const [left, , right] = block.margin ?? [0, 0, 0, 0]
  return left + right + contentWidth(block, widthOf)
}

function contentWidth(block: Block, widthOf: WidthOf): number {
  if ('text' in block) return naturalWidth(block, widthOf)
  if ('pageReference' in block) return naturalWidth({ ...block, text: PAGE_NUMBER }, widthOf)
  if ('scene' in block) return block.scene.width
  if ('stack' in block) return Math.max(0, ...block.stack.map((part) => blockWidth(part, widthOf)))
  if (!('columns' in block)) return 0
  const gaps = (block.columnGap ?? 0) * (block.columns.length - 1)
  return block.columns.reduce((sum, column) => sum + blockWidth(column, widthOf), gaps)
}

function tableSlices(
  { table }: Table,
  width: number,
  widthOf: WidthOf,
  parent: Element | null,
): readonly Slice[] {
  const padding = 2 * CELL_PADDING.across
  const widths = shared(
    table.widths,
    (i) => Math.max(...table.body.map((row) => naturalWidth(row[i], widthOf))),
    width - padding * (table.widths.length - 1),
  )
  const own = element('Table', parent)
  const headRows = table.headerRows ?? 0
  const rows = table.body.map((cells, r): Slice => {
    const row = element('TR', own)
    let x = 0
    const beside = cells.map((cell, i) => {
      const kind = r < headRows ? 'TH' : 'TD'
      const { height, drawn } = oneSlice(paragraphSlices(cell, widths[i], widthOf, row, kind))
      const placed = drawn.map((item) => ({ ...item, x: item.x + x, y: item.y + CELL_PADDING.above }))
      x += widths[i] + padding
      return { height, drawn: placed }
    })
    const height = Math.max(...beside.map((cell) => cell.height)) + CELL_PADDING.above + CELL_PADDING.below
    const rule: Drawn = {
      kind: 'rule',
      x: 0,
      y: height + TABLE_RULE / 2,
      element: null,
      length: width,
      width: TABLE_RULE,
      color: PRINT_PALETTE.rule,
    }
    return slice(height + TABLE_RULE, [...beside.flatMap(({ drawn }) => drawn), rule])
  })
  const [heads, ...others] =
    headRows > 0 ? [oneSlice(rows.slice(0, headRows)), ...rows.slice(headRows)] : [null, ...rows]
  if (heads === null) return others
  return [{ ...heads, keepsWithNext: true }, ...others.map((row) => ({ ...row, heads }))]
}

/** The widths of columns: given, as wide as their content ('auto'), or an equal part of what is left. */
function shared(
  wanted: readonly (number | 'auto' | '*' | undefined)[],
  natural: (column: number) => number,
  width: number,
): readonly number[] {
  const fixed = wanted.map((want, i) =>
    typeof want === 'number' ? want : want === 'auto' ? Math.min(natural(i), width) : null,
  )
  const free = width - fixed.reduce<number>((sum, value) => sum + (value ?? 0), 0)
  const parts = fixed.filter((value) => value === null).length
  return fixed.map((value) => value ?? free / parts)
}
