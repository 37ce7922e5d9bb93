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
import { logInFile, logInMemory, logOnStandardInput, NotAFile } from '../files/logFiles'
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
function isVisit(log: LogSource): boolean {
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
async function unpackedLog(
  log: LogSource,
): Promise<
  | { readonly logs: readonly LogSource[]; readonly visits: readonly NamedVisit[] }
  | { readonly fault: AttachmentFault }
> {
  const [start = new Uint8Array()] = log.chunks()
  if (!isPdf(start)) return { logs: [log], visits: [] }
  const carried = await unpacked({ name: log.name, bytes: new Uint8Array(Buffer.concat([...log.chunks()])) })
  if ('fault' in carried) return carried
  // A PDF that carries nothing comes back as it is.
  if (carried.files.every(({ bytes }) => isPdf(bytes))) return { logs: [log], visits: [] }
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
async function openLog(words: Words, path: string): Promise<LogSource> {
  return path === '-' ? logOnStandardInput(words.commandLine.STANDARD_INPUT) : logInFile(path)
}

/** Logs and visits as they are named; `told`: what has to be said of them, of a refusal why. */
export interface Named {
  readonly logs: readonly LogSource[]
  readonly visits: readonly NamedVisit[]
  readonly told: readonly string[]
  readonly isRefused: boolean
}

/** Opens what is named: logs, visits, reports that carry their readings. */
export async function openNamed(words: Words, paths: readonly string[]): Promise<Named> {
  const logs: LogSource[] = []
  const visits: NamedVisit[] = []
  const told: string[] = []
  const refused = (message: string): Named => ({ logs, visits, told: [...told, message], isRefused: true })
  for (const path of paths) {
    try {
      if (path !== '-' && isVisitFile(path)) {
        visits.push({ name: path, path, bytes: readFileSync(path) })
        continue
      }
      const log = await openLog(words, path)
      if (isVisit(log)) {
        return refused(`${log.name}: ${words.visitFile.VISIT_ON_STANDARD_INPUT} (visit-unreadable)`)
      }
      const carried = await unpackedLog(log)
      if ('fault' in carried) {
        const code = carried.fault === 'unreadable' ? 'not-text' : 'unreadable-file'
        return refused(`${log.name}: ${words.attachments.ATTACHMENT_FAULT[carried.fault]} (${code})`)
      }
      if (!carried.logs.includes(log) && carried.logs.length > 0) {
        told.push(`${log.name}: ${words.attachments.READINGS_ALONE}`)
      }
      logs.push(...carried.logs)
      visits.push(...carried.visits)
    } catch (error) {
      return refused(`${path}: ${cannotOpen(words, error)} (unreadable-file)`)
    }
  }
  return { logs, visits, told, isRefused: false }
}

/** Why a file cannot be opened, in words. */
export function cannotOpen(words: Words, error: unknown): string {
  if (error instanceof NotAFile) return words.commandLine.cannotOpenText('not-a-file')
  return words.commandLine.cannotOpenText((error as NodeJS.ErrnoException).code ?? String(error))
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
