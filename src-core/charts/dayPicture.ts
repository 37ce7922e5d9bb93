import type { Analysis, PeriodFigures } from '../analysis/analysis'
import { periodReadings } from '../analysis/periodReadings'
import type { BlockFigures } from '../day/timeOfDay'
import { FLAG, hasClockTime, hasFlag } from '../log/readings'
import { hasManyMarkers, isHardlyTested } from '../statistics/heldBack'
import { dayTold } from '../told/day'
import { blockMeasure } from '../told/measures'
import { dayOf, SECONDS_PER_DAY, secondOfDay } from '../units/wallClock'
import { blockMarks, hasWhisker, inPlaceOfMedian } from './blockMarks'
import { glucoseAxis, limitLines, type Plot } from './glucoseAxis'
import { type GlucoseScale, glucoseScale } from './glucoseScale'
import {
  avoidedStems,
  boxAround,
  distinctPoints,
  type Mark,
  markNodes,
  MARK,
  marksOf,
  OUTSIDE_STEP,
  outsideTicks,
  reachOf,
  stems,
  valuesOnScale,
} from './marks'
import type { Palette } from './palette'
import {
  type Avoided,
  avoidedLine,
  boxesOverlap,
  type Box,
  COVER_PRICE,
  type LabelRequest,
  type PlacedLabel,
  placeLabels,
} from './placeLabels'
import type { Point, Scene, SceneNode, SceneText } from './scene'
import { textWidth } from './textWidth'
import { CENTRED_BASELINE } from './sceneWords'
import { yearsOf } from '../told/years'
import type { Words } from '../wording/words'

export interface PictureSize {
  readonly width: number
  readonly height: number
  readonly palette: Palette
  /** Whether its key stands under it; else beside its name. */
  readonly note?: boolean
}

/** More labels than this crowd the picture; the lowest readings get them. */
export const MOST_LABELLED_LOWS = 8

/** So many question marks turn a picture black; placing more takes long. */
const MOST_QUESTIONS = 400

const MARGIN = { left: 26, right: 78, top: 22, bottom: 27 }
const LABEL = { size: 7, height: 7.2 }
const QUESTION = { size: 8, height: 7.5 }
const SMALL = 7
const NOTE_HEIGHT = 11
/** Beyond this many readings, dots that would lie on one another to a fifth of a point are drawn once. */
const MANY_READINGS = 2_000

/**
 * One day with the readings of the whole period by their time of day, on a ratio scale: dots, solid squares
 * for lows, for each three hours a median with its interval and the middle half. Readings without a time stay out.
 */
