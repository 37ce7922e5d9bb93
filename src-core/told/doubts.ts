import type { Analysis, PeriodFigures } from '../analysis/analysis'
import type { Counted } from '../model/counted'
import { Z95_ROUNDED } from '../reference/meter'
import { hasManyMarkers } from '../statistics/heldBack'
import { roundHalfAway } from '../units/rounding'
import type { ModelMisfit } from '../technique/modelFit'
import type { DoubtfulReading, Repeatability } from '../technique/technique'
import { type StretchTold, stretchesIn } from './stretches'

/** Above this share of doubtful readings what is left without them is no fair picture: no second column (design choice). */
export const MOST_DOUBTFUL_SHARE = 0.1
/** Fewer sets that agree do not tell how far repeats differ (design choice). */
const FEWEST_SETS = 5

/** How well repeat tests agree. */
export interface RepeatsTold {
  readonly sets: number
  readonly agreeing: number
  /** Whether the sets come from more days than the period covers. */
  readonly wholeLogbook: boolean
  /** How two tests differ in the sets that agree, percent; null where those are too few. */
  readonly differences: { readonly typicalPercent: number; readonly usualLimitPercent: number } | null
  /** Of sets whose first value was no surprise; null where those are too few, or the figure is no other as it is printed. */
  readonly unsurprising: { readonly sets: number; readonly typicalPercent: number } | null
}

/** How far a period's readings can be trusted. */
export interface Doubts {
  /** Sensor readings are not judged; of so many HI and LO little can be found. */
  readonly found: 'not-judged' | 'none' | 'none-beside-markers' | 'some'
  readonly doubtful: readonly DoubtfulReading[]
  /** Readings in the figures. */
  readonly of: Counted
  /** Whether so many of them are HI and LO that little can be found. */
  readonly manyMarkers: boolean
  /** How many of the doubtful lie in a stretch that is told once. */
  readonly bracketed: number
  readonly tooMany: boolean
  /** Why the usual estimate fits badly, where that makes readings not doubtful; else null. */
  readonly misfit: MisfitTold | null
  readonly repeats: RepeatsTold
  /** What one fault of strips or meter makes doubtful. */
  readonly stretches: readonly StretchTold[]
}

export interface MisfitTold extends ModelMisfit {
  /** How many readings are not called doubtful for it. */
  readonly notDoubtful: number
}

export function doubtsOf(analysis: Analysis, period: PeriodFigures): Doubts {
  const { technique, bracketed } = analysis
  const { start, end, asLogged, kind } = period
  const within = (index: number) => index >= start && index < end
  const doubtful = doubtfulIn(analysis, period)
  const manyMarkers = hasManyMarkers(asLogged)
  const notDoubtful = technique.notDoubtfulForMisfit.filter(within).length
  return {
    found:
      kind === 'sensor'
        ? 'not-judged'
        : doubtful.length > 0
          ? 'some'
          : manyMarkers
            ? 'none-beside-markers'
            : 'none',
    doubtful,
    of: asLogged,
    manyMarkers,
    bracketed: doubtful.filter(({ index }) => bracketed.has(index)).length,
    tooMany: doubtful.length > MOST_DOUBTFUL_SHARE * asLogged.n,
    misfit: notDoubtful === 0 ? null : { ...technique.misfit, notDoubtful },
    repeats: {
      sets: technique.repeatSets.length,
      agreeing: technique.repeatSets.filter((set) => set.agree).length,
      wholeLogbook: end - start < analysis.readings.n,
      ...repeatDifferences(technique.repeatability),
    },
    stretches: stretchesIn(analysis, period),
  }
}

/** The period's doubtful readings, in order of time. */
export function doubtfulIn(
  { technique }: Analysis,
  { start, end }: Pick<PeriodFigures, 'start' | 'end'>,
): readonly DoubtfulReading[] {
  return technique.doubtful.filter(({ index }) => index >= start && index < end)
}

/** Half of pairs of repeats differ by less than this many times their standard deviation of a difference. */
const MEDIAN_OF_ABSOLUTE_NORMAL = 0.6745

/** How two repeats differ, percent, for errors that follow a normal curve: half of pairs, and 19 of 20, by less. */
export function repeatDifferences({
  sets,
  withinCvPercent,
  unsurprising,
}: Repeatability): Pick<RepeatsTold, 'differences' | 'unsurprising'> {
  const typical = (cvPercent: number) => MEDIAN_OF_ABSOLUTE_NORMAL * Math.SQRT2 * cvPercent
  const differences =
    withinCvPercent === null || sets < FEWEST_SETS
      ? null
      : {
          typicalPercent: typical(withinCvPercent),
          usualLimitPercent: Z95_ROUNDED * Math.SQRT2 * withinCvPercent,
        }
  if (unsurprising === null || unsurprising.sets < FEWEST_SETS) return { differences, unsurprising: null }
  const typicalPercent = typical(unsurprising.withinCvPercent)
  const isTheSame =
    differences !== null && roundHalfAway(typicalPercent) === roundHalfAway(differences.typicalPercent)
  return { differences, unsurprising: isTheSame ? null : { sets: unsurprising.sets, typicalPercent } }
}

/** A doubt in a hundred as it is told: an estimate, never a certainty, neither way. */
export type DoubtTold = number | 'below-1' | 'above-99' | 'not-estimated'

export function doubtTold(doubt: number): DoubtTold {
  if (Number.isNaN(doubt)) return 'not-estimated'
  const inHundred = roundHalfAway(100 * doubt)
  if (inHundred === 0) return 'below-1'
  return inHundred > 99 ? 'above-99' : inHundred
}
