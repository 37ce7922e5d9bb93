import type { Analysis, PeriodFigures } from '../analysis/analysis'
import { periodReadings } from '../analysis/periodReadings'
import { FLAG, hasFlag, isLow, isMarker } from '../log/readings'
import { acrossAxis, acrossScale } from './acrossAxis'
import type { Plot } from './glucoseAxis'
import { valuesOnScale } from './marks'
import type { PictureSize } from './dayPicture'
import type { Scene, SceneNode } from './scene'
import { LETTERS } from './sceneWords'
import type { Words } from '../wording/words'

const MARGIN = { left: 30, right: 34, top: 14, bottom: 14 } as const
/** A bar is so wide as a ratio: seven from 70 to 180 mg/dL, so that both limits part bars. */
const BAR = { ratio: (180 / 70) ** (1 / 7), from: 70 } as const
const GAP = 1.5

interface Bar {
  readonly from: number
  readonly to: number
  readonly n: number
  readonly low: boolean
}

/** What the picture shows: bars from low to high, and the readings beyond the meter's limits. */
export function spreadOf(analysis: Analysis, indexes: readonly number[]) {
  const { readings } = analysis
  return {
    bars: barsOf(analysis, indexes),
    lo: indexes.filter((index) => hasFlag(readings, index, FLAG.belowRange)).length,
    hi: indexes.filter((index) => hasFlag(readings, index, FLAG.aboveRange)).length,
  }
}

/** How the readings spread, in bars of equal ratio with their counts; lows in ink, LO and HI beside the axis. */
export function distributionPicture(
  words: Words,
  analysis: Analysis,
  figures: PeriodFigures,
  size: PictureSize,
): Scene {
  const { settings } = analysis
  const indexes = periodReadings(analysis, figures)
  const plot: Plot = {
    left: MARGIN.left,
    right: size.width - MARGIN.right,
    top: MARGIN.top,
    bottom: size.height - MARGIN.bottom,
  }
  const across = acrossScale(valuesOnScale(analysis, indexes), plot)
  const { bars, lo, hi } = spreadOf(analysis, indexes)
  const most = Math.max(lo, hi, ...bars.map(({ n }) => n))
  const height = (n: number) => (n / most) * (plot.bottom - plot.top - LETTERS - 4)
  const { palette } = size
  const bar = (left: number, right: number, n: number, low: boolean): readonly SceneNode[] => {
    if (n === 0) return []
    const x = (left + right) / 2
    const top = plot.bottom - height(n)
    const stroke = { color: low ? palette.ink : palette.grey, width: right - left - GAP }
    return [
      { kind: 'line', x1: x, x2: x, y1: plot.bottom, y2: top, stroke },
      {
        kind: 'text',
        x,
        y: top - 2,
        text: String(n),
        size: LETTERS,
        fill: palette.ink,
        anchor: 'middle',
        halo: palette.paper,
      },
    ]
  }
  return {
    width: size.width,
    height: size.height,
    description: words.pictures.distributionDescription(bars, { lo, hi }, settings.unit),
    nodes: [
      ...acrossAxis(words, across, settings, plot, { below: lo > 0, above: hi > 0 }, palette),
      {
        kind: 'group',
        name: 'bars',
        nodes: [
          ...bars.flatMap(({ from, to, n, low }) =>
            bar(Math.max(plot.left, across.x(from)), Math.min(plot.right, across.x(to)), n, low),
          ),
          ...bar(plot.left - 18, plot.left - 6, lo, true),
          ...bar(plot.right + 6, plot.right + 18, hi, false),
        ],
      },
    ],
  }
}

function barsOf({ readings }: Analysis, indexes: readonly number[]): readonly Bar[] {
  const counts = new Map<number, number>()
  for (const index of indexes) {
    if (isMarker(readings, index)) continue
    const place = Math.floor(Math.log(readings.mgDl[index] / BAR.from) / Math.log(BAR.ratio) + 1e-9)
    // A low stands below the limit of lows also where its unit's limit is not 70 mg/dL to the last digit.
    const bar = isLow(readings, index) ? Math.min(place, -1) : Math.max(place, 0)
    counts.set(bar, (counts.get(bar) ?? 0) + 1)
  }
  return [...counts]
    .sort(([a], [b]) => a - b)
    .map(([place, n]) => ({
      from: BAR.from * BAR.ratio ** place,
      to: BAR.from * BAR.ratio ** (place + 1),
      n,
      low: place < 0,
    }))
}