export function dayPicture(
  words: Words,
  analysis: Analysis,
  figures: PeriodFigures,
  size: PictureSize,
): Scene {
  const { readings, settings } = analysis
  const indexes = periodReadings(analysis, figures).filter((i) => hasClockTime(readings, i))

  const lowCount = figures.lows.each.filter((low) => hasClockTime(readings, low.index)).length
  const notes = [
    ...(figures.timeOfDay.blocks.some(hasWhisker) ? [words.day.MEDIAN_KEY] : []),
    ...(lowCount > MOST_LABELLED_LOWS
      ? [words.day.lowestLabelledSentence(MOST_LABELLED_LOWS, lowCount)]
      : []),
  ]
  const note = size.note === false ? '' : notes.join(' ')
  const notesHeight = note === '' ? 0 : NOTE_HEIGHT
  const above = indexes.some((i) => hasFlag(readings, i, FLAG.aboveRange))
  const below = indexes.some((i) => hasFlag(readings, i, FLAG.belowRange))
  // The labels of crowded lows go under them rather than far away.
  const labelRow = lowCount > MOST_LABELLED_LOWS ? LABEL.height + MARK.lowSize / 2 : 0
  const plot: Plot = {
    left: MARGIN.left,
    right: size.width - MARGIN.right,
    top: MARGIN.top + (above ? OUTSIDE_STEP + 4 : 0),
    bottom: size.height - MARGIN.bottom - (below ? OUTSIDE_STEP + 4 : labelRow) - notesHeight,
  }
  const frame = {
    left: plot.left,
    right: plot.right,
    top: MARGIN.top,
    bottom: size.height - MARGIN.bottom - notesHeight,
  }
  const scale = glucoseScale(valuesOnScale(analysis, indexes), plot.top, plot.bottom)
  const xOf = (second: number) => plot.left + (second / SECONDS_PER_DAY) * (plot.right - plot.left)
  const marks = marksOf(analysis, indexes, (i) => xOf(secondOfDay(readings.at[i])), scale, plot)
  const sound = marks.filter((mark) => !mark.low && !mark.doubtful)
  const dots = sound.length <= MANY_READINGS ? sound : distinctPoints(sound, 5)
  const lines = limitLines(words, settings, 'full')
  const medians = figures.timeOfDay.blocks.flatMap((block) => blockMarks(block, xOf, scale, size.palette))
  const labels = lowLabels(words, analysis, marks, frame, dots, [
    ...lines.map((line) => avoidedLine(scale.y(line.mgDl), frame)),
    ...avoidedMedians(medians),
  ])

  return {
    width: size.width,
    height: size.height,
    description: words.day.dayPictureDescription(
      dayTold(readings, figures),
      figures,
      readings,
      settings.unit,
      yearsOf(readings),
    ),
    nodes: [
      {
        kind: 'group',
        name: 'blocks',
        nodes: blockRules(figures.timeOfDay.blocks, xOf, frame, size.palette),
      },
      ...glucoseAxis(scale, settings, lines, plot, size.palette),
      ...outsideTicks(plot, { above, below }, size.palette),
      {
        kind: 'group',
        name: 'curve',
        nodes: curveLines(words, figures, xOf, scale, frame, size.palette),
      },
      {
        kind: 'group',
        name: 'medians',
        nodes: medians,
      },
      { kind: 'dots', points: dots, radius: MARK.dotRadius, fill: size.palette.ink },
      { kind: 'group', name: 'stems', nodes: stems(marks, size.palette) },
      ...markNodes(marks, size.palette),
      { kind: 'group', name: 'labels', nodes: labels.flatMap((label) => labelNodes(label, size.palette)) },
      ...rows(words, analysis, figures.timeOfDay.blocks, xOf, frame, size.palette),
      ...(note === '' ? [] : [noteNode(note, frame.bottom + MARGIN.bottom + NOTE_HEIGHT - 2, size)]),
    ],
  }
}

function blockRules(
  blocks: readonly BlockFigures[],
  xOf: (second: number) => number,
  frame: Plot,
  palette: Palette,
): readonly SceneNode[] {
  const hours = [...blocks.map((block) => block.fromHour), 24]
  return hours.map((hour) => {
    const x = xOf(hour * 3600)
    const stroke = { color: palette.rule, width: 0.5 }
    return { kind: 'line', x1: x, x2: x, y1: frame.top, y2: frame.bottom, stroke }
  })
}

/** Fewer effective readings make a line that wanders. */
const LINE_EFFECTIVE_N = 30
/** A shorter line is an arc over a block or two, which says no more than their medians: eight hours. */
const LINE_POINTS = 33

/** The running median as a thin line, where testing is dense enough for hours on end. */
function curveLines(
  words: Words,
  figures: PeriodFigures,
  xOf: (second: number) => number,
  scale: GlucoseScale,
  frame: Plot,
  palette: Palette,
): readonly SceneNode[] {
  if (hasManyMarkers(figures.asLogged)) return []
  const runs: Point[][] = [[]]
  for (const { minute, effectiveN, median } of figures.timeOfDay.curve) {
    if (median === null || effectiveN < LINE_EFFECTIVE_N) runs.push([])
    else {
      const y = scale.y(Math.min(Math.max(median, scale.low), scale.high))
      runs[runs.length - 1].push({ x: xOf(minute * 60), y })
    }
  }
  const stroke = { color: palette.grey, width: 0.8 }
  const drawn = runs.filter((points) => points.length >= LINE_POINTS)
  if (drawn.length === 0) return []
  const name: SceneText = {
    kind: 'text',
    x: frame.right + 4,
    y: frame.top + 3,
    text: words.pictures.THIN_CURVE,
    size: SMALL,
    fill: palette.grey,
    anchor: 'start',
  }
  return [...drawn.map((points): SceneNode => ({ kind: 'polyline', points, stroke })), name]
}

