import { PAPERS } from '../reference/paper'
import { PAGE_MARGINS, type ReportContext } from './context'
import type { Block } from './document'
import { heightOf, rowHeights } from './height'

/** With less than this under it, a heading goes to the next page, points (design choice: seven lines). */
const LEAST_UNDER_HEADING = 80
const MOST_BLOCKS_UNDER_HEADING = 6

/** Blocks with the page breaks that they need. */
export interface Flow {
  readonly blocks: readonly Block[]
  readonly pages: number
  /** How far the last page is filled, as a share of its height. */
  readonly lastFill: number
}

/**
 * Blocks from the top of a page on, where no heading stands alone at the foot. Where a page ends is estimated from the
 * widths of the letters.
 */
export function flow(context: Pick<ReportContext, 'options' | 'width'>, blocks: readonly Block[]): Flow {
  const height = PAPERS[context.options.paper].height - PAGE_MARGINS[1] - PAGE_MARGINS[3]
  const parts = blocks.map((block) => partsOf(block, context.width))
  let pages = 1
  let used = 0
  const turn = () => {
    pages++
    used = 0
  }
  const placed = blocks.map((block, i): Block => {
    const lacksRoom = used > 0 && beginsSection(blocks, i) && used + leastFrom(parts, i) > height
    if (lacksRoom || (i > 0 && block.pageBreak === 'before')) turn()
    for (const part of parts[i]) {
      if (used > 0 && used + part > height) turn()
      used += part
    }
    return lacksRoom ? { ...block, pageBreak: 'before' } : block
  })
  return { blocks: placed, pages, lastFill: used / height }
}

/** A heading, or the rule above one. */
function beginsSection(blocks: readonly Block[], i: number): boolean {
  const under = i > 0 && ('canvas' in blocks[i - 1] || isHeading(blocks[i - 1]))
  return !under && ('canvas' in blocks[i] || isHeading(blocks[i]))
}

function isHeading(block: Block): boolean {
  return 'columns' in block ? block.columns.some(isHeading) : 'level' in block && block.level !== undefined
}

/** What has to stand together at least, from a heading on. */
function leastFrom(parts: readonly (readonly number[])[], i: number): number {
  let height = 0
  for (const part of parts.slice(i, i + MOST_BLOCKS_UNDER_HEADING).flat()) {
    height += part
    if (height >= LEAST_UNDER_HEADING) break
  }
  return height
}

/** The heights of what is not broken: of a table the rows, the first with the heads, else the whole block. */
function partsOf(block: Block, width: number): readonly number[] {
  if (block.unbreakable || !('table' in block)) return [heightOf([block], width)]
  const [heads, first = 0, ...rows] = rowHeights(block, width)
  return [heads + first, ...rows]
}
