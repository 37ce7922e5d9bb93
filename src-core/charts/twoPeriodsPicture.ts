import type { Analysis, PeriodFigures } from '../analysis/analysis'
import { periodsInOrder } from '../analysis/inOrderOfTime'
import { periodReadings } from '../analysis/periodReadings'
import type { BlockFigures } from '../day/timeOfDay'
import { FLAG, hasClockTime, hasFlag } from '../log/readings'
import { SECONDS_PER_DAY, secondOfDay } from '../units/wallClock'
import { isHardlyTested } from '../statistics/heldBack'
import { blockMedians } from '../told/day'
import { blockMeasure } from '../told/measures'
import { yearsOf } from '../told/years'
import { hasMedian, inPlaceOfMedian } from './blockMarks'
import { type PictureSize } from './dayPicture'
import { glucoseAxis, limitLines, type Plot } from './glucoseAxis'
import { type GlucoseScale, glucoseScale } from './glucoseScale'
import {
  boxAround,
  type Mark,
  MARK,
  marksOf,
  OUTSIDE_STEP,
  outsideTicks,
  reachOf,
  valuesOnScale,
} from './marks'
import type { Palette } from './palette'
import { type LabelRequest, placeLabels } from './placeLabels'
import type { Scene, SceneNode, SceneText } from './scene'
import { textWidth } from './textWidth'
import { CENTRED_BASELINE } from './sceneWords'
import type { Words } from '../wording/words'

/** One of the two periods in the picture. */
export interface Shape {
  readonly figures: PeriodFigures
  /** '1–30 April'. */
  readonly name: string
  /** The period named first has dots and squares, the other open triangles. */
  readonly sign: 'dots' | 'triangles'
}

/** The days of the earlier period and the later; null where one was asked for, or where no reading has a time of day. */
export function dayShapes(words: Words, analysis: Analysis): readonly [Shape, Shape] | null {
  const inOrder = periodsInOrder(analysis)
  if (inOrder === null) return null
  const { earlier, later, firstIsLater } = inOrder
  if (![earlier, later].some(({ timeOfDay }) => timeOfDay.hours.some(({ n }) => n > 0))) return null
  const name = (period: PeriodFigures) => words.comparison.periodName(period, yearsOf(analysis.readings))
  return [
    { figures: earlier, name: name(earlier), sign: firstIsLater ? 'triangles' : 'dots' },
    { figures: later, name: name(later), sign: firstIsLater ? 'dots' : 'triangles' },
  ]
}

const MARGIN = { left: 26, right: 78, top: 36, bottom: 27 }
const SMALL = 7
const TRIANGLE = { size: 3, lowSize: 6, width: 0.5, lowWidth: 1.2 }
const BOX_INSET = 2
const DASH = [2, 1.5]
/** Of more readings in both periods together the lows alone are drawn. */
const MOST_DRAWN = 2_500
const QUESTION = { size: 8, height: 7.5 }

/**
 * The days of two periods in one picture, the earlier at the left of each block of three hours: marks for readings,
 * medians with the middle half. Shape and dashes tell the periods apart; lows are squares and heavy triangles.
 */