/** Value and date beside the lowest lows, and a question mark beside every doubtful reading. */
function lowLabels(
  words: Words,
  analysis: Analysis,
  marks: readonly Mark[],
  frame: Plot,
  dots: readonly Point[],
  lines: readonly Avoided[],
): readonly PlacedLabel[] {
  const { readings, settings } = analysis
  const years = yearsOf(readings)
  const lows = marks.filter((mark) => mark.low)
  const labelled = [...lows]
    .sort((a, b) => b.y - a.y || b.index - a.index)
    .slice(0, MOST_LABELLED_LOWS)
    .sort((a, b) => a.y - b.y || a.x - b.x)
  const isLabelled = new Set(labelled.map((mark) => mark.index))
  const valueLabels = labelled.map((mark): LabelRequest => {
    const day = words.dates.shortDayText(dayOf(readings.at[mark.index]), years)
    const text = `${words.numbers.readingText(readings, mark.index, settings.unit)} · ${day}${mark.doubtful ? ' ?' : ''}`
    const width = textWidth(text, LABEL.size, true)
    const question = mark.doubtful ? 'with-value' : undefined
    const { x, y } = mark
    return { text, question, x, y, reach: reachOf(mark), width, height: LABEL.height, furthest: 120 }
  })
  const questions = marks
    .filter((mark) => mark.doubtful && !isLabelled.has(mark.index))
    .slice(0, MOST_QUESTIONS)
    .map((mark): LabelRequest => {
      const width = textWidth('?', QUESTION.size, true)
      return {
        text: '?',
        question: 'alone',
        x: mark.x,
        y: mark.y,
        reach: reachOf(mark),
        width,
        height: QUESTION.height,
        furthest: 40,
      }
    })
  const around = { left: frame.left - 1, right: frame.right, top: frame.top, bottom: frame.bottom }
  const markBoxes = marks.filter((mark) => mark.low || mark.doubtful).map((mark) => boxAround(mark))
  const avoided = [
    ...avoidedStems(marks),
    ...dots.map((dot) => ({ box: aroundDot(dot), price: COVER_PRICE.dot })),
    ...lines,
  ]
  const { placed, left } = placeLabels([...valueLabels, ...questions], around, markBoxes, avoided)
  // The list of lows holds a value that finds no free place here. A mark without its question mark would hide
  // a doubt: that covers dots, unless another question mark stands there already.
  const kept = [...placed]
  const questionsLeft = left.filter(({ question }) => question).map((label) => beside(asQuestion(label)))
  for (const question of questionsLeft) {
    if (!kept.some(({ box }) => boxesOverlap(box, question.box))) kept.push(question)
  }
  return kept
}

/** The medians' bars and whiskers and the outlines of the middle halves. */
function avoidedMedians(nodes: readonly SceneNode[]): readonly Avoided[] {
  const half = 1.2
  const avoided = (x1: number, x2: number, y1: number, y2: number): Avoided => ({
    box: {
      left: Math.min(x1, x2) - half,
      right: Math.max(x1, x2) + half,
      top: Math.min(y1, y2) - half,
      bottom: Math.max(y1, y2) + half,
    },
    price: COVER_PRICE.line,
  })
  return nodes.flatMap((node) => {
    if (node.kind === 'line') return [avoided(node.x1, node.x2, node.y1, node.y2)]
    if (node.kind !== 'rect') return []
    const { x, y, width, height } = node
    return [
      avoided(x, x + width, y, y),
      avoided(x, x + width, y + height, y + height),
      avoided(x, x, y, y + height),
      avoided(x + width, x + width, y, y + height),
    ]
  })
}

