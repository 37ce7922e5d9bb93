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

/** Blocks in which each section, from its heading or the rule above that on, is told to the side that breaks pages. */
export function withSections(blocks: readonly Block[]): readonly Block[] {
  return blocks.map((block, i) => (beginsSection(blocks, i) ? { ...block, headlineLevel: 1 } : block))
}

function beginsSection(blocks: readonly Block[], i: number): boolean {
  const under = i > 0 && isHead(blocks[i - 1])
  return !under && isHead(blocks[i])
}

function isHead(block: Block): boolean {
  if ('columns' in block) return block.columns.some(isHead)
  if ('stack' in block) return block.stack.length > 0 && isHead(block.stack[0])
  return 'canvas' in block || ('level' in block && block.level !== undefined)
}