export function twoPeriodsPicture(
  words: Words,
  analysis: Analysis,
  shapes: readonly [Shape, Shape],
  { width, height, palette }: PictureSize,
): Scene {
  const { readings, settings } = analysis
  const indexes = shapes.map(({ figures }) =>
    periodReadings(analysis, figures).filter((i) => hasClockTime(readings, i)),
  )
  const all = indexes.flat()
  const above = all.some((i) => hasFlag(readings, i, FLAG.aboveRange))
  const below = all.some((i) => hasFlag(readings, i, FLAG.belowRange))
  const lowsAlone = all.length > MOST_DRAWN
  const frame: Plot = {
    left: MARGIN.left,
    right: width - MARGIN.right,
    top: MARGIN.top,
    bottom: height - MARGIN.bottom - (lowsAlone ? 11 : 0),
  }
  const plot: Plot = {
    ...frame,
    top: frame.top + (above ? OUTSIDE_STEP + 4 : 0),
    bottom: frame.bottom - (below ? OUTSIDE_STEP + 4 : 0),
  }
  const scale = glucoseScale(valuesOnScale(analysis, all), plot.top, plot.bottom)
  const xOf = (second: number) => plot.left + (second / SECONDS_PER_DAY) * (plot.right - plot.left)
  const marks = indexes.map((list) =>
    marksOf(analysis, list, (i) => xOf(secondOfDay(readings.at[i])), scale, plot).filter(
      (mark) => mark.low || !lowsAlone,
    ),
  )
  const [a, b] = shapes
  return {
    width,
    height,
    description: description(words, analysis, shapes),
    nodes: [
      {
        kind: 'group',
        name: 'blocks',
        nodes: a.figures.timeOfDay.blocks.map(({ toHour }) => upright(xOf(toHour * 3600), frame, palette)),
      },
      upright(frame.left, frame, palette),
      ...glucoseAxis(scale, settings, limitLines(words, settings, 'full'), plot, palette),
      ...outsideTicks(plot, { above, below }, palette),
      ...shapes.map((shape, position): SceneNode => ({
        kind: 'group',
        name: `medians of ${shape.sign}`,
        nodes: shape.figures.timeOfDay.blocks.flatMap((block) =>
          blockMarks(block, shape, position, xOf, scale, palette),
        ),
      })),
      ...shapes.map(({ sign }, position): SceneNode => ({
        kind: 'group',
        name: sign,
        nodes: readingNodes(marks[position], sign, palette),
      })),
      { kind: 'group', name: 'questions', nodes: questions(marks.flat(), frame, palette) },
      { kind: 'group', name: 'legend', nodes: legend(shapes, frame.left, palette) },
      { kind: 'group', name: 'columns', nodes: rows(words, analysis, a, b, xOf, frame, palette) },
      ...(lowsAlone
        ? [word(frame.left, height - 2, words.comparison.LOWS_ALONE_NOTE, palette.grey, 'start')]
        : []),
    ],
  }
}

function description(words: Words, analysis: Analysis, shapes: readonly Shape[]): string {
  const { unit } = analysis.settings
  return words.comparison.twoPeriodsDescription(
    shapes.map(({ name, sign, figures }) => ({
      name,
      sign,
      lows: figures.lows.each.length,
      medians: blockMedians(figures.timeOfDay.blocks).map((block) => words.day.blockMedianText(block, unit)),
    })),
    unit,
  )
}

function upright(x: number, frame: Plot, palette: Palette): SceneNode {
  return {
    kind: 'line',
    x1: x,
    x2: x,
    y1: frame.top,
    y2: frame.bottom,
    stroke: { color: palette.rule, width: 0.5 },
  }
}

/** Median and middle half in the left or the right part of the block; dashed for the triangles' period. */
function blockMarks(
  block: BlockFigures,
  { sign }: Shape,
  position: number,
  xOf: (second: number) => number,
  scale: GlucoseScale,
  palette: Palette,
): readonly SceneNode[] {
  const { medianMgDl: median, q1MgDl: q1, q3MgDl: q3 } = block
  if (!hasMedian(block) || median === null || q1 === null || q3 === null) return []
  const begin = xOf(block.fromHour * 3600)
  const half = (xOf(block.toHour * 3600) - begin) / 2
  const left = begin + position * half + BOX_INSET
  const right = begin + (position + 1) * half - BOX_INSET
  const inside = (mgDl: number) => scale.y(Math.min(Math.max(mgDl, scale.low), scale.high))
  const top = inside(q3)
  const middle = inside(median)
  const dashed = sign === 'triangles' ? { dash: DASH } : {}
  return [
    {
      kind: 'rect',
      x: left,
      y: top,
      width: right - left,
      height: Math.max(inside(q1) - top, 0.01),
      stroke: { color: palette.accent, width: 0.8, ...dashed },
    },
    {
      kind: 'line',
      x1: left,
      x2: right,
      y1: middle,
      y2: middle,
      stroke: { color: palette.accent, width: 2.2, ...dashed },
    },
  ]
}

/** Lows last, so that they always lie on top. */
function readingNodes(marks: readonly Mark[], sign: Shape['sign'], palette: Palette): readonly SceneNode[] {
  const others = marks.filter((mark) => !mark.low)
  const lows = marks.filter((mark) => mark.low)
  if (sign === 'dots') {
    return [
      {
        kind: 'dots',
        points: others.map(({ x, y }) => ({ x, y })),
        radius: MARK.dotRadius,
        fill: palette.ink,
      },
      ...lows.map(({ x, y }): SceneNode => ({ kind: 'square', x, y, size: MARK.lowSize, fill: palette.ink })),
    ]
  }
  return [
    ...others.map((mark) => triangle(mark, TRIANGLE.size, TRIANGLE.width, palette)),
    ...lows.map((mark) => triangle(mark, TRIANGLE.lowSize, TRIANGLE.lowWidth, palette)),
  ]
}

