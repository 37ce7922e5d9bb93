import type { TypedReading } from '../model/decision'
import Papa from 'papaparse'
import { afresh, type Keep } from '../model/keep'
import type { VisitOptions } from '../analysis/openVisit'
import type { LogSource } from '../log/logSource'
import { type DaySpan, type Readings } from '../log/readings'
import { dayOf } from '../units/wallClock'
import { TYPED_METER } from '../log/typedByHand'
import type { Visit, VisitLog } from './visit'
import type { ByteTools } from './visitFile'
import type { Words } from '../wording/words'

/** What `openVisit` needs to make a visit's report: the command line and every window ask for it with this. */
export function requestOf(
  words: Words,
  visit: Visit,
  tools: ByteTools,
  keep: Keep = afresh,
): { readonly sources: readonly LogSource[]; readonly options: VisitOptions } {
  const { logs, typed, decisions, kit, shifts, period, versus, targets, goal, unit } = visit
  return {
    sources: [
      ...logs.map((log) => keep(`source ${log.sha256}`, [log], () => sourceOf(log))),
      ...(typed.length === 0 ? [] : [keep('typed', [typed], () => typedLog(words, typed, tools))]),
    ],
    options: {
      decisions,
      kit,
      shifts,
      ...(period && { period }),
      ...(versus && { versus }),
      ...(targets && { targets }),
      ...(goal && { goal }),
      ...(unit && { unit }),
    },
  }
}

function sourceOf({ name, sha256, bytes, answers }: VisitLog): LogSource {
  return { name, sha256, bytes: bytes.length, answers, chunks: () => [bytes] }
}

/** Readings typed by hand are read as any other log, and named as what they are. */
function typedLog(words: Words, typed: readonly TypedReading[], tools: ByteTools): LogSource {
  const rows = typed.map(({ at, value, unit, meal = '', note = '' }) => [
    at,
    String(value),
    unit,
    TYPED_METER,
    meal,
    note,
  ])
  const text = Papa.unparse([['time', 'glucose', 'unit', 'meter', 'meal', 'note'], ...rows], {
    newline: '\n',
  })
  const bytes = new TextEncoder().encode(`${text}\n`)
  return {
    name: words.typed.TYPED_NAME,
    sha256: tools.sha256(bytes),
    bytes: bytes.length,
    typed: true,
    chunks: () => [bytes],
  }
}

/**
 * The periods of a visit to which logs were added: the days since its own logs ended, and the days before. Null where
 * the new logs hold nothing later. `isOld`: whether a log, by its place in the logbook, was in the visit already.
 */
export function sinceLastVisit(
  readings: Readings,
  isOld: (source: number) => boolean,
): { readonly period: DaySpan; readonly versus: DaySpan } | null {
  let first = Infinity
  let last = -Infinity
  for (let i = 0; i < readings.n; i++) {
    if (!isOld(readings.source[i])) continue
    const day = dayOf(readings.at[i])
    first = Math.min(first, day)
    last = Math.max(last, day)
  }
  if (last === -Infinity || readings.n === 0) return null
  const to = dayOf(readings.at[readings.n - 1])
  return to > last ? { period: { from: last + 1, to }, versus: { from: first, to: last } } : null
}
