import { textWidth } from '../charts/textWidth'
import { heightOfSlices, slicesOf } from '../layout/slices'
import type { Block } from './document'

/** Height in points that blocks take in a column of that width. */
export function heightOf(blocks: readonly Block[], width: number): number {
  return heightOfSlices(slicesOf(blocks, width, textWidth, null))
}

/** Blocks up to this height are moved to the next page rather than parted, points. */
const TALLEST_KEPT_TOGETHER = 430

/** A heading with what follows it: on one page where that is possible. */
export function keptTogether(blocks: readonly Block[], width: number): readonly Block[] {
  if (heightOf(blocks, width) > TALLEST_KEPT_TOGETHER) return blocks
  return [{ stack: blocks, unbreakable: true }]
}
