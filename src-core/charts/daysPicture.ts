import type { Analysis, PeriodFigures } from '../analysis/analysis'
import { periodReadings } from '../analysis/periodReadings'
import { countMarkers, FLAG, hasFlag, isLow, type Readings } from '../log/readings'
import { FEWEST_BLOCK_READINGS, standsAt } from '../statistics/heldBack'
import { quantileR7 } from '../statistics/quantile'
import { type DayNumber, dayOf } from '../units/wallClock'
import type { DaysRow } from '../wording/english/pictures'
import { acrossAxis, acrossScale, placeAcross } from './acrossAxis'
import type { Plot } from './glucoseAxis'
import { boxAround, type Mark, MARK, markNodes, reachOf, valuesOnScale } from './marks'
import type { Palette } from './palette'
import { placeLabels } from './placeLabels'
import type { Point, Scene, SceneNode } from './scene'
import { textWidth } from './textWidth'
import { CENTRED_BASELINE, wordAt } from './sceneWords'
import { yearsFor } from '../told/years'
import type { Words } from '../wording/words'

const QUESTION = { size: 7.5, height: 7.5, most: 300 } as const
const MARGIN = { left: 92, right: 74, top: 14, bottom: 14 } as const
const ROW = { usual: 10.5, close: 8.6, closeFrom: 20 } as const
/** More rows than this are weeks, then more. */
const MOST_ROWS = 36
/** Days in a row: one, a week, four weeks, a quarter, a year. */
const DAYS_IN_A_ROW = [1, 7, 28, 91, 364] as const
/** Dots that would lie on one another to half a point are drawn once. */
const PER_POINT = 2
/** Brackets side by side at the right edge. */
const MOST_BRACKETS = 4

/** The period in rows from the first day to the last: single days where they are few, else weeks or more. */
export function daysPicture(
  words: Words,
  analysis: Analysis,
  figures: PeriodFigures,
  {
    width,
    palette,
    mostRows = MOST_ROWS,
  }: { readonly width: number; readonly palette: Palette; readonly mostRows?: number | undefined },
): Scene {
  const { readings, settings } = analysis
  const indexes = periodReadings(analysis, figures)
  const years = yearsFor(figures.from, figures.to)
  const { rows, inARow } = daysRows(analysis, figures, mostRows)
  const rowHeight = rows.length < ROW.closeFrom ? ROW.usual : ROW.close
  const plot: Plot = {
    left: MARGIN.left,
    right: width - MARGIN.right,
    top: MARGIN.top,
    bottom: MARGIN.top + rows.length * rowHeight,
  }
  const across = acrossScale(valuesOnScale(analysis, indexes), plot)
  const yOf = (row: number) => plot.top + (row + 0.5) * rowHeight
  const marks = indexes.map((index): Mark => ({
    index,
    x: placeAcross(readings, index, across, plot),
    y: yOf(Math.floor((dayOf(readings.at[index]) - figures.from) / inARow)),
    low: isLow(readings, index),
    doubtful: analysis.marked.has(index),
    contradictedBy: null,
  }))
  const outside = {
    below: indexes.some((index) => hasFlag(readings, index, FLAG.belowRange)),
    above: indexes.some((index) => hasFlag(readings, index, FLAG.aboveRange)),
  }
  const atRight = plot.right + (outside.above ? 24 : 8)
  return {
    width,
    height: plot.bottom + MARGIN.bottom,
    description: words.pictures.daysPictureDescription(rows, inARow, figures, settings.unit, years),
    nodes: [
      ...rows.map((_, i): SceneNode => ({
        kind: 'line',
        x1: plot.left,
        x2: plot.right,
        y1: yOf(i),
        y2: yOf(i),
        stroke: { color: palette.rule, width: 0.4 },
      })),
      ...acrossAxis(words, across, settings, plot, outside, palette),
      { kind: 'dots', points: distinct(marks), radius: MARK.dotRadius, fill: palette.ink },
      {
        kind: 'group',
        name: 'medians',
        nodes: rows.flatMap((row, i) => median(row, yOf(i), rowHeight, across.x, palette)),
      },
      ...markNodes(marks, palette),
      { kind: 'group', name: 'questions', nodes: questions(marks, plot, rowHeight, palette) },
      {
        kind: 'group',
        name: 'rows',
        nodes: rows.flatMap((row, i) => [
          wordAt(
            words.pictures.rowText(row, (day) => words.dates.shortDayText(day, years)),
            plot.left - (outside.below ? 24 : 8),
            yOf(i),
            palette.ink,
            'end',
          ),
          wordAt(String(row.n), atRight, yOf(i), palette.grey, 'start'),
          ...(row.lows > 0 ? [wordAt(`■ ${row.lows}`, atRight + 22, yOf(i), palette.ink, 'start')] : []),
        ]),
      },
      {
        kind: 'group',
        name: 'brackets',
        nodes: brackets(analysis, figures, rowHeight / inARow, plot, width, palette),
      },
      wordAt('readings, lows', atRight, plot.top - 6, palette.grey, 'start'),
    ],
  }
}

