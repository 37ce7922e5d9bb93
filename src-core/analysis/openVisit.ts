import type { Refusal } from '../log/refusal'
import type { ImportContext, LogAnswers, LogSource } from '../log/logSource'
import type { DaySpan } from '../log/readings'
import type { LimitPair } from '../reference/limits'
import type { GlucoseUnit } from '../units/glucose'
import type { Analysis } from './analysis'

/** What the person asks for; everything has a default. */
export interface VisitOptions {
  readonly answers?: LogAnswers
  /** Unit to print in; else the first log's, for a mixed log that of most rows. */
  readonly unit?: GlucoseUnit
  /** Days the report covers; else first to last day read. */
  readonly period?: DaySpan
  readonly targets?: { readonly low: LimitPair; readonly high: LimitPair }
}

/** Either the whole analysis, or what stands in its way. */
export type VisitOutcome =
  | { readonly kind: 'analysed'; readonly analysis: Analysis }
  | { readonly kind: 'stopped'; readonly refusals: readonly Refusal[] }

/**
 * Reads the logs and computes everything that pages, window and files show. The one way in for the command
 * line, the window and the tests.
 */
export function openVisit(
  sources: readonly LogSource[],
  options: VisitOptions,
  context: ImportContext,
): VisitOutcome {
  void sources
  void options
  void context
  throw new Error('openVisit is not wired yet')
}
