import type { Decision } from '../model/decision'
import type { Kit } from '../kit/kit'
import { mergeLogs } from '../log/logbook'
import { type ImportContext, type LogAnswers, type LogSource, type Watch } from '../log/logSource'
import { readLog, type ReadLog } from '../log/readLog'
import type { Refusal, RefusalReason } from '../log/refusal'
import type { Shift } from '../log/shifts'
import { type DaySpan, FLAG, hasFlag, rangeOfDays, type Readings } from '../log/readings'
import { type LogReport, setAsideByReason } from '../log/logReport'
import type { GlucoseUnit } from '../units/glucose'
import { dayOf } from '../units/wallClock'
import { analyse } from './analyse'
import type { Analysis } from './analysis'
import { afresh, type Keep } from '../model/keep'
import { DEFAULT_SETTINGS } from '../model/settings'
import {
  type RangeRequest,
  resolveGoal,
  resolveTargets,
  type TargetRequest,
  type WrongRange,
} from './targets'

/** What the person asks for; everything has a default. */
export interface VisitOptions {
  readonly answers?: LogAnswers
  /** Whether named columns hold only for logs that would ask for them; else they hold for every log. */
  readonly columnsWhereAsked?: boolean
  /** Unit to print in; else the first log's, for a mixed log that of most rows. */
  readonly unit?: GlucoseUnit
  /** Target range; else 70 to 180 mg/dL (3.9 to 10.0 mmol/L). */
  readonly targets?: TargetRequest
  /** The person's own goal before meals; else the published one. */
  readonly goal?: RangeRequest
  /** Days the report covers; else first to last day read. */
  readonly period?: DaySpan
  /** A second period to set beside it; the two may share days. */
  readonly versus?: DaySpan
  /** Stretches whose meter clock was wrong. */
  readonly shifts?: readonly Shift[]
  /** What the person decided of single readings. */
  readonly decisions?: readonly Decision[]
  /** What is known about the measuring besides the logs. */
  readonly kit?: Kit
}

/** A refusal with the log that it is about; null where it is about all of them together. */
export type RefusedLog = Refusal & { readonly sha256: string | null }

/** Either the whole analysis, or what stands in its way. */
export type VisitOutcome =
  | { readonly kind: 'analysed'; readonly analysis: Analysis }
  | { readonly kind: 'stopped'; readonly refusals: readonly RefusedLog[] }
  /** The target range or the goal asked for cannot be of the unit printed. */
  | { readonly kind: 'wrong-targets'; readonly wrong: WrongRange; readonly unit: GlucoseUnit }

/**
 * Reads the logs and computes everything that pages, window and files show. The one way in for the command
 * line, the window and the tests. Every log that is refused is named, not the first alone. `watch` is told how far the
 * reading has come; what it throws stops the reading. `keep` may give what was computed before of the same sources, the
 * same options and the same moment.
 */
