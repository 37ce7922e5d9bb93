import type { Drawn, Slice } from './slices'

/** A page's content, placed from the top left of the paper. */
export interface Page {
  readonly drawn: readonly Drawn[]
}

export interface Pages {
  readonly pages: readonly Page[]
  /** Page of each block with an id, from 1. */
  readonly pageOf: ReadonlyMap<string, number>
  readonly bookmarks: readonly Bookmark[]
}

export interface Bookmark {
  readonly title: string
  /** From 1. */
  readonly page: number
  /** From the top of the paper, points. */
  readonly y: number
}

/** The part of a page that its content fills, points from the top left of the paper. */
export interface Frame {
  readonly left: number
  readonly top: number
  readonly bottom: number
}

/** A heading needs room for so much of what follows it, points. */
const KEPT_AFTER_HEADING = 44
/** Sums of heights differ in their last digits. */
const TOLERANCE = 0.01

/** Slices under one another on as many pages as they need. */
export function pagesOf(slices: readonly Slice[], frame: Frame): Pages {
  const pages: Drawn[][] = [[]]
  const pageOf = new Map<string, number>()
  const bookmarks: Bookmark[] = []
  let y = frame.top
  let gap = 0
  const place = ({ drawn, ids = [], bookmarks: titles = [] }: Slice, decoration = false) => {
    for (const item of drawn) {
      pages[pages.length - 1].push({
        ...item,
        x: item.x + frame.left,
        y: item.y + y,
        ...(decoration && { element: null }),
      })
    }
    for (const id of ids) pageOf.set(id, pages.length)
    for (const title of titles) bookmarks.push({ title, page: pages.length, y })
  }
  slices.forEach((slice, i) => {
    const atTop = pages[pages.length - 1].length === 0
    const needed = gap + slice.above + slice.height + keptAfter(slices, i)
    const full = !atTop && y + needed > frame.bottom + TOLERANCE && needed - gap < frame.bottom - frame.top
    const overflows = !atTop && y + gap + slice.above + slice.height > frame.bottom + TOLERANCE
    if (!atTop && (slice.startsPage || full || overflows)) {
      pages.push([])
      y = frame.top
      gap = 0
      if (slice.heads !== undefined) {
        place(slice.heads, true)
        y += slice.heads.height
      } else if (slice.startsPage) y += slice.above
    } else y += gap + slice.above
    place(slice)
    y += slice.height
    gap = slice.below
  })
  return { pages: pages.map((drawn) => ({ drawn })), pageOf, bookmarks }
}

/** Height of what has to stand below slice `i` on its page. */
function keptAfter(slices: readonly Slice[], i: number): number {
  let kept = 0
  let { below } = slices[i]
  for (let next = i; slices[next].keepsWithNext || (kept > 0 && kept < KEPT_AFTER_HEADING); next++) {
    const after = slices.at(next + 1)
    if (after === undefined || after.startsPage) break
    kept += below + after.above + after.height
    below = after.below
  }
  return kept
}