function triangle(
  { x, y }: { x: number; y: number },
  size: number,
  width: number,
  palette: Palette,
): SceneNode {
  return { kind: 'triangle', x, y, size, stroke: { color: palette.ink, width } }
}

/** A question mark beside every doubtful reading that has room for one. */
function questions(marks: readonly Mark[], frame: Plot, palette: Palette): readonly SceneNode[] {
  const doubtful = marks.filter((mark) => mark.doubtful)
  const requests = doubtful.map((mark): LabelRequest => ({
    text: '?',
    x: mark.x,
    y: mark.y,
    reach: reachOf(mark),
    width: textWidth('?', QUESTION.size, true),
    height: QUESTION.height,
    furthest: 12,
  }))
  const { placed, left } = placeLabels(
    requests,
    frame,
    marks.filter((mark) => mark.low).map((mark) => boxAround(mark)),
    [],
  )
  const places = [
    ...placed.map(({ box }) => ({ x: box.left, y: (box.top + box.bottom) / 2 })),
    // A mark without its question mark would hide a doubt.
    ...left.map(({ x, y, reach }) => ({ x: x + reach + 1, y })),
  ]
  return places.map(({ x, y }): SceneText => ({
    kind: 'text',
    x,
    y: y + CENTRED_BASELINE * QUESTION.size,
    text: '?',
    size: QUESTION.size,
    fill: palette.ink,
    anchor: 'start',
    bold: true,
    halo: palette.paper,
  }))
}

/** Which marks are which period's, above the plot. */
function legend(shapes: readonly Shape[], left: number, palette: Palette): readonly SceneNode[] {
  const y = 8
  let x = left
  return shapes.flatMap(({ name, sign }, position): SceneNode[] => {
    const label = `${name}${position === 0 ? ' (left)' : ' (right)'}`
    const low = 'low'
    const signs: SceneNode[] =
      sign === 'dots'
        ? [
            { kind: 'circle', x: x + 3, y, radius: 1.6, fill: palette.ink },
            { kind: 'square', x: x + 13 + textWidth(label, 8) + 8, y, size: MARK.lowSize, fill: palette.ink },
          ]
        : [
            triangle({ x: x + 3, y }, 4, TRIANGLE.width, palette),
            triangle(
              { x: x + 13 + textWidth(label, 8) + 8, y },
              TRIANGLE.lowSize,
              TRIANGLE.lowWidth,
              palette,
            ),
          ]
    const nodes: SceneNode[] = [
      ...signs,
      { ...word(x + 10, y + CENTRED_BASELINE * 8, label, palette.ink, 'start'), size: 8 },
      {
        ...word(x + 13 + textWidth(label, 8) + 14, y + CENTRED_BASELINE * 8, low, palette.ink, 'start'),
        size: 8,
      },
    ]
    x += textWidth(label, 8) + 60
    return nodes
  })
}

/** Both medians above the plot, hours and both counts below it, earlier before later. */
function rows(
  words: Words,
  analysis: Analysis,
  a: Shape,
  b: Shape,
  xOf: (second: number) => number,
  frame: Plot,
  palette: Palette,
): readonly SceneNode[] {
  const { unit } = analysis.settings
  const median = (block: BlockFigures) => words.figures.valueText(blockMeasure('medianMgDl', block), unit)
  const top = frame.top - 8
  const atRight = frame.right + 4
  return [
    ...a.figures.timeOfDay.blocks.flatMap((block, i): SceneNode[] => {
      const other = b.figures.timeOfDay.blocks[i]
      const x = xOf(((block.fromHour + block.toHour) / 2) * 3600)
      return [
        isHardlyTested(block) && isHardlyTested(other)
          ? word(x, top, inPlaceOfMedian(words, Math.max(block.n, other.n)), palette.grey, 'middle')
          : {
              ...word(x, top, `${median(block)} → ${median(other)}`, palette.accent, 'middle'),
              size: 8,
              bold: true,
            },
        word(x, frame.bottom + 10, words.day.hoursText(block.fromHour, block.toHour), palette.ink, 'middle'),
        word(x, frame.bottom + 19, `${block.n} → ${other.n}`, palette.grey, 'middle'),
      ]
    }),
    word(atRight, top, 'median', palette.accent, 'start'),
    word(atRight, frame.bottom + 10, 'hours', palette.ink, 'start'),
    word(atRight, frame.bottom + 19, 'readings', palette.grey, 'start'),
  ]
}

function word(x: number, y: number, text: string, fill: string, anchor: SceneText['anchor']): SceneText {
  return { kind: 'text', x, y, text, size: SMALL, fill, anchor }
}
