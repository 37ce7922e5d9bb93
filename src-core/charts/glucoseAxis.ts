import type { Settings } from '../model/settings'
import { LIMITS, limitIn, type LimitPair } from '../reference/limits'
import { glucoseDecimals, toMgDl } from '../units/glucose'
import { fixed } from '../units/rounding'
import { glucoseTicks, type GlucoseScale } from './glucoseScale'
import type { Palette } from './palette'
import { spreadApart } from './placeLabels'
import type { SceneNode } from './scene'
import { CENTRED_BASELINE, LETTERS } from './sceneWords'
import type { Words } from '../wording/words'

/** One limit that is drawn across a picture. */
export interface LimitLine {
  readonly mgDl: number
  readonly label: string
  readonly dash: readonly number[]
}

const DASHED = [4, 2.5]
const DOTTED = [1, 2]

/** The target's ends and the two limits of lows, as labelled lines; a target end at 70 is the low's line. */
export function limitLines(
  words: Words,
  settings: Settings,
  wording: 'full' | 'short',
): readonly LimitLine[] {
  const { unit, targetLow, targetHigh } = settings
  const line = (limit: LimitPair, name: string, dash: readonly number[]): LimitLine => ({
    // Where the line stands follows the printed number, so that both agree.
    mgDl: toMgDl(limitIn(limit, unit), unit),
    label: [words.numbers.limitText(limit, unit), name].filter((part) => part !== '').join(' '),
    dash,
  })
  const lines = [
    line(targetHigh, wording === 'full' ? words.pictures.TARGET_ENDS.upper : '', DASHED),
    line(LIMITS.low, words.pictures.LOW, DASHED),
  ]
  const isDrawn = [LIMITS.low, LIMITS.veryLow].some(({ mgDl }) => mgDl === targetLow.mgDl)
  if (!isDrawn) {
    lines.push(line(targetLow, wording === 'full' ? words.pictures.TARGET_ENDS.lower : '', DASHED))
  }
  if (wording === 'full') lines.push(line(LIMITS.veryLow, words.pictures.VERY_LOW, DOTTED))
  return lines
}

/** Where a picture's readings stand, in points. */
export interface Plot {
  readonly left: number
  readonly right: number
  readonly top: number
  readonly bottom: number
}

const TICK_GAP = 11

/** Ticks with their numbers at the left, limits with their words at the right. */
export function glucoseAxis(
  scale: GlucoseScale,
  settings: Settings,
  lines: readonly LimitLine[],
  plot: Plot,
  palette: Palette,
): readonly SceneNode[] {
  const across = { x1: plot.left, x2: plot.right }
  const rule = { color: palette.rule, width: 0.5 }
  const ticks = glucoseTicks(scale, settings.unit, TICK_GAP).flatMap(({ value, y }): SceneNode[] => [
    { kind: 'line', ...across, y1: y, y2: y, stroke: rule },
    {
      kind: 'text',
      x: plot.left - 5,
      y: y + CENTRED_BASELINE * LETTERS,
      text: fixed(value, Number.isInteger(value) ? 0 : glucoseDecimals(settings.unit)),
      size: LETTERS,
      fill: palette.grey,
      anchor: 'end',
    },
  ])
  const heights = lines.map((line) => scale.y(line.mgDl))
  const labelHeights = spreadApart(heights, LETTERS + 0.5)
  const limits = lines.flatMap((line, i): SceneNode[] => [
    {
      kind: 'line',
      ...across,
      y1: heights[i],
      y2: heights[i],
      stroke: { color: palette.ink, width: 0.7, dash: line.dash },
    },
    {
      kind: 'text',
      x: plot.right + 4,
      y: labelHeights[i] + CENTRED_BASELINE * LETTERS,
      text: line.label,
      size: LETTERS,
      fill: palette.ink,
      anchor: 'start',
    },
  ])
  return [
    { kind: 'group', name: 'ticks', nodes: ticks },
    { kind: 'group', name: 'limits', nodes: limits },
  ]
}
