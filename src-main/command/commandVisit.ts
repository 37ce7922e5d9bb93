import { closeSync, openSync, readFileSync, readSync, statSync } from 'node:fs'
import { basename } from 'node:path'
import type { Kit } from '../../src-core/kit/kit'
import type { LogSource } from '../../src-core/log/logSource'
import { type Edit, edited } from '../../src-core/visit/edits'
import { EMPTY_VISIT, type Visit, type VisitLog } from '../../src-core/visit/visit'
import { beginsAsVisit } from '../../src-core/visit/format'
import { requestOf } from '../../src-core/visit/visitRequest'
import { BYTE_TOOLS } from '../files/byteTools'
import { unpacked } from '../files/attachments'
import type { AttachmentFault } from '../../src-core/model/attachmentFault'
import { isPdf } from '../../src-core/log/encoding'
import type { Command } from './commandLine'
import { logInFile, logInMemory, logOnStandardInput } from '../files/logFiles'
import type { Words } from '../../src-core/wording/words'

/** Bytes that tell a visit file from a log. */
const START = 64

/** Whether a visit stands in the file; throws where it cannot be opened. */
export function isVisitFile(path: string): boolean {
  // A pipe would be waited for, or lose what is read of it.
  if (!statSync(path).isFile()) return false
  const file = openSync(path, 'r')
  try {
    const start = Buffer.alloc(START)
    return beginsAsVisit(start.toString('utf8', 0, readSync(file, start)))
  } finally {
    closeSync(file)
  }
}

/** Whether a log that was opened turns out to be a visit. */
export function isVisit(log: LogSource): boolean {
  const [start = new Uint8Array()] = log.chunks()
  return beginsAsVisit(Buffer.from(start.subarray(0, START)).toString('utf8'))
}

/** A visit that the command line names; no path where a report carries it. */
export interface NamedVisit {
  readonly name: string
  readonly path: string | null
  readonly bytes: Buffer
}

/** A log, or what a report in its place carries. */
export async function unpackedLog(
  log: LogSource,
): Promise<
  | { readonly logs: readonly LogSource[]; readonly visits: readonly NamedVisit[] }
  | { readonly fault: AttachmentFault }
> {
  const [start = new Uint8Array()] = log.chunks()
  if (!isPdf(start)) return { logs: [log], visits: [] }
  const carried = await unpacked({ name: log.name, bytes: new Uint8Array(Buffer.concat([...log.chunks()])) })
  if ('fault' in carried) return carried
  const all = carried.files.map(({ name, bytes }) => ({
    log: logInMemory(name, bytes),
    bytes: Buffer.from(bytes),
  }))
  const [visits, logs] = [all.filter((one) => isVisit(one.log)), all.filter((one) => !isVisit(one.log))]
  return {
    logs: logs.map((one) => one.log),
    visits: visits.map(({ log: { name }, bytes }) => ({ name, path: null, bytes })),
  }
}

/** A log opened as the command line names it; '-' is standard input. Throws where it cannot be opened. */
export async function openLog(words: Words, path: string): Promise<LogSource> {
  return path === '-' ? logOnStandardInput(words.commandLine.STANDARD_INPUT) : logInFile(path)
}

/** The visit that a command asks for, and the logs to read for it. */
export interface Asked {
  readonly visit: Visit
  readonly sources: readonly LogSource[]
}

/**
 * A visit with what the command line says of it. Where the visit itself is kept, the new logs become part of it; else
 * they are read from their files piece by piece.
 */
export function askedOf(
  words: Words,
  opened: Visit | null,
  logs: readonly LogSource[],
  command: Command,
  kit: Kit | null,
): Asked {
  const keep = opened !== null || command.outputs.save !== null
  const visit = edited(opened ?? EMPTY_VISIT, { kind: 'set', settings: settingsOf(command, kit) })
  const answered = logs.map((log) => ({ ...log, answers: command.answers }))
  if (!keep) return { visit, sources: answered }
  // Answers are meant for the new logs; where there are none, for those of the visit.
  const whole =
    logs.length === 0
      ? {
          ...visit,
          logs: visit.logs.map((log) => ({ ...log, answers: { ...log.answers, ...command.answers } })),
        }
      : edited(visit, { kind: 'add-logs', logs: answered.map(inMemory) })
  return { visit: whole, sources: requestOf(words, whole, BYTE_TOOLS).sources }
}

/** What the command line asks for, nothing of what it leaves out. */
function settingsOf(command: Command, kit: Kit | null): Extract<Edit, { kind: 'set' }>['settings'] {
  const { shifts, period, versus, targets, goal, unit, zone, paper, label, diaryDays } = command
  return {
    ...(kit && { kit }),
    ...(shifts.length > 0 && { shifts }),
    ...(period && { period, versus }),
    ...(targets && { targets }),
    ...(goal && { goal }),
    ...(unit && { unit }),
    ...(zone !== null && { zone }),
    ...(paper && { paper }),
    ...(label !== null && { label }),
    ...(diaryDays !== null && { diary: diaryDays === Infinity ? 'all' : diaryDays }),
  }
}

function inMemory(log: LogSource): VisitLog {
  const { name, sha256, answers = {} } = log
  return { name: basename(name), sha256, answers, bytes: new Uint8Array(Buffer.concat([...log.chunks()])) }
}

/**
 * The passphrase from a file descriptor, without the line end behind it. Throws where it cannot be read or is no UTF-8:
 * what stands for unreadable bytes would be the same for many passphrases.
 */
export function passphraseFrom(descriptor: number): string {
  const bytes = readFileSync(descriptor)
  return new TextDecoder('utf-8', { fatal: true, ignoreBOM: true }).decode(bytes).replace(/\r?\n$/, '')
}
