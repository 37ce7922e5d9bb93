import type { WallSeconds } from '../units/wallClock'

/** A run of readings below 70 mg/dL, each at most 60 minutes after the one before. */
export interface LowEpisode {
  readonly from: WallSeconds
  readonly to: WallSeconds
  readonly lowestMgDl: number
  /** Indexes of its readings in the logbook. */
  readonly members: readonly number[]
  /** How many of them are doubtful. */
  readonly doubtful: number
}

/** One low and what came after it. */
export interface LowReading {
  /** Index in the logbook. */
  readonly index: number
  /** Index of the next reading of any meter; null where none follows. */
  readonly next: number | null
}

/** A row that may be a low and is in no count. */
export interface LowNotCounted {
  readonly source: number
  readonly line: number
  readonly why: string
}

export interface Lows {
  readonly readingsBelow70: number
  readonly readingsBelow54: number
  /** Nights with a reading from 00:00 to before 06:00. */
  readonly nightsTested: number
  /** The period's days. */
  readonly nights: number
  readonly each: readonly LowReading[]
  readonly episodes: readonly LowEpisode[]
  readonly notCounted: readonly LowNotCounted[]
  /** Readings from 70 to 84 mg/dL (3.9 to 4.7 mmol/L): a meter within its standard could show them with a true value below 70. */
  readonly nearLows: number
}
