import type { Analysis } from '../analysis/analysis'
import { FLAG, hasClockTime, hasFlag } from '../log/readings'
import { SECONDS_PER_DAY } from '../units/wallClock'
import type { PictureSize } from './dayPicture'
import { glucoseAxis, limitLines, type Plot } from './glucoseAxis'
import { glucoseScale } from './glucoseScale'
import {
  avoidedStems,
  boxAround,
  type Mark,
  markNodes,
  marksOf,
  OUTSIDE_STEP,
  outsideTicks,
  reachOf,
  stems,
  valuesOnScale,
} from './marks'
import { avoidedLine, type LabelRequest, placeLabels } from './placeLabels'
import type { Scene, SceneNode } from './scene'
import { textWidth } from './textWidth'
import { CENTRED_BASELINE } from './sceneWords'
import { yearsOf } from '../told/years'
import type { Words } from '../wording/words'

/** Hours shown before and after the reading. */
const HOURS_EACH_SIDE = 12
/** What covering a limit's line costs here, in points of way. */
const LINE_PRICE = 2
const HOURS_PER_TICK = 4
const SECONDS_PER_HOUR = 3600
const USUAL = { low: 60, high: 230 }
const MARGIN = { left: 24, right: 30, top: 5, bottom: 14 }
const SMALL = 7
const VALUE = { size: 7.2, height: 7.5 }
const QUESTION_SIZE = 8.5
const CONTEXT_DOT_RADIUS = 1.7
/** With more readings than this only the doubtful one and its repeats carry their values. */
const MOST_VALUES = 12

/** The hours around one reading of the logbook, whichever meter the others come from. */
export function contextPicture(words: Words, analysis: Analysis, index: number, size: PictureSize): Scene {
  const { readings, settings } = analysis
  const centre = readings.at[index]
  const from = centre - HOURS_EACH_SIDE * SECONDS_PER_HOUR
  const to = centre + HOURS_EACH_SIDE * SECONDS_PER_HOUR
  const indexes = readingsAround(analysis, index)
  const outside = {
    above: indexes.some((i) => hasFlag(readings, i, FLAG.aboveRange)),
    below: indexes.some((i) => hasFlag(readings, i, FLAG.belowRange)),
  }
  const plot: Plot = {
    left: MARGIN.left,
    right: size.width - MARGIN.right,
    top: MARGIN.top + (outside.above ? OUTSIDE_STEP : 0),
    bottom: size.height - MARGIN.bottom - (outside.below ? OUTSIDE_STEP : 0),
  }
  const scale = glucoseScale(valuesOnScale(analysis, indexes), plot.top, plot.bottom, USUAL)
  const xOf = (at: number) => plot.left + ((at - from) / (to - from)) * (plot.right - plot.left)
  const marks = marksOf(analysis, indexes, (i) => xOf(readings.at[i]), scale, plot)
  const plain = marks.filter((mark) => !mark.low && !mark.doubtful)
  const lines = limitLines(words, settings, 'short')
  const lineHeights = lines.map((line) => scale.y(line.mgDl))
  return {
    width: size.width,
    height: size.height,
    description: words.day.contextPictureDescription(
      readings,
      index,
      indexes.filter((i) => i !== index),
      settings.unit,
      yearsOf(readings),
    ),
    nodes: [
      ...glucoseAxis(scale, settings, lines, plot, size.palette),
      ...outsideTicks(plot, outside, size.palette),
      { kind: 'group', name: 'hours', nodes: hourTicks(from, to, xOf, size) },
      { kind: 'group', name: 'stems', nodes: stems(marks, size.palette) },
      {
        kind: 'dots',
        points: plain.map(({ x, y }) => ({ x, y })),
        radius: CONTEXT_DOT_RADIUS,
        fill: size.palette.ink,
      },
      ...markNodes(marks, size.palette),
      {
        kind: 'group',
        name: 'labels',
        nodes: valueLabels(words, analysis, index, marks, plot, lineHeights, size),
      },
    ],
  }
}

