import type { Decision, TypedReading } from '../model/decision'
import type { Paper } from '../reference/paper'
import type { RangeRequest, TargetRequest } from '../analysis/targets'
import type { Kit } from '../kit/kit'
import type { LogAnswers } from '../log/logSource'
import type { DaySpan } from '../log/readings'
import type { Shift } from '../log/shifts'
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