function aroundDot({ x, y }: Point): Box {
  const half = MARK.dotRadius / 2
  return { left: x - half, right: x + half, top: y - half, bottom: y + half }
}

function asQuestion(label: LabelRequest): LabelRequest {
  return {
    ...label,
    text: '?',
    question: 'alone',
    width: textWidth('?', QUESTION.size, true),
    height: QUESTION.height,
  }
}

function beside(request: LabelRequest): PlacedLabel {
  const left = request.x + request.reach + 1
  const top = request.y - request.height / 2
  return { ...request, box: { left, top, right: left + request.width, bottom: top + request.height } }
}

function labelNodes(label: PlacedLabel, palette: Palette): readonly SceneNode[] {
  const size = label.question === 'alone' ? QUESTION.size : LABEL.size
  const middle = (label.box.top + label.box.bottom) / 2
  const text: SceneText = {
    kind: 'text',
    x: label.box.left,
    y: middle + CENTRED_BASELINE * size,
    text: label.text,
    size,
    fill: palette.ink,
    anchor: 'start',
    bold: true,
    halo: palette.paper,
  }
  if (Math.abs(middle - label.y) < label.height * 0.7) return [text]
  const toTheRight = label.box.left > label.x
  return [
    {
      kind: 'line',
      x1: label.x,
      y1: label.y,
      x2: toTheRight ? label.box.left - 0.5 : label.box.right + 0.5,
      y2: middle,
      stroke: { color: palette.grey, width: 0.4 },
    },
    text,
  ]
}

/** The medians above the plot, hours and counts below it. */
function rows(
  words: Words,
  analysis: Analysis,
  blocks: readonly BlockFigures[],
  xOf: (second: number) => number,
  frame: Plot,
  palette: Palette,
): readonly SceneNode[] {
  const word = (
    x: number,
    y: number,
    text: string,
    fill: string,
    anchor: SceneText['anchor'],
  ): SceneText => ({
    kind: 'text',
    x,
    y,
    text,
    size: SMALL,
    fill,
    anchor,
  })
  const top = frame.top - 8
  const hoursLine = frame.bottom + 10
  const countLine = frame.bottom + 19
  const atRight = frame.right + 4
  const columns = blocks.flatMap((block): SceneNode[] => {
    const x = xOf(((block.fromHour + block.toHour) / 2) * 3600)
    const hours = words.numbers.rangeText(
      String(block.fromHour).padStart(2, '0'),
      String(block.toHour).padStart(2, '0'),
    )
    const median: SceneText =
      !isHardlyTested(block) && block.medianMgDl !== null
        ? {
            ...word(
              x,
              top + 0.7,
              words.figures.valueText(blockMeasure('medianMgDl', block), analysis.settings.unit),
              palette.accent,
              'middle',
            ),
            size: 9,
            bold: true,
          }
        : word(x, top, inPlaceOfMedian(words, block.n), palette.grey, 'middle')
    return [
      median,
      word(x, hoursLine, hours, palette.ink, 'middle'),
      word(x, countLine, String(block.n), palette.grey, 'middle'),
    ]
  })
  return [
    { kind: 'group', name: 'columns', nodes: columns },
    word(atRight, top, 'median', palette.accent, 'start'),
    word(atRight, hoursLine, 'hours', palette.ink, 'start'),
    word(atRight, countLine, 'readings', palette.grey, 'start'),
  ]
}

function noteNode(text: string, y: number, size: PictureSize): SceneNode {
  return { kind: 'text', x: MARGIN.left, y, text, size: SMALL, fill: size.palette.grey, anchor: 'start' }
}