/** Indexes of the readings that the picture shows, in order of time. */
export function readingsAround(analysis: Analysis, index: number): readonly number[] {
  const { readings } = analysis
  const from = readings.at[index] - HOURS_EACH_SIDE * SECONDS_PER_HOUR
  const to = readings.at[index] + HOURS_EACH_SIDE * SECONDS_PER_HOUR
  const found: number[] = []
  for (let i = index; i >= 0 && readings.at[i] >= from; i--) if (hasClockTime(readings, i)) found.unshift(i)
  for (let i = index + 1; i < readings.n && readings.at[i] <= to; i++)
    if (hasClockTime(readings, i)) found.push(i)
  return found
}

function hourTicks(
  from: number,
  to: number,
  xOf: (at: number) => number,
  size: PictureSize,
): readonly SceneNode[] {
  const step = HOURS_PER_TICK * SECONDS_PER_HOUR
  const ticks: SceneNode[] = []
  for (let at = Math.ceil(from / step) * step; at <= to; at += step) {
    const hour = (((at % SECONDS_PER_DAY) + SECONDS_PER_DAY) % SECONDS_PER_DAY) / SECONDS_PER_HOUR
    ticks.push({
      kind: 'text',
      x: xOf(at),
      y: size.height - 3,
      text: ticks.length === 0 ? `${hour} h` : String(hour),
      size: SMALL,
      fill: size.palette.grey,
      anchor: 'middle',
    })
  }
  return ticks
}

function valueLabels(
  words: Words,
  analysis: Analysis,
  index: number,
  marks: readonly Mark[],
  plot: Plot,
  lineHeights: readonly number[],
  size: PictureSize,
): readonly SceneNode[] {
  const repeats = new Set(
    analysis.technique.repeatSets.find((set) => set.members.includes(index))?.members ?? [index],
  )
  // The reading in question gets the best place.
  const order = [...marks].sort((a, b) => rank(a) - rank(b) || a.index - b.index)
  function rank(mark: Mark): number {
    if (mark.index === index) return 0
    return repeats.has(mark.index) ? 1 : 2
  }
  const labelled =
    marks.length > MOST_VALUES ? order.filter((mark) => rank(mark) < 2 || mark.doubtful) : order
  const requests = labelled.map((mark): LabelRequest => {
    const value = words.numbers.readingText(analysis.readings, mark.index, analysis.settings.unit)
    const text = mark.doubtful ? `? ${value}` : value
    const width = textWidth(text, mark.doubtful ? QUESTION_SIZE : VALUE.size, true)
    const reach = Math.max(reachOf(mark), CONTEXT_DOT_RADIUS)
    const question = mark.doubtful ? 'with-value' : undefined
    const { x, y } = mark
    return { text, question, x, y, reach, width, height: VALUE.height, furthest: 2.5 * VALUE.height }
  })
  const frame = { left: plot.left, right: plot.right + 2, top: 0, bottom: size.height - MARGIN.bottom }
  const dots = marks.map((mark) => boxAround(mark, Math.max(reachOf(mark), CONTEXT_DOT_RADIUS)))
  // A value across a limit's line is read all the same; one beside another mark is taken for that mark's.
  const lines = lineHeights.map((y) => ({ ...avoidedLine(y, plot), price: LINE_PRICE }))
  return placeLabels(requests, frame, dots, [...lines, ...avoidedStems(marks)]).placed.map(
    ({ text, question, box }) => {
      const letters = question ? QUESTION_SIZE : VALUE.size
      return {
        kind: 'text',
        x: box.left,
        y: (box.top + box.bottom) / 2 + CENTRED_BASELINE * letters,
        text,
        size: letters,
        fill: size.palette.ink,
        anchor: 'start',
        bold: true,
        halo: size.palette.paper,
      }
    },
  )
}
