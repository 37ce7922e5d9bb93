import type { Analysis } from '../analysis/analysis'
import { FLAG, hasFlag, isLow, isMarker } from '../log/readings'
import type { GlucoseScale } from './glucoseScale'
import type { Plot } from './glucoseAxis'
import type { Palette } from './palette'
import { type Avoided, type Box, COVER_PRICE } from './placeLabels'
import type { Point, SceneNode, SceneText } from './scene'

/** How far outside the axis HI and LO stand, points. */
export const OUTSIDE_STEP = 11

/** One reading in a picture. */
export interface Mark {
  /** Index in the logbook. */
  readonly index: number
  readonly x: number
  readonly y: number
  readonly low: boolean
  readonly doubtful: boolean
  /** Index of the repeat that contradicts it. */
  readonly contradictedBy: number | null
}

export const MARK = { dotRadius: 0.95, doubtfulRadius: 1.7, lowSize: 4.6 } as const

/** Half the size of a mark. */
export function reachOf(mark: Mark): number {
  if (mark.low) return MARK.lowSize / 2
  return mark.doubtful ? MARK.doubtfulRadius : MARK.dotRadius
}

/** Height of a reading: on the scale, or one step outside it for HI and LO. */
export function heightOf(analysis: Analysis, index: number, scale: GlucoseScale, plot: Plot): number {
  if (hasFlag(analysis.readings, index, FLAG.belowRange)) return plot.bottom + OUTSIDE_STEP
  if (hasFlag(analysis.readings, index, FLAG.aboveRange)) return plot.top - OUTSIDE_STEP
  return scale.y(analysis.readings.mgDl[index])
}

/** The readings `indexes` as marks, placed by `x` from left to right and by the scale from top to bottom. */
export function marksOf(
  analysis: Analysis,
  indexes: readonly number[],
  x: (index: number) => number,
  scale: GlucoseScale,
  plot: Plot,
): readonly Mark[] {
  const doubtful = new Map(analysis.technique.doubtful.map((reading) => [reading.index, reading]))
  return indexes.map((index) => {
    const doubt = doubtful.get(index)
    const contradiction = doubt?.reasons.find((reason) => reason.code === 'contradicted-by-repeat')
    return {
      index,
      x: x(index),
      y: heightOf(analysis, index, scale, plot),
      low: isLow(analysis.readings, index),
      // What one fault makes doubtful by the dozen is told as a stretch.
      doubtful: analysis.marked.has(index),
      contradictedBy: contradiction ? contradiction.evidence.other : null,
    }
  })
}

/** Values of the readings that have a place on the scale, mg/dL. */
export function valuesOnScale(analysis: Analysis, indexes: readonly number[]): readonly number[] {
  return indexes.filter((i) => !isMarker(analysis.readings, i)).map((i) => analysis.readings.mgDl[i])
}

/** The stems as something that labels avoid. */
export function avoidedStems(marks: readonly Mark[]): readonly Avoided[] {
  return stemEnds(marks).map(([a, b]) => ({
    box: {
      left: Math.min(a.x, b.x) - 0.5,
      right: Math.max(a.x, b.x) + 0.5,
      top: Math.min(a.y, b.y),
      bottom: Math.max(a.y, b.y),
    },
    price: COVER_PRICE.stem,
  }))
}

function stemEnds(marks: readonly Mark[]): readonly (readonly [Mark, Mark])[] {
  const byIndex = new Map(marks.map((mark) => [mark.index, mark]))
  return marks.flatMap((mark): (readonly [Mark, Mark])[] => {
    const other = mark.contradictedBy === null ? undefined : byIndex.get(mark.contradictedBy)
    return other ? [[mark, other]] : []
  })
}

/** Lines from doubtful readings to the repeats that contradict them. */
export function stems(marks: readonly Mark[], palette: Palette): readonly SceneNode[] {
  const stroke = { color: palette.accent, width: 0.9 }
  return stemEnds(marks).map(([a, b]) => ({ kind: 'line', x1: a.x, y1: a.y, x2: b.x, y2: b.y, stroke }))
}

/** From so many marks up, those that lie on one another to half a point are drawn once, all as one node. */
const MANY_MARKS = 1_000

/** Doubtful readings that are no lows, then lows, which always lie on top. */
export function markNodes(marks: readonly Mark[], palette: Palette): readonly SceneNode[] {
  const doubtful = marks.filter((mark) => mark.doubtful && !mark.low)
  const lows = marks.filter((mark) => mark.low)
  const fill = palette.ink
  const radius = MARK.doubtfulRadius
  const size = MARK.lowSize
  return [
    {
      kind: 'group',
      name: 'doubtful',
      nodes:
        doubtful.length > MANY_MARKS
          ? [{ kind: 'dots', points: distinctPoints(doubtful, 2), radius, fill }]
          : doubtful.map(({ x, y }) => ({ kind: 'circle', x, y, radius, fill })),
    },
    {
      kind: 'group',
      name: 'lows',
      nodes:
        lows.length > MANY_MARKS
          ? [{ kind: 'squares', points: distinctPoints(lows, 2), size, fill }]
          : lows.map(({ x, y }) => ({ kind: 'square', x, y, size, fill })),
    },
  ]
}

/** The places of marks, rounded to a part of a point; those that are then the same stand once. */
export function distinctPoints(marks: Iterable<Point>, perPoint: number): readonly Point[] {
  const seen = new Set<number>()
  const points: Point[] = []
  for (const mark of marks) {
    const across = Math.round(mark.x * perPoint)
    const along = Math.round(mark.y * perPoint)
    const place = across * 1e6 + along
    if (seen.has(place)) continue
    seen.add(place)
    points.push({ x: across / perPoint, y: along / perPoint })
  }
  return points
}

/** Words at the left for readings outside the axis. */
export function outsideTicks(
  plot: Plot,
  outside: { readonly above: boolean; readonly below: boolean },
  palette: Palette,
): readonly SceneNode[] {
  const word = (text: string, y: number): SceneText => ({
    kind: 'text',
    x: plot.left - 5,
    y: y + 2.4,
    text,
    size: 7,
    fill: palette.ink,
    anchor: 'end',
    bold: true,
  })
  return [
    ...(outside.above ? [word('HI', plot.top - OUTSIDE_STEP)] : []),
    ...(outside.below ? [word('LO', plot.bottom + OUTSIDE_STEP)] : []),
  ]
}

/** The square around a mark. */
export function boxAround(mark: Mark, reach = reachOf(mark)): Box {
  return { left: mark.x - reach, right: mark.x + reach, top: mark.y - reach, bottom: mark.y + reach }
}
