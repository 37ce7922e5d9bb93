import type { Analysis, PeriodFigures } from '../analysis/analysis'
import { periodReadings } from '../analysis/periodReadings'
import { isLow, type Readings } from '../log/readings'
import { hasManyMarkers } from '../statistics/heldBack'
import { type Effect, effects } from '../technique/effect'
import type { DoubtfulReading } from '../technique/technique'
import { fromMgDl, glucoseDecimals } from '../units/glucose'
import { roundHalfAway } from '../units/rounding'
import { adviceOnReading, explainsSeveral, type SharedExplanation } from './advice'
import { doubtfulIn } from './doubts'
import { type StretchTold, stretchesIn } from './stretches'

/** Doubtful readings shown with a picture; of more, the lows and those of the highest doubt. */
const MOST_SHOWN = 6
/** Further ones that get a row each. */
const MOST_LISTED = 120
/** Fewer readings of one fault are shown one by one (design choice). */
const FEWEST_TOGETHER = 3

/** A period's doubtful readings one by one. */
export interface DoubtfulTold {
  readonly n: number
  /** Those of the logbook that are of other days. */
  readonly outside: number
  /** What one fault makes doubtful, told together. */
  readonly together: readonly StretchTold[]
  /** Of the others, lows first: those shown with a picture, in order of time, and those with a row, by doubt. */
  readonly shown: readonly DoubtfulReading[]
  readonly listed: readonly DoubtfulReading[]
  readonly unlisted: number
  /** What explains several of these, and is told once above them; null where nothing does. */
  readonly explains: SharedExplanation | null
}

export function doubtfulTold(analysis: Analysis, period: PeriodFigures): DoubtfulTold {
  const { readings, technique } = analysis
  const doubtful = doubtfulIn(analysis, period)
  const together = stretchesIn(analysis, period).filter(
    ({ toldOnce, indexes }) => toldOnce || indexes.length >= FEWEST_TOGETHER,
  )
  const isTogether = new Set(together.flatMap(({ indexes }) => indexes))
  const byDoubt = doubtful
    .filter(({ index }) => !isTogether.has(index))
    .sort((a, b) => lowsFirst(readings, a, b) || b.doubt - a.doubt || a.index - b.index)
  const further = byDoubt.slice(MOST_SHOWN)
  const listed = further.slice(0, MOST_LISTED)
  const shown = byDoubt.slice(0, MOST_SHOWN)
  return {
    n: doubtful.length,
    outside: technique.doubtful.length - doubtful.length,
    together,
    explains: explainsSeveral(
      [...shown, ...listed].map((one) => adviceOnReading(analysis, one.index, one.reasons)),
    ),
    shown: shown.sort((a, b) => lowsFirst(readings, a, b) || a.index - b.index),
    listed,
    unlisted: further.length - listed.length,
  }
}

function lowsFirst(readings: Readings, a: DoubtfulReading, b: DoubtfulReading): number {
  return Number(isLow(readings, b.index)) - Number(isLow(readings, a.index))
}

const MOST_MOVERS = 3

/** The few readings that move mean and SD most; none that moves neither as printed, and none beside many HI and LO. */
export function moversTold(analysis: Analysis, period: PeriodFigures): readonly Effect[] {
  const { readings, technique, settings } = analysis
  if (hasManyMarkers(period.asLogged)) return []
  const moves = (mgDl: number) =>
    roundHalfAway(fromMgDl(mgDl, settings.unit), glucoseDecimals(settings.unit)) !== 0
  return effects(readings, periodReadings(analysis, period), technique)
    .slice(0, MOST_MOVERS)
    .filter(({ mean, sd }) => moves(mean) || moves(sd))
}
