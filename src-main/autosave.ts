import { randomUUID } from 'node:crypto'
import { mkdir, readdir, readFile, rm, stat } from 'node:fs/promises'
import { join } from 'node:path'
import { parsedJson } from '../src-core/visit/format'
import type { Visit } from '../src-core/visit/visit'
import { isProtected } from './protection'
import { fileContent, type LoadedVisit, visitIn } from './visitStore'
import { isAlive, writeOutputs } from './writeFiles'

// What is not saved yet, in the program's own folder: a visit file led by one line that names the visit's own file.

const NAME = /^unsaved-(\d+)-[0-9a-f-]{36}\.visit$/

/** Keeps one window's visit while it is not saved. */
export interface Autosave {
  /** Writes the visit as it is now, enciphered where it has a passphrase; calls follow one another. */
  keep(visit: Visit, passphrase: string | null): Promise<void>
  /** After the visit was saved or its window closed. */
  remove(): Promise<void>
}

/** `visitPath`: the visit's own file, null where it has none yet. */
export function createAutosave(programFolder: string, visitPath: string | null): Autosave {
  const folder = unsavedIn(programFolder)
  const file = join(folder, `unsaved-${process.pid}-${randomUUID()}.visit`)
  let last: Promise<unknown> = Promise.resolve()
  const after = (action: () => Promise<void>): Promise<void> => {
    const next = last.then(action)
    last = next.catch(() => undefined)
    return next
  }
  return {
    keep: (visit, passphrase) =>
      after(async () => {
        const content = `${JSON.stringify({ visitPath })}\n${await fileContent(visit, passphrase)}`
        await mkdir(folder, { recursive: true, mode: 0o700 })
        await writeOutputs([{ path: file, content, ownerOnly: true }])
      }),
    remove: () => after(() => rm(file, { force: true })),
  }
}

/** A visit that a window left unsaved when its program died. */
export interface Unsaved {
  readonly file: string
  /** The visit's own file; null where it had none or cannot be told. */
  readonly visitPath: string | null
  readonly keptAtMs: number
  readonly isProtected: boolean
}

/** What programs that no longer run left unsaved, latest first. */
export async function unsavedVisits(programFolder: string): Promise<readonly Unsaved[]> {
  const folder = unsavedIn(programFolder)
  const names = await readdir(folder).catch(() => [])
  const found = names
    .filter((name) => {
      const pid = NAME.exec(name)?.[1]
      return pid !== undefined && !isAlive(Number(pid))
    })
    .map(async (name): Promise<Unsaved> => {
      const file = join(folder, name)
      const { visitPath, content } = parts(await readFile(file))
      const { mtimeMs } = await stat(file)
      return { file, visitPath, keptAtMs: mtimeMs, isProtected: isProtected(content.toString('utf8')) }
    })
  return (await Promise.all(found)).sort((a, b) => b.keptAtMs - a.keptAtMs)
}

/** The visit of an unsaved file; the file stays until it is removed. */
export async function loadUnsaved(file: string, ask: () => Promise<string>): Promise<LoadedVisit> {
  return visitIn(parts(await readFile(file)).content, ask)
}

function parts(bytes: Buffer): { readonly visitPath: string | null; readonly content: Buffer } {
  const end = bytes.indexOf('\n')
  const head = parsedJson(bytes.toString('utf8', 0, Math.max(end, 0))) as
    { visitPath?: unknown } | null | undefined
  const visitPath = typeof head?.visitPath === 'string' ? head.visitPath : null
  return { visitPath, content: bytes.subarray(end + 1) }
}

function unsavedIn(programFolder: string): string {
  return join(programFolder, 'unsaved')
}
