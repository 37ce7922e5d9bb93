import { createHash, randomUUID } from 'node:crypto'
import {
  appendFileSync,
  closeSync,
  mkdirSync,
  openSync,
  readdirSync,
  readFileSync,
  readSync,
  renameSync,
  rmSync,
  statSync,
  writeFileSync,
} from 'node:fs'
import { join } from 'node:path'
import { z } from 'zod'
import type { Kit } from '../../src-core/kit/kit'
import type { Command } from './commandLine'
import { isPart } from '../files/writeFiles'
import type { FolderJob, FolderOutcome } from './folderWorker'

// What the computers of a queue tell one another by the shared folder of the reports, so that no figure, note or label goes
// over the network of the queue: there go the paths of logs and reports within their folders, and hashes.

/** In the folder of the reports. */
const FOLDER = '.queue'
/** What the longest run may still look for. */
const KEPT_MS = 7 * 24 * 3_600_000

const SHA256 = z.string().regex(/^[0-9a-f]{64}$/)

/** What goes over the network of one log. */
export const QUEUE_JOB = z.strictObject({
  /** Of the program that asks. */
  version: z.string(),
  log: z.strictObject({ name: z.string(), paths: z.array(z.string()), report: z.string() }),
  /** SHA-256 of the log’s bytes. */
  meant: SHA256,
  /** SHA-256 of all else that the report depends on. */
  options: SHA256,
  /** SHA-256 and name of the file that tells these options. */
  settings: SHA256,
})
export type QueueJob = z.infer<typeof QUEUE_JOB>

/** What comes back: where in the shared folder the outcome stands. */
export interface QueueDone {
  readonly file: string
  readonly from: number
  readonly bytes: number
  readonly sha256: string
}

/** What is told to workers by a file: the same for all logs. */
export interface QueueSettings extends Pick<FolderJob, 'nowMs' | 'zones'> {
  readonly command: Command
  readonly kit: Kit | null
}

/** The name of the queue of this folder of reports, for whoever comes first and all others. */
export function queueName(out: string): string {
  const folder = join(out, FOLDER)
  const mine = join(out, `${FOLDER}-${randomUUID()}`)
  mkdirSync(mine, { recursive: true })
  writeFileSync(join(mine, 'id'), randomUUID())
  try {
    // Onto a folder that holds something nothing is moved: so one of several wins.
    renameSync(mine, folder)
  } catch {
    rmSync(mine, { recursive: true })
  }
  return `visit-report-${readFileSync(join(folder, 'id'), 'utf8')}`
}

/** Writes settings for workers; gives their hash. */
export function writeSettings(out: string, { command, kit, nowMs, zones }: QueueSettings): string {
  const diaryDays = command.diaryDays === Infinity ? 'all' : command.diaryDays
  const told = { ...command, diaryDays, queue: null, each: null, outputs: { ...command.outputs, out: null } }
  const text = JSON.stringify({ command: told, kit, nowMs, zones })
  const hash = sha256(text)
  const path = join(out, FOLDER, `${hash}.json`)
  const part = `${path}.${randomUUID()}`
  writeFileSync(part, text)
  renameSync(part, path)
  return hash
}

/** Settings as another computer wrote them; null where they do not stand here. */
export function readSettings(out: string, hash: string): QueueSettings | null {
  const text = textAt(join(out, FOLDER, `${hash}.json`))
  if (text === null || sha256(text) !== hash) return null
  const settings = JSON.parse(text) as Omit<QueueSettings, 'command'> & {
    readonly command: Omit<Command, 'diaryDays'> & { readonly diaryDays: number | 'all' | null }
  }
  const { diaryDays } = settings.command
  return {
    ...settings,
    command: { ...settings.command, diaryDays: diaryDays === 'all' ? Infinity : diaryDays },
  }
}

/** Keeps outcomes in a file of this worker alone. */
export function outcomesIn(out: string): (outcome: FolderOutcome) => QueueDone {
  const file = `${randomUUID()}.jsonl`
  const path = join(out, FOLDER, file)
  return (outcome) => {
    const line = Buffer.from(`${JSON.stringify(outcome)}\n`)
    const from = statSync(path, { throwIfNoEntry: false })?.size ?? 0
    appendFileSync(path, line)
    return { file, from, bytes: line.length, sha256: sha256(line) }
  }
}

/** An outcome that a worker kept; null where it does not stand here (yet). */
export function outcomeAt(out: string, { file, from, bytes, sha256: hash }: QueueDone): FolderOutcome | null {
  try {
    const opened = openSync(join(out, FOLDER, file), 'r')
    try {
      const line = Buffer.alloc(bytes)
      readSync(opened, line, 0, bytes, from)
      return sha256(line) === hash ? (JSON.parse(line.toString()) as FolderOutcome) : null
    } finally {
      closeSync(opened)
    }
  } catch {
    return null
  }
}

/** Removes what no run looks for any more. */
export function clearQueueFolder(out: string): void {
  const told = readdirSync(join(out, FOLDER)).filter((name) => name !== 'id')
  // What a killed worker of another computer had half-written: only that computer knows earlier.
  const parts = readdirSync(out).filter(isPart)
  for (const path of [
    ...told.map((name) => join(out, FOLDER, name)),
    ...parts.map((name) => join(out, name)),
  ]) {
    const of = statSync(path, { throwIfNoEntry: false })
    if (of && of.mtimeMs < Date.now() - KEPT_MS) rmSync(path, { force: true })
  }
}

/** Why a worker left a log alone. */
export const OTHER_INPUTS = 'other-inputs'

export function sha256(text: string | Uint8Array): string {
  return createHash('sha256').update(text).digest('hex')
}

function textAt(path: string): string | null {
  try {
    return readFileSync(path, 'utf8')
  } catch {
    return null
  }
}
