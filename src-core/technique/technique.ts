import type { GlucoseUnit } from '../units/glucose'
import type { DayNumber } from '../units/wallClock'
import type { ClockOffset } from './clockOffsets'
import type { DoubtCluster } from './doubtClusters'
import type { MeterPair } from './meterPairs'
import type { ModelMisfit } from './modelFit'
import type { FaultClassName, FaultDirection } from './notes/classes'

/** Two repeats that cannot both be right: evidence of 'contradicted-by-repeat'. mg/dL, minutes. */
export interface ContradictedByRepeat {
  readonly code: 'contradicted-by-repeat'
  readonly evidence: {
    /** Index of the reading that contradicts this one. */
    readonly other: number
    readonly otherMgDl: number
    /** Signed: positive where the other came later. */
    readonly minutes: number
    readonly differenceMgDl: number
    /** What the meter standard and honest change allow between the two. */
    readonly allowedMgDl: number
    readonly membersOfSet: number
  }
}

/** A neighbour from which glucose would have had to change faster than it does. */
export interface FasterThanGlucoseChanges {
  readonly code: 'faster-than-glucose-changes'
  readonly evidence: {
    /** Index of the neighbour. */
    readonly other: number
    readonly otherMgDl: number
    /** Signed: positive where the other came later. */
    readonly minutes: number
    /** mg/dL per minute, both readings' noise taken off. */
    readonly ratePerMinute: number
    readonly fastestPerMinute: number
  }
}

/** A reading outside what the other readings let expect. */
export interface UnlikeNeighbours {
  readonly code: 'unlike-neighbours'
  readonly evidence: { readonly expectedLowMgDl: number; readonly expectedHighMgDl: number }
}

/** What the reading's own note or tag tells. */
export interface NoteTellsOfTechnique {
  readonly code: 'note-tells-of-technique'
  readonly evidence: {
    /** The note's own words. */
    readonly word: string
    readonly class: FaultClassName
    readonly direction: FaultDirection
  }
}

/** Strips used after their date, or too long after opening. */
export interface StripOutOfDate {
  readonly code: 'strip-out-of-date'
  readonly evidence: {
    readonly limit: 'expiry' | 'once-open'
    /** The last good day. */
    readonly goodUntil: DayNumber
    readonly daysPast: number
    readonly lot: string | null
  }
}

/** A control result outside the range printed with the strips. mg/dL. */
export interface FailedControl {
  readonly code: 'failed-control'
  readonly evidence: {
    readonly failedOn: DayNumber
    /** The last control before it that passed; null without one. */
    readonly passedOn: DayNumber | null
    /** On which side of the range it lay: the meter reads too high, or too low. */
    readonly side: 'too-high' | 'too-low'
    readonly resultMgDl: number
    readonly rangeLowMgDl: number
    readonly rangeHighMgDl: number
    /** The vial as the control names it; null where it names none. */
    readonly vial: string | null
    /** Place in the kit's list of controls of the first of those that failed one after the other, of this vial and meter. */
    readonly cause: number
  }
}

/** HI, LO, or a value at the very limit of what meters show. */
export interface AtMeasuringLimit {
  readonly code: 'at-measuring-limit'
  readonly evidence: { readonly side: 'above' | 'below'; readonly limitMgDl: number }
}

/** Meter or strips too cold or too hot. °C. */
export interface OutsideWorkingTemperature {
  readonly code: 'outside-working-temperature'
  readonly evidence: { readonly celsius: number; readonly lowest: number; readonly highest: number }
}

/** A test of control solution among the readings. */
export interface LooksLikeControlSolution {
  readonly code: 'looks-like-control-solution'
  readonly evidence: {
    /** Whether the reading's own tag says so; else it is the control result of that day by its value. */
    readonly tagged: boolean
    /** The range that it lies in, mg/dL; absent where only the tag tells. */
    readonly rangeLowMgDl?: number
    readonly rangeHighMgDl?: number
  }
}

/** A value that fits this person's readings only in the other unit. mg/dL. */
export interface LooksLikeOtherUnit {
  readonly code: 'looks-like-other-unit'
  readonly evidence: {
    readonly asOtherUnitMgDl: number
    readonly usualLowMgDl: number
    readonly usualHighMgDl: number
  }
}

/** Why a reading is doubted, with its evidence. The words are made in `wording`. */
export type DoubtReason =
  | ContradictedByRepeat
  | FasterThanGlucoseChanges
  | UnlikeNeighbours
  | NoteTellsOfTechnique
  | StripOutOfDate
  | FailedControl
  | AtMeasuringLimit
  | OutsideWorkingTemperature
  | LooksLikeControlSolution
  | LooksLikeOtherUnit

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
