/** A rectangle in points. */
export interface Box {
  readonly left: number
  readonly top: number
  readonly right: number
  readonly bottom: number
}

/** A label that looks for a place beside its mark. */
export interface LabelRequest {
  readonly text: string
  /** Whether it holds the question mark of a doubtful reading, with its value or alone. */
  readonly question?: 'with-value' | 'alone' | undefined
  /** Centre of the mark and half its size. */
  readonly x: number
  readonly y: number
  readonly reach: number
  readonly width: number
  readonly height: number
  /** How far up or down the label may be shifted from its mark. */
  readonly furthest: number
}

export interface PlacedLabel extends LabelRequest {
  readonly box: Box
}

/** Something that a label may cover at need, for a price in points of way. */
export interface Avoided {
  readonly box: Box
  readonly price: number
}

/** What covering a reading, a stem or a limit's line costs. */
export const COVER_PRICE = { dot: 6, stem: 8, line: 14 } as const

/** A limit's line across the frame, as something to avoid. */
export function avoidedLine(y: number, frame: { readonly left: number; readonly right: number }): Avoided {
  const half = 0.6
  return {
    box: { left: frame.left, right: frame.right, top: y - half, bottom: y + half },
    price: COVER_PRICE.line,
  }
}

/** Room between a mark and its label, points. */
const GAP = 2

export function boxesOverlap(a: Box, b: Box): boolean {
  return a.left < b.right && b.left < a.right && a.top < b.bottom && b.top < a.bottom
}

/**
 * Places labels beside their marks, right or left, shifted up or down as little as needed. No label covers
 * another, a box of `forbidden`, or leaves `frame`; what is `avoided` is covered only where it spares a long
 * way. Labels without a place come back in `left`. The same requests give the same places.
 */
export function placeLabels(
  requests: readonly LabelRequest[],
  frame: Box,
  forbidden: readonly Box[],
  avoided: readonly Avoided[],
): { readonly placed: readonly PlacedLabel[]; readonly left: readonly LabelRequest[] } {
  const placed: PlacedLabel[] = []
  const left: LabelRequest[] = []
  for (const request of requests) {
    const around = surroundings(request)
    const near = (box: Box) => boxesOverlap(box, around)
    const taken = [...forbidden, ...placed.map((label) => label.box)].filter(near)
    const unwelcome = avoided.filter((thing) => near(thing.box))
    let best: Box | null = null
    let bestPrice = Infinity
    for (const { box, price } of candidates(request)) {
      if (price >= bestPrice || !isInside(box, frame) || taken.some((other) => boxesOverlap(box, other)))
        continue
      const covered = unwelcome.filter((thing) => boxesOverlap(box, thing.box))
      const total = covered.reduce((sum, thing) => sum + thing.price, price)
      if (total < bestPrice) {
        best = box
        bestPrice = total
      }
    }
    if (best) placed.push({ ...request, box: best })
    else left.push(request)
  }
  return { placed, left }
}

function* candidates(request: LabelRequest): Iterable<{ box: Box; price: number }> {
  const step = request.height / 4
  for (let shift = 0; shift <= request.furthest; shift += step) {
    for (const direction of shift === 0 ? [0] : [1, -1]) {
      const top = request.y - request.height / 2 + direction * shift
      for (const side of ['right', 'left'] as const) {
        const left =
          side === 'right' ? request.x + request.reach + GAP : request.x - request.reach - GAP - request.width
        yield {
          box: { left, top, right: left + request.width, bottom: top + request.height },
          // Equal places: the right before the left, below before above.
          price: shift + (side === 'left' ? 0.2 : 0) + (direction < 0 ? 0.1 : 0),
        }
      }
    }
  }
}

/** All places that a label may take. */
function surroundings({ x, y, reach, width, height, furthest }: LabelRequest): Box {
  const across = reach + GAP + width
  const along = height / 2 + furthest
  return { left: x - across, right: x + across, top: y - along, bottom: y + along }
}

function isInside(box: Box, frame: Box): boolean {
  return (
    box.left >= frame.left && box.right <= frame.right && box.top >= frame.top && box.bottom <= frame.bottom
  )
}

/**
 * Moves centres apart until neighbours are at least `gap` from each other, each as little as possible from
 * where it was; the order stays. Returned in the order given.
 */
export function spreadApart(centres: readonly number[], gap: number): readonly number[] {
  const order = centres.map((_, index) => index).sort((a, b) => centres[a] - centres[b] || a - b)
  // Neighbours that touch form a block whose middle stays where the middle of its members was.
  const blocks: { members: number[]; middle: number }[] = []
  for (const index of order) {
    let block = { members: [index], middle: centres[index] }
    for (let before = blocks.at(-1); before && tooClose(before, block, gap); before = blocks.at(-1)) {
      blocks.pop()
      const members = [...before.members, ...block.members]
      block = { members, middle: members.reduce((sum, i) => sum + centres[i], 0) / members.length }
    }
    blocks.push(block)
  }
  const result = [...centres]
  for (const { members, middle } of blocks) {
    members.forEach((index, i) => (result[index] = middle + (i - (members.length - 1) / 2) * gap))
  }
  return result
}

function tooClose(
  a: { readonly members: readonly number[]; readonly middle: number },
  b: { readonly members: readonly number[]; readonly middle: number },
  gap: number,
): boolean {
  return b.middle - a.middle < ((a.members.length + b.members.length) / 2) * gap
}