/** A bracket over the days of a stretch that is told once. */
function brackets(
  { readings, stretches }: Analysis,
  { start, end, from }: PeriodFigures,
  heightOfADay: number,
  plot: Plot,
  width: number,
  palette: Palette,
): readonly SceneNode[] {
  const shown = stretches
    .filter(({ toldOnce }) => toldOnce)
    .map(({ indexes }) => indexes.filter((index) => index >= start && index < end))
    .filter(({ length }) => length > 0)
  const stroke = { color: palette.ink, width: 1.2 }
  const yOf = (day: DayNumber) => plot.top + (day - from) * heightOfADay
  return shown.slice(0, MOST_BRACKETS).flatMap((indexes, i): readonly SceneNode[] => {
    const x = width - 2 - 5 * i
    const y1 = yOf(dayOf(readings.at[indexes[0]])) + 1
    const y2 = yOf(dayOf(readings.at[indexes[indexes.length - 1]]) + 1) - 1
    return [
      { kind: 'line', x1: x, x2: x, y1, y2, stroke },
      { kind: 'line', x1: x - 3, x2: x, y1, y2: y1, stroke },
      { kind: 'line', x1: x - 3, x2: x, y1: y2, y2, stroke },
    ]
  })
}

/** What the picture shows row by row. */
export function daysRows(
  analysis: Analysis,
  figures: PeriodFigures,
  mostRows: number = MOST_ROWS,
): { readonly rows: readonly DaysRow[]; readonly inARow: number } {
  const days = figures.to - figures.from + 1
  const inARow = DAYS_IN_A_ROW.find((length) => days / length <= mostRows) ?? 364
  return { rows: rowsOf(analysis.readings, figures, periodReadings(analysis, figures), inARow), inARow }
}

function rowsOf(
  readings: Readings,
  { from, to }: PeriodFigures,
  indexes: readonly number[],
  inARow: number,
): readonly DaysRow[] {
  const members: number[][] = Array.from({ length: Math.ceil((to - from + 1) / inARow) }, () => [])
  for (const index of indexes) members[Math.floor((dayOf(readings.at[index]) - from) / inARow)].push(index)
  return members.map((list, row) => {
    const first: DayNumber = from + row * inARow
    const values = Float64Array.from(list, (index) => readings.mgDl[index]).sort()
    const hasMedian =
      list.length >= FEWEST_BLOCK_READINGS && standsAt(0.5, countMarkers(readings, list)) === 'number'
    return {
      from: first,
      to: Math.min(to, first + inARow - 1),
      n: list.length,
      median: hasMedian ? quantileR7(values, 0.5) : null,
      lows: list.filter((index) => isLow(readings, index)).length,
    }
  })
}

function distinct(marks: readonly Mark[]): readonly Point[] {
  const seen = new Map<string, Point>()
  for (const { x, y, low, doubtful } of marks) {
    if (low || doubtful) continue
    const rounded = Math.round(x * PER_POINT) / PER_POINT
    seen.set(`${rounded} ${y}`, { x: rounded, y })
  }
  return [...seen.values()]
}

function median(
  { median }: DaysRow,
  y: number,
  rowHeight: number,
  x: (mgDl: number) => number,
  palette: Palette,
): readonly SceneNode[] {
  if (median === null) return []
  const stroke = { color: palette.accent, width: 1.8 }
  return [
    {
      kind: 'line',
      x1: x(median),
      x2: x(median),
      y1: y - rowHeight / 2 + 1,
      y2: y + rowHeight / 2 - 1,
      stroke,
    },
  ]
}

/** A question mark beside every doubtful reading that has room for it; the mark itself is larger anyway. */
function questions(
  marks: readonly Mark[],
  plot: Plot,
  rowHeight: number,
  palette: Palette,
): readonly SceneNode[] {
  const width = textWidth('?', QUESTION.size, true)
  const requests = marks
    .filter(({ doubtful }) => doubtful)
    .slice(0, QUESTION.most)
    .map((mark) => ({
      text: '?',
      x: mark.x,
      y: mark.y,
      reach: reachOf(mark),
      width,
      height: QUESTION.height,
      furthest: rowHeight / 2,
    }))
  const around = { left: plot.left - 20, right: plot.right + 20, top: plot.top, bottom: plot.bottom }
  const taken = marks.filter(({ low, doubtful }) => low || doubtful).map((mark) => boxAround(mark))
  return placeLabels(requests, around, taken, []).placed.map(({ box }) => ({
    kind: 'text',
    x: box.left,
    y: (box.top + box.bottom) / 2 + CENTRED_BASELINE * QUESTION.size,
    text: '?',
    size: QUESTION.size,
    fill: palette.ink,
    anchor: 'start',
    bold: true,
    halo: palette.paper,
  }))
}