export function openVisit(
  sources: readonly LogSource[],
  options: VisitOptions,
  context: ImportContext,
  watch: Watch = () => undefined,
  keep: Keep = afresh,
): VisitOutcome {
  if (sources.length === 0) return stopped(null, { key: 'empty-visit' })
  const bytesToRead = 2 * sources.reduce((sum, { bytes }) => sum + bytes, 0)
  let bytesRead = 0
  const count = (bytes: number): void => {
    bytesRead = Math.min(bytesRead + bytes, bytesToRead)
    watch({ bytesRead, bytesToRead })
  }
  const { answers, columnsWhereAsked, shifts = NONE, kit = NO_KIT, decisions = NONE } = options
  const { nowMs, zone } = context
  const read = sources.map((source) =>
    keep(`log ${source.sha256}`, [source, answers, columnsWhereAsked, nowMs], () =>
      readAnswered(source, options, context, count),
    ),
  )
  const refusals = read.flatMap((log, i) =>
    isRead(log) ? [] : log.map((refusal) => ({ ...refusal, sha256: sources[i].sha256 })),
  )
  if (refusals.length > 0) return { kind: 'stopped', refusals }
  const logbook = keep('logbook', [read, nowMs, zone, shifts], () =>
    mergeLogs(read.filter(isRead), context, shifts),
  )
  const { readings } = logbook
  if (readings.n === 0) return stopped(sources[0].name, nothingRead(logbook.sources))
  const covered = { from: dayOf(readings.at[0]), to: dayOf(readings.at[readings.n - 1]) }
  const period = options.period ?? covered
  const periods = options.versus ? [period, options.versus] : [period]
  const empty = periods.findIndex((span) => !holdsReadings(readings, rangeOfDays(readings, span)))
  if (empty !== -1) {
    return stopped(sources.map(({ name }) => name).join(', '), {
      key: 'empty-period',
      which: empty === 0 ? 'period' : 'versus',
      asked: periods[empty],
      covered,
    })
  }
  const unit = options.unit ?? unitOfFirstLog(logbook.sources, readings)
  const targets = options.targets === undefined ? null : resolveTargets(options.targets, unit)
  if (targets !== null && 'wrong' in targets) return { kind: 'wrong-targets', wrong: targets.wrong, unit }
  const ownGoal = options.goal === undefined ? null : resolveGoal(options.goal, unit)
  if (ownGoal !== null && 'wrong' in ownGoal) return { kind: 'wrong-targets', wrong: ownGoal.wrong, unit }
  const settings = keep('settings', [options.targets, options.goal, unit], () => ({
    ...DEFAULT_SETTINGS,
    ...targets,
    ownGoal,
    unit,
  }))
  return {
    kind: 'analysed',
    analysis: analyse({ ...logbook, kit, decisions, settings, periods }, keep),
  }
}

// The same objects each time, so that they are seen to be the same.
const NONE: readonly never[] = []
const NO_KIT: Kit = {}

function nothingRead(sources: readonly LogReport[]): RefusalReason {
  const byReason = setAsideByReason({ setAside: sources.flatMap(({ setAside }) => setAside) })
  const [most] = [...byReason].sort(([, a], [, b]) => b.length - a.length)
  return most ? { key: 'all-set-aside', most: most[0] } : { key: 'no-readings' }
}

/** Whether a period holds a reading of which figures are made: of a mixed logbook the finger-sticks. */
function holdsReadings(readings: Readings, { start, end }: { start: number; end: number }): boolean {
  let mixed = false
  for (let i = 0; i < readings.n && !mixed; i++) mixed = !hasFlag(readings, i, FLAG.sensor)
  for (let i = start; i < end; i++) if (!mixed || !hasFlag(readings, i, FLAG.sensor)) return true
  return false
}

function readAnswered(
  source: LogSource,
  { answers: forAll = {}, columnsWhereAsked = false }: VisitOptions,
  context: ImportContext,
  count: (bytes: number) => void,
): ReadLog | readonly Refusal[] {
  const answers = source.answers ?? forAll
  if (columnsWhereAsked && answers.columns !== undefined) {
    const { unit, dates } = answers
    const read = readLog(source, { ...(unit && { unit }), ...(dates && { dates }) }, context, count)
    if (isRead(read) || !read.some(({ question }) => question?.option === '--columns')) return read
  }
  return readLog(source, answers, context, count)
}

function isRead(log: ReadLog | readonly Refusal[]): log is ReadLog {
  return 'table' in log
}

function stopped(log: string | null, reason: RefusalReason): VisitOutcome {
  return {
    kind: 'stopped',
    refusals: [{ log, sha256: null, code: 'no-readings', line: null, reason, question: null }],
  }
}

/** The first log's unit; of a log that mixes units that of most of its rows, mg/dL where they tie. */
export function unitOfFirstLog(sources: readonly LogReport[], readings: Readings): GlucoseUnit {
  const unit = sources[0].unit.value
  if (unit !== 'mixed') return unit
  let mmol = 0
  let rows = 0
  for (let i = 0; i < readings.n; i++) {
    if (readings.source[i] !== 0) continue
    rows++
    if (readings.flags[i] & FLAG.mmol) mmol++
  }
  return 2 * mmol > rows ? 'mmol/L' : 'mg/dL'
}
