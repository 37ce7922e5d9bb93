import type { BlockFigures } from '../day/timeOfDay'
import { FEWEST_BLOCK_READINGS, isHardlyTested, standsAt } from '../statistics/heldBack'
import type { GlucoseScale } from './glucoseScale'
import type { Palette } from './palette'
import type { SceneNode } from './scene'
import type { Words } from '../wording/words'

const INSET = 3
const WHISKER = { width: 1, cap: 2.5 } as const

/** Whether a block has readings enough for a median, and it is a number: HI and LO have no place on the axis. */
export function hasMedian(block: BlockFigures): boolean {
  return !isHardlyTested(block) && standsAt(0.5, block) === 'number'
}

/** What stands in place of the median of a block with so many readings. */
export function inPlaceOfMedian({ pictures }: Words, n: number): string {
  if (n === 0) return pictures.NOT_TESTED
  return n < FEWEST_BLOCK_READINGS ? pictures.HARDLY_TESTED : pictures.FEW_DAYS
}

/** Whether a block's picture shows how well its median is known. */
export function hasWhisker(block: BlockFigures): boolean {
  return hasMedian(block) && block.ci95.medianMgDl !== null
}

/** Median, middle half and the median's 95 % interval of one block; nothing where it was hardly tested. */
export function blockMarks(
  block: BlockFigures,
  xOf: (second: number) => number,
  scale: GlucoseScale,
  palette: Palette,
): readonly SceneNode[] {
  if (!hasMedian(block) || block.medianMgDl === null || block.q1MgDl === null || block.q3MgDl === null)
    return []
  const left = xOf(block.fromHour * 3600) + INSET
  const right = xOf(block.toHour * 3600) - INSET
  // A quartile at a meter's limit may lie outside the axis; the outline ends there.
  const inside = (mgDl: number) => scale.y(Math.min(Math.max(mgDl, scale.low), scale.high))
  const top = inside(block.q3MgDl)
  const middle = inside(block.medianMgDl)
  return [
    {
      kind: 'rect',
      x: left,
      y: top,
      width: right - left,
      height: Math.max(inside(block.q1MgDl) - top, 0.01),
      stroke: { color: palette.accent, width: 0.7 },
    },
    {
      kind: 'line',
      x1: left,
      x2: right,
      y1: middle,
      y2: middle,
      stroke: { color: palette.accent, width: 2.2 },
    },
    ...whisker(block, (left + right) / 2, inside, palette),
  ]
}

function whisker(
  { ci95 }: BlockFigures,
  x: number,
  inside: (mgDl: number) => number,
  palette: Palette,
): readonly SceneNode[] {
  if (ci95.medianMgDl === null) return []
  const [bottom, top] = ci95.medianMgDl.map(inside)
  const stroke = { color: palette.accent, width: WHISKER.width }
  const cap = (y: number): SceneNode => ({
    kind: 'line',
    x1: x - WHISKER.cap,
    x2: x + WHISKER.cap,
    y1: y,
    y2: y,
    stroke,
  })
  return [{ kind: 'line', x1: x, x2: x, y1: top, y2: bottom, stroke }, cap(top), cap(bottom)]
}
