import type { Analysis, PeriodFigures } from '../analysis/analysis'
import { periodReadings } from '../analysis/periodReadings'
import { FLAG, hasClockTime, hasFlag, valueIn } from '../log/readings'
import { NIGHT_ENDS_AT_HOUR } from '../reference/dayParts'
import { hasManyMarkers } from '../statistics/heldBack'
import type { LatestA1c } from '../statistics/latestA1c'
import type { Summary } from '../statistics/summary'
import { secondOfDay } from '../units/wallClock'
import { type ToldA1c, toldA1c } from './estimatedA1c'
import { type Measure, measureOf } from './measures'

/** How HI and LO were counted, and the figures without them. */
export interface MarkersTold {
  readonly aboveRange: number
  readonly belowRange: number
  /** The limits that the markers stand for in the printed unit, each once. */
  readonly upperLimits: readonly number[]
  readonly lowerLimits: readonly number[]
  /** Whether they are too many for a mean of all. */
  readonly many: boolean
  /** Null where there are no other readings. */
  readonly without: {
    readonly mean: Measure
    /** Null where it is held back. */
    readonly sd: Measure | null
    /** Null without an estimate; of a log in which the highest or lowest are missing there is none. */
    readonly a1c: ToldA1c | null
  } | null
}

/** Null where there are none. */
export function markersTold(analysis: Analysis, figures: PeriodFigures): MarkersTold | null {
  const { readings, settings } = analysis
  const { asLogged, withoutMarkers, latestA1c } = figures
  const { aboveRange, belowRange } = asLogged
  if (aboveRange + belowRange === 0) return null
  const indexes = periodReadings(analysis, figures)
  const limits = (flag: number) => {
    const marked = indexes.filter((index) => hasFlag(readings, index, flag))
    return [...new Set(marked.map((index) => valueIn(readings, index, settings.unit)))]
  }
  const many = hasManyMarkers(asLogged)
  const a1c = many ? null : latestA1c.withoutMarkers
  return {
    aboveRange,
    belowRange,
    upperLimits: limits(FLAG.aboveRange),
    lowerLimits: limits(FLAG.belowRange),
    many,
    without: withoutMarkers === null || withoutMarkers.n === 0 ? null : withoutThem(withoutMarkers, a1c),
  }
}

function withoutThem(of: Summary, a1c: LatestA1c | null): MarkersTold['without'] {
  const sd = measureOf('sdMgDl', of)
  return {
    mean: measureOf('meanMgDl', of),
    sd: sd.heldBack === null ? sd : null,
    a1c: a1c === null || a1c.estimate === null ? null : toldA1c(a1c),
  }
}

/** Indexes of the lowest and the highest reading; a LO at 20 lies below a reading of 20. Null without readings. */
export function extremes(
  analysis: Analysis,
  figures: PeriodFigures,
): { readonly lowest: number; readonly highest: number } | null {
  const { readings } = analysis
  const indexes = periodReadings(analysis, figures)
  if (indexes.length === 0) return null
  const farthest = (sign: 1 | -1, marker: number) =>
    indexes.reduce((found, index) => {
      const further = sign * (readings.mgDl[found] - readings.mgDl[index])
      return further > 0 || (further === 0 && hasFlag(readings, index, marker)) ? index : found
    })
  return { lowest: farthest(1, FLAG.belowRange), highest: farthest(-1, FLAG.aboveRange) }
}

const NIGHT_SECONDS = NIGHT_ENDS_AT_HOUR * 3600
/** Below this share of the readings nights were hardly tested (design choice). */
const HARDLY_TESTED_SHARE = 0.05

/** How few of the readings with a time of day were at night; null where they were not few. */
export function nightsHardlyTested(
  analysis: Analysis,
  figures: PeriodFigures,
): { readonly atNight: number; readonly n: number } | null {
  const { readings } = analysis
  const timed = periodReadings(analysis, figures).filter((index) => hasClockTime(readings, index))
  const atNight = timed.filter((index) => secondOfDay(readings.at[index]) < NIGHT_SECONDS).length
  return atNight < HARDLY_TESTED_SHARE * timed.length ? { atNight, n: timed.length } : null
}
