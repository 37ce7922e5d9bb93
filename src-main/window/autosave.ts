import { randomUUID } from 'node:crypto'
import { mkdir, readdir, readFile, rm, stat } from 'node:fs/promises'
import { join, resolve } from 'node:path'
import { z } from 'zod'
import { parsedJson } from '../../src-core/visit/format'
import type { Visit } from '../../src-core/visit/visit'
import { isProtected } from '../files/protection'
import { type AskPassphrase, fileContent, type LoadedVisit, visitIn } from '../files/visitStore'
import { attempt, isAlive, isSameFile, writeOutputs } from '../files/writeFiles'
import type { Words } from '../../src-core/wording/words'

// What is not saved yet, in the program's own folder: a visit file led by one line that names the visit's own file
// and, where it is not protected, tells what it holds.

const NAME = /^unsaved-(\d+)-[0-9a-f-]{36}\.visit$/

/** Keeps one window's visit while it is not saved. */
export interface Autosave {
  /**
   * Writes the visit as it is now, enciphered where it has a passphrase; calls follow one another. Throws `WriteFailed`.
   */
  keep(visit: Visit, passphrase: string | null, holds?: string): Promise<void>
  /** After the visit was saved or its window closed. */
  remove(): Promise<void>
}

/** A file that was given to the browser to save: nobody knows whether it did. */
export interface Handed {
  readonly name: string
  readonly sha256: string
}

/** `visitPath`: the visit's own file, null where it has none yet; `handed`: as what the browser was given it. */
export function createAutosave(
  programFolder: string,
  visitPath: string | null,
  handed: Handed | null = null,
): Autosave {
  const folder = unsavedFolder(programFolder)
  const file = join(folder, `unsaved-${process.pid}-${randomUUID()}.visit`)
  let last: Promise<unknown> = Promise.resolve()
  const after = (action: () => Promise<void>): Promise<void> => {
    const next = last.then(action)
    last = next.catch(() => undefined)
    return next
  }
  return {
    keep: (visit, passphrase, holds = '') =>
      after(async () => {
        const told = passphrase === null && holds !== '' ? { holds } : {}
        const head = { visitPath: visitPath && resolve(visitPath), ...told, ...(handed && { handed }) }
        const content = `${JSON.stringify(head)}\n${await fileContent(visit, passphrase)}`
        await attempt(folder, () => mkdir(folder, { recursive: true, mode: 0o700 }))
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
  /** What it holds, in words; '' where that is not told. */
  readonly holds: string
  /** Null where no browser was given it. */
  readonly handed: Handed | null
}

/** What programs that no longer run left unsaved, latest first. */
export async function unsavedVisits(programFolder: string): Promise<readonly Unsaved[]> {
  const folder = unsavedFolder(programFolder)
  const names = await readdir(folder).catch(() => [])
  const found = names
    .filter((name) => ownerOf(name) === 'dead')
    .map((name) => unsavedIn(join(folder, name)).catch(() => []))
  return (await Promise.all(found)).flat().sort((a, b) => b.keptAtMs - a.keptAtMs)
}

async function unsavedIn(file: string): Promise<readonly Unsaved[]> {
  const { visitPath, handed, holds, content } = parts(await readFile(file))
  const { mtimeMs } = await stat(file)
  return [
    { file, visitPath, keptAtMs: mtimeMs, isProtected: isProtected(content.toString('utf8')), holds, handed },
  ]
}

/** What was left unsaved of the visit in a file since it was last saved, the latest; null where nothing was. */
export async function newerUnsaved(programFolder: string, path: string): Promise<Unsaved | null> {
  const { mtimeMs } = await stat(path)
  const all = await unsavedVisits(programFolder)
  return (
    all.find(
      ({ visitPath, keptAtMs }) => visitPath !== null && isSameFile(visitPath, path) && keptAtMs > mtimeMs,
    ) ?? null
  )
}

/** Whether the program that left an unsaved file of this name lives; null where the name is of no such file. */
export function ownerOf(name: string): 'living' | 'dead' | null {
  const pid = NAME.exec(name)?.[1]
  return pid === undefined ? null : isAlive(Number(pid)) ? 'living' : 'dead'
}

/** The visit of an unsaved file, to be recovered; the file stays until it is discarded. */
export async function loadUnsaved(words: Words, file: string, ask: AskPassphrase): Promise<LoadedVisit> {
  return visitIn(words, parts(await readFile(file)).content, ask)
}

/** Removes an unsaved file: its visit was recovered and saved, or nobody wants it. */
export async function discardUnsaved(file: string): Promise<void> {
  await rm(file, { force: true })
}

/** Removes what is kept of a file that was given to the browser, once it is seen that it was saved. */
export async function discardHanded(programFolder: string, sha256: string): Promise<void> {
  for (const { file, handed } of await unsavedVisits(programFolder)) {
    if (handed?.sha256 === sha256) await discardUnsaved(file)
  }
}

const HANDED = z.object({ handed: z.object({ name: z.string(), sha256: z.string() }) })

function parts(
  bytes: Buffer,
): Pick<Unsaved, 'visitPath' | 'handed' | 'holds'> & { readonly content: Buffer } {
  const end = bytes.indexOf('\n')
  const head = parsedJson(bytes.toString('utf8', 0, Math.max(end, 0))) as
    { visitPath?: unknown; holds?: unknown } | null | undefined
  const visitPath = typeof head?.visitPath === 'string' ? head.visitPath : null
  const holds = typeof head?.holds === 'string' ? head.holds : ''
  const handed = HANDED.safeParse(head).data?.handed ?? null
  return { visitPath, handed, holds, content: bytes.subarray(end + 1) }
}

export function unsavedFolder(programFolder: string): string {
  return join(programFolder, 'unsaved')
}
