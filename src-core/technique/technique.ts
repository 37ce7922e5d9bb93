import type { GlucoseUnit } from '../units/glucose'
import type { ClockOffset } from './clockOffsets'
import type { DoubtCluster } from './doubtClusters'
import type { MeterPair } from './meterPairs'
import type { ModelMisfit } from './modelFit'
import type { FaultClassName } from './notes/classes'
import type { DoubtReason } from './reasons/reasonTable'

export interface DoubtfulReading {
  /** Index in the logbook. */
  readonly index: number
  /** Probability, 0 to 1, that the reading is off by more than 30 %; NaN where no evidence bears on it. */
  readonly doubt: number
  readonly reasons: readonly DoubtReason[]
}

/** A reading of which a person has said what is to be done; that stands above the program's mark. */
export interface DecidedReading {
  /** Index in the logbook. */
  readonly index: number
  readonly choice: 'keep' | 'leave-out'
  /** In the person's words; '' where nothing was said. */
  readonly reason: string
  /** What was typed in its place, where a correction left it out. */
  readonly correctedTo?: { readonly value: number | string; readonly unit: GlucoseUnit }
  /** `YYYY-MM-DDTHH:MM`. */
  readonly decidedAt: string
  /** Whether the program would call it doubtful. */
  readonly flagged: boolean
}

/** Two or more finger-sticks, each at most 10 minutes after the one before. */
export interface RepeatSet {
  /** Indexes in the logbook, in order of time. */
  readonly members: readonly number[]
  readonly meanMgDl: number
  readonly consensusMgDl: number
  /** 100 x (max - min) / mean. */
  readonly spreadPercent: number
  readonly agree: boolean
  readonly holdsLow: boolean
}

/** How well repeats agree, over the sets of one meter that agree. */
export interface Repeatability {
  readonly sets: number
  readonly readings: number
  readonly withinSdMgDl: number | null
  readonly withinCvPercent: number | null
  readonly withinCvCi95: readonly [number, number] | null
  /**
   * Of those of them whose first reading was no surprise: no low, and between the tenth and the ninetieth percentile of all.
   * Repeats are made where a value surprises, and a surprise is often an error; these tell what the meter does by itself.
   */
  readonly unsurprising: {
    readonly sets: number
    readonly degreesOfFreedom: number
    readonly withinCvPercent: number
  } | null
}

/** One step of a trial beside the baseline. */
export interface TrialStep {
  /** Indexes in the logbook of the tests under this condition, one for each round. */
  readonly indexes: readonly number[]
  /** Their mean, and the mean of the baseline at their times. */
  readonly mgDl: number
  readonly baselineMgDl: number
  /** The log's own words. */
  readonly label: string
  /** Whether conditions were changed on purpose; else a washed test or another meter or finger. */
  readonly changed: boolean
  /** What was changed, as kinds of mistake; empty where nothing was. */
  readonly faults: readonly FaultClassName[]
  readonly differencePercent: number
  /** Whether it agrees with the baseline by what the meter standard allows, without time between them. */
  readonly withinTolerance: boolean
  /** A difference below it cannot be told from chance. */
  readonly smallestVisiblePercent: number
  /**
   * Two-sided p of the difference, Holm-corrected over the trial's changed steps, below 0.05; false of steps that were not
   * changed. False is 'not shown', never 'no effect'.
   */
  readonly effect: boolean
}

export interface Trial {
  readonly baseline: readonly number[]
  readonly baselineMgDl: number
  /** Mean of the washed tests after the last changed one; null without any: then a drift is not excluded. */
  readonly closingMgDl: number | null
  readonly steps: readonly TrialStep[]
}

export interface Technique {
  /** Doubt of each reading of the logbook; NaN for sensor readings, days without a time and changed conditions. */
  readonly doubt: Float64Array
  /** Where all other readings put the true value with 95 % probability, mg/dL; NaN as above. */
  readonly expectedLow: Float64Array
  readonly expectedHigh: Float64Array
  /** What of the doubt model fits the logbook badly; and the readings that are not doubtful for it, in the logbook's order. */
  readonly misfit: ModelMisfit
  readonly notDoubtfulForMisfit: readonly number[]
  /** By the program's mark, without those that the person keeps. */
  readonly doubtful: readonly DoubtfulReading[]
  /** Those that the program marks and the person keeps. */
  readonly kept: readonly DoubtfulReading[]
  /** What the person decided, in the logbook's order. */
  readonly decided: readonly DecidedReading[]
  readonly repeatSets: readonly RepeatSet[]
  readonly repeatability: Repeatability
  readonly meters: readonly { readonly meter: string; readonly n: number }[]
  readonly meterPairs: readonly MeterPair[]
  /** Where the doubtful readings of the whole logbook gather. */
  readonly doubtClusters: readonly DoubtCluster[]
  /** Meters whose clocks seem to differ. */
  readonly clockOffsets: readonly ClockOffset[]
  readonly trials: readonly Trial[]
  /** Scatter of the person's repeats outside trials, which trials are judged by; null where there are too few. */
  readonly ownScatter: { readonly cv: number; readonly df: number } | null
}
