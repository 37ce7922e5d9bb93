import { PAPERS } from '../reference/paper'
import { PAGE_MARGINS, type ReportContext } from './context'
import type { Block } from './document'
import { heightOf, rowHeights } from './height'

/** How many pages blocks take from the top of one on, estimated from the widths of their letters. */
export function estimatedPages(
  context: Pick<ReportContext, 'options' | 'width'>,
  blocks: readonly Block[],
): number {
  const height = PAPERS[context.options.paper].height - PAGE_MARGINS[1] - PAGE_MARGINS[3]
  let pages = 1
  let used = 0
  for (const part of blocks.flatMap((block) => partsOf(block, context.width))) {
    if (used > 0 && used + part > height) {
      pages++
      used = 0
    }
    used += part
  }
  return pages
}

/** The heights of what is not broken: of a table the rows, else the whole block. */
function partsOf(block: Block, width: number): readonly number[] {
  return 'table' in block && !block.unbreakable ? rowHeights(block, width) : [heightOf([block], width)]
}

/** With less than this under it, a section begins on the next page, points. */
const LEAST_UNDER_HEADING = 60

/** Blocks in which each section, from its heading or the rule above that on, is told to the side that breaks pages. */
export function withSections(blocks: readonly Block[], width: number): readonly Block[] {
  return blocks.map((block, i) =>
    beginsSection(blocks, i) ? { ...block, headlineLevel: leastRoom(blocks.slice(i), width) } : block,
  )
}

/** What a section needs at the foot of a page: where a table stands under its heading, that with its first row. */
function leastRoom(section: readonly Block[], width: number): number {
  // What is not broken moves by itself.
  if (section[0].unbreakable) return 0
  const table = section.findIndex((block) => !('text' in block || 'canvas' in block))
  const found = section[table]
  if (table <= 0 || !('table' in found)) return LEAST_UNDER_HEADING
  const [head, first] = rowHeights(found, width)
  return Math.max(LEAST_UNDER_HEADING, heightOf(section.slice(0, table), width) + head + first)
}

function beginsSection(blocks: readonly Block[], i: number): boolean {
  // A stack that begins with a heading holds all that stands under it.
  const under = i > 0 && !('stack' in blocks[i - 1]) && isHead(blocks[i - 1])
  return !under && isHead(blocks[i])
}

function isHead(block: Block): boolean {
  if ('columns' in block) return block.columns.some(isHead)
  if ('stack' in block) return block.stack.length > 0 && isHead(block.stack[0])
  return 'canvas' in block || ('level' in block && block.level !== undefined)
}
