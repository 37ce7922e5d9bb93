import type { Analysis } from '../analysis/analysis'
import { isLow, isMarker } from '../log/readings'
import { METER_STANDARD, Z95 } from '../reference/meter'
import type { RepeatSet } from '../technique/technique'
import { acrossAxis, acrossScale } from './acrossAxis'
import type { PictureSize } from './dayPicture'
import type { Plot } from './glucoseAxis'
import { type Mark, MARK, markNodes } from './marks'
import { spreadApart } from './placeLabels'
import type { Scene, SceneNode } from './scene'
import { LETTERS, wordAt } from './sceneWords'
import type { Words } from '../wording/words'

const MARGIN = { left: 34, right: 92, top: 14, bottom: 14 } as const
/** Greatest differences on the axis, percent: the first that holds all, else the last. */
const REACHES = [30, 60, 90, 150] as const

/** The first two tests of a set: their mean, mg/dL, and the second less the first in percent of it. */
export interface RepeatPair {
  readonly first: number
  readonly second: number
  readonly mean: number
  readonly differencePercent: number
}

/** The first two tests of each set without LO and HI. */
export function repeatPairs({ readings }: Analysis, sets: readonly RepeatSet[]): readonly RepeatPair[] {
  return sets.flatMap(({ members: [first, second] }) => {
    if (isMarker(readings, first) || isMarker(readings, second)) return []
    const [a, b] = [readings.mgDl[first], readings.mgDl[second]]
    return [{ first, second, mean: (a + b) / 2, differencePercent: (200 * (b - a)) / (a + b) }]
  })
}

/** How far two sound tests of this level differ in 19 of 20 pairs by the meter standard, percent. */
export function standardLimitPercent(mgDl: number): number {
  const { share, proportionalFromMgDl } = METER_STANDARD
  return (Math.SQRT2 * 100 * share * Math.max(mgDl, proportionalFromMgDl)) / mgDl
}

/**
 * Repeat tests: the difference of two against their mean (Bland and Altman, Lancet 1986;i:307-310), with the limits that
 * two sound tests keep by the meter standard, and those of this person's own repeats that agree.
 */
export function repeatsPicture(
  words: Words,
  analysis: Analysis,
  sets: readonly RepeatSet[],
  size: PictureSize,
): Scene {
  const { readings, settings, technique } = analysis
  const { palette } = size
  const pairs = repeatPairs(analysis, sets)
  const plot: Plot = {
    left: MARGIN.left,
    right: size.width - MARGIN.right,
    top: MARGIN.top,
    bottom: size.height - MARGIN.bottom,
  }
  const across = acrossScale(
    pairs.map(({ mean }) => mean),
    plot,
  )
  const widest = pairs.reduce((most, { differencePercent }) => Math.max(most, Math.abs(differencePercent)), 0)
  const reach = REACHES.find((limit) => widest <= limit) ?? REACHES[REACHES.length - 1]
  const middle = (plot.top + plot.bottom) / 2
  const yOf = (percent: number) => {
    const inside = Math.min(reach, Math.max(-reach, percent))
    return middle - (inside / reach) * (middle - plot.top)
  }
  const marks = pairs.map(({ first, second, mean, differencePercent }): Mark => ({
    index: first,
    x: across.x(mean),
    y: yOf(differencePercent),
    low: isLow(readings, first) || isLow(readings, second),
    doubtful: analysis.marked.has(first) || analysis.marked.has(second),
    contradictedBy: null,
  }))
  const cv = technique.repeatability.withinCvPercent
  const own = cv === null ? null : Z95 * Math.SQRT2 * cv
  const level = (percent: number, color: string, width: number): SceneNode => ({
    kind: 'line',
    x1: plot.left,
    x2: plot.right,
    y1: yOf(percent),
    y2: yOf(percent),
    stroke: { color, width },
  })
  const step = reach / 3
  const standard = (sign: number): SceneNode => ({
    kind: 'polyline',
    points: Array.from({ length: 41 }, (_, i) => {
      const mgDl = across.scale.low * (across.scale.high / across.scale.low) ** (i / 40)
      return { x: across.x(mgDl), y: yOf(sign * standardLimitPercent(mgDl)) }
    }),
    stroke: { color: palette.ink, width: 0.7, dash: [4, 2.5] },
  })
  const atRight = plot.right + 4
  const standardPercent = standardLimitPercent(across.scale.high)
  const labels: readonly { readonly y: number; readonly text: string; readonly fill: string }[] = [
    { y: yOf(standardPercent), text: `${Math.round(standardPercent)} %, standard`, fill: palette.ink },
    ...(own === null
      ? []
      : [{ y: yOf(own), text: words.pictures.ownRepeatsText(own), fill: palette.accent }]),
  ]
  const labelHeights = spreadApart(
    labels.map(({ y }) => y),
    LETTERS + 1,
  )
  return {
    width: size.width,
    height: size.height,
    description: words.pictures.repeatsDescription(
      pairs.length,
      pairs.filter(({ mean, differencePercent }) => Math.abs(differencePercent) > standardLimitPercent(mean))
        .length,
      own,
    ),
    nodes: [
      ...acrossAxis(words, across, settings, plot, { below: false, above: false }, palette),
      ...[-2, -1, 1, 2].map((i) => level(i * step, palette.rule, 0.5)),
      level(0, palette.grey, 0.7),
      ...[-3, -2, -1, 0, 1, 2, 3].map((i) =>
        wordAt(
          `${i > 0 ? '+' : i < 0 ? '−' : ''}${Math.abs(i * step)} %`,
          plot.left - 5,
          yOf(i * step),
          palette.grey,
          'end',
        ),
      ),
      { kind: 'group', name: 'standard', nodes: [standard(1), standard(-1)] },
      {
        kind: 'group',
        name: 'own',
        nodes: own === null ? [] : [level(own, palette.accent, 0.9), level(-own, palette.accent, 0.9)],
      },
      {
        kind: 'dots',
        points: marks.filter(({ low, doubtful }) => !low && !doubtful).map(({ x, y }) => ({ x, y })),
        radius: MARK.dotRadius + 0.3,
        fill: palette.ink,
      },
      ...markNodes(marks, palette),
      {
        kind: 'group',
        name: 'labels',
        nodes: labels.map(({ text, fill }, i) => wordAt(text, atRight, labelHeights[i], fill, 'start')),
      },
    ],
  }
}
