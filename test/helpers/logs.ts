import { createHash } from 'node:crypto'
import { mergeLogs, type Logbook } from '../../src-core/log/logbook'
import type { LogReport } from '../../src-core/log/logReport'
import type { ImportContext, LogAnswers, LogSource } from '../../src-core/log/logSource'
import { readLog } from '../../src-core/log/readLog'
import type { Refusal } from '../../src-core/log/refusal'
import {
  choiceEffect,
  choiceExample,
  choiceLabel,
  noteText,
  refusalText,
} from '../../src-core/wording/english/importMessages'

/** A moment and zone for tests: 30 June 2026, noon UTC, in Berlin. */
export const CONTEXT: ImportContext = { nowMs: Date.UTC(2026, 5, 30, 12), zone: 'Europe/Berlin' }

/** A log held in memory; text is encoded as UTF-8. */
export function logOf(content: string | Uint8Array, name = 'log.csv', pieceSize = 65_536): LogSource {
  const bytes = typeof content === 'string' ? new TextEncoder().encode(content) : content
  return {
    name,
    bytes: bytes.length,
    sha256: createHash('sha256').update(bytes).digest('hex'),
    *chunks() {
      for (let at = 0; at < bytes.length; at += pieceSize) yield bytes.subarray(at, at + pieceSize)
    },
  }
}

/** Reads and merges logs; throws where one is refused. */
export function logbookOf(
  logs: readonly (string | Uint8Array | LogSource)[],
  answers: LogAnswers = {},
  context: ImportContext = CONTEXT,
): Logbook {
  const read = logs.map((log) =>
    readLog(typeof log === 'string' || log instanceof Uint8Array ? logOf(log) : log, answers, context),
  )
  return mergeLogs(
    read.map((log) => {
      if ('table' in log) return log
      throw new Error(log.map((refusal) => `${refusal.code}: ${refusalTold(refusal)}`).join('\n'))
    }),
    context,
  )
}

/** Why a log was not read, or what is asked, as it is told. */
export function refusalTold(
  { reason, question }: Refusal,
  place: 'terminal' | 'window' = 'terminal',
): string {
  return refusalText(reason, question?.choices ?? [], place)
}

/** The answers that are offered, as they are told. */
export function choicesTold({ question }: Refusal) {
  return (question?.choices ?? []).map((choice) => ({
    answer: choice.answer,
    label: choiceLabel(choice),
    example: choiceExample(choice),
    effect: choiceEffect(choice),
  }))
}

/** What the terminal says of how a log was read. */
export function notesOf({ notes }: LogReport): readonly string[] {
  return notes.map((note) => noteText(note, 'terminal'))
}

/** The refusals of a log that must not be read. */
export function refusalsOf(
  log: string | Uint8Array,
  answers: LogAnswers = {},
  context: ImportContext = CONTEXT,
): readonly Refusal[] {
  const read = readLog(logOf(log), answers, context)
  if ('table' in read) throw new Error('the log was read')
  return read
}
