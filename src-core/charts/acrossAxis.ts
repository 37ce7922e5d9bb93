import type { Settings } from '../model/settings'
import { FLAG, hasFlag, type Readings } from '../log/readings'
import { fixed } from '../units/rounding'
import { limitLines, type Plot } from './glucoseAxis'
import { type GlucoseScale, glucoseScale, glucoseTicks } from './glucoseScale'
import type { Palette } from './palette'
import { spreadApart } from './placeLabels'
import type { SceneNode, SceneText } from './scene'
import { textWidth } from './textWidth'
import { LETTERS } from './sceneWords'
import { glucoseDecimals } from '../units/glucose'
import type { Words } from '../wording/words'

const TICK_GAP = 24
/** How far beside the axis LO and HI stand. */
const OUTSIDE = 12

/** The ratio scale of glucose from left to right. */
export interface AcrossScale {
  readonly scale: GlucoseScale
  readonly x: (mgDl: number) => number
}

export function acrossScale(values: Iterable<number>, plot: Plot): AcrossScale {
  const scale = glucoseScale(values, plot.right, plot.left)
  return { scale, x: (mgDl) => scale.y(mgDl) }
}

/** Place of a reading: on the scale, or beside it for LO and HI. */
export function placeAcross(readings: Readings, index: number, { x }: AcrossScale, plot: Plot): number {
  if (hasFlag(readings, index, FLAG.belowRange)) return plot.left - OUTSIDE
  if (hasFlag(readings, index, FLAG.aboveRange)) return plot.right + OUTSIDE
  return x(readings.mgDl[index])
}

/** Ticks with their numbers below, limits as labelled upright lines, words for LO and HI. */
export function acrossAxis(
  words: Words,
  across: AcrossScale,
  settings: Settings,
  plot: Plot,
  outside: { readonly below: boolean; readonly above: boolean },
  palette: Palette,
): readonly SceneNode[] {
  const upright = (x: number, color: string, width: number, dash?: readonly number[]): SceneNode => ({
    kind: 'line',
    x1: x,
    x2: x,
    y1: plot.top,
    y2: plot.bottom,
    stroke: { color, width, ...(dash && { dash }) },
  })
  const word = (text: string, x: number, y: number, fill: string): SceneText => ({
    kind: 'text',
    x,
    y,
    text,
    size: LETTERS,
    fill,
    anchor: 'middle',
  })
  const below = plot.bottom + LETTERS + 3
  const ticks = glucoseTicks(across.scale, settings.unit, TICK_GAP).flatMap(({ value, y }) => [
    upright(y, palette.rule, 0.5),
    word(fixed(value, Number.isInteger(value) ? 0 : glucoseDecimals(settings.unit)), y, below, palette.grey),
  ])
  const lines = limitLines(words, settings, 'short').map((line) => ({ ...line, x: across.x(line.mgDl) }))
  const widest = Math.max(...lines.map(({ label }) => textWidth(label, LETTERS)))
  const places = spreadApart(
    lines.map(({ x }) => x),
    widest + 4,
  )
  return [
    { kind: 'group', name: 'ticks', nodes: ticks },
    {
      kind: 'group',
      name: 'limits',
      nodes: lines.flatMap(({ x, dash, label }, i) => [
        upright(x, palette.ink, 0.7, dash),
        word(label, places[i], plot.top - 4, palette.ink),
      ]),
    },
    ...(outside.below ? [word('LO', plot.left - OUTSIDE, below, palette.ink)] : []),
    ...(outside.above ? [word('HI', plot.right + OUTSIDE, below, palette.ink)] : []),
  ]
}
