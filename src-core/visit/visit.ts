import type { RangeRequest, TargetRequest } from '../analysis/targets'
import type { Kit } from '../kit/kit'
import type { LogAnswers } from '../log/logSource'
import type { DaySpan } from '../log/readings'
import type { Shift } from '../log/shifts'
import type { Paper } from '../report/document'
import type { GlucoseUnit } from '../units/glucose'

/** A log as it was when it was added: its bytes never change. */
export interface VisitLog {
  /** Base name, for people to know it by. */
  readonly name: string
  /** SHA-256 of the bytes, lower-case hexadecimal. */
  readonly sha256: string
  readonly bytes: Uint8Array
  /** What a person answered where this log does not say. */
  readonly answers: LogAnswers
}

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

/** Everything that makes one report: the program's one document. Null stands for 'as usual'. */
export interface Visit {
  readonly logs: readonly VisitLog[]
  readonly typed: readonly TypedReading[]
  readonly decisions: readonly Decision[]
  readonly kit: Kit
  readonly shifts: readonly Shift[]
  readonly period: DaySpan | null
  readonly versus: DaySpan | null
  readonly targets: TargetRequest | null
  /** The person's own goal before meals, in the printed unit. */
  readonly goal: RangeRequest | null
  readonly unit: GlucoseUnit | null
  /** IANA name of the zone in which instants are shown. */
  readonly zone: string | null
  readonly paper: Paper
  /** What stands at the head of the report; '' prints nothing. */
  readonly label: string
  /** Whether the label is the program's own, which tells that the visit is the sample. */
  readonly sampleLabel?: true
  /** 0 none; null four weeks; 'all'. */
  readonly diary: number | 'all' | null
}

export const EMPTY_VISIT: Visit = {
  logs: [],
  typed: [],
  decisions: [],
  kit: {},
  shifts: [],
  period: null,
  versus: null,
  targets: null,
  goal: null,
  unit: null,
  zone: null,
  paper: 'A4',
  label: '',
  diary: null,
}
