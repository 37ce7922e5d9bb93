import type { GlucoseUnit } from '../units/glucose'

/** What a person says of a reading; it overrides the program's own mark. */
export type Choice = 'keep' | 'leave-out'

/**
 * A reading as the log tells it, so that it is found again in a longer export of the same meter: the log's own
 * time, value and unit.
 */
export interface ReadingKey {
  /** `YYYY-MM-DDTHH:MM`, with seconds where the log has them, the day alone where it gives no time. */
  readonly at: string
  /** The number as logged; '>500', '<20' for a marker. */
  readonly value: string
  readonly unit: GlucoseUnit
  /** The meter's name in the logbook. */
  readonly meter: string
  /** SHA-256 of the log in which it was decided. */
  readonly log: string
}

export interface Decision {
  readonly reading: ReadingKey
  readonly choice: Choice
  /** In the person's words; '' where nothing was said. */
  readonly reason: string
  /** The typed reading that stands in its place, where a correction left it out; it goes with that one. */
  readonly correctedTo?: CorrectedTo
  /** When it was decided, `YYYY-MM-DDTHH:MM`. */
  readonly decidedAt: string
}

/** A reading typed by hand, of someone who keeps a paper diary. */
export interface TypedReading {
  /** `YYYY-MM-DDTHH:MM`. */
  readonly at: string
  /** 'LO' and 'HI' as the meter showed them. */
  readonly value: number | 'LO' | 'HI'
  readonly unit: GlucoseUnit
  readonly meal?: string
  readonly note?: string
}

/** What a typed reading is known by. */
export type CorrectedTo = Pick<TypedReading, 'at' | 'value' | 'unit'>
