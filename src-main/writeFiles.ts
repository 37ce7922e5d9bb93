import { accessSync, constants, fstatSync, realpathSync, type Stats, statSync } from 'node:fs'
import { copyFile, link, open, readdir, rename, rm } from 'node:fs/promises'
import { randomUUID } from 'node:crypto'
import { basename, dirname, join, resolve } from 'node:path'
import { setTimeout } from 'node:timers/promises'

/** A file to be written. */
export interface Output {
  readonly path: string
  readonly content: string | Uint8Array
  /** Readable by its owner alone. */
  readonly ownerOnly?: boolean
  /** Where what stood there is kept; null or left out keeps it nowhere. */
  readonly keepAs?: string | null
}

/** An output that could not be written; what stood there before is untouched. */
export class WriteFailed extends Error {
  constructor(
    readonly path: string,
    why: string,
  ) {
    super(`${path} could not be written: ${why}`)
  }
}

/** Says before any work is done whether a file can be written at a path. Throws `WriteFailed`. */
export function checkWritable(path: string): void {
  const folder = dirname(resolve(path))
  try {
    accessSync(folder, constants.W_OK)
  } catch (error) {
    throw new WriteFailed(path, reason(error, `the folder ${folder}`))
  }
  const standing = standingAt(path)
  if (standing?.isDirectory())
    throw new WriteFailed(path, 'a folder of that name stands there. Choose another name.')
  if (standing && !standing.isFile())
    throw new WriteFailed(path, 'it is a device, not a file. Choose another name.')
  if (standing && (standing.mode & ANYONE_MAY_WRITE) === 0)
    throw new WriteFailed(path, 'the file that stands there is read-only. Choose another name.')
}

const ANYONE_MAY_WRITE = 0o222

function standingAt(path: string): Stats | undefined {
  try {
    return statSync(path, { throwIfNoEntry: false })
  } catch (error) {
    throw new WriteFailed(path, reason(error, 'it'))
  }
}

/**
 * Writes files so that each is whole or as it was before: all are written beside their places first, then
 * moved there. Throws `WriteFailed`.
 */
export async function writeOutputs(outputs: readonly Output[]): Promise<void> {
  const beside: { readonly from: string; readonly to: string; readonly output: Output }[] = []
  try {
    for (const output of outputs) {
      const { path, content, ownerOnly = false } = output
      const to = realPath(path)
      await clearLeftovers(dirname(to))
      const from = partFile(dirname(to))
      beside.push({ from, to, output })
      await attempt(path, () => writeWhole(from, content, ownerOnly ? OWNER_ONLY : undefined))
    }
    for (const { from, to, output } of beside) {
      await attempt(output.path, async () => {
        if (output.keepAs) await keepStanding(to, output.keepAs)
        await moved(from, to)
      })
    }
    for (const folder of new Set(beside.map(({ to }) => dirname(to)))) await syncFolder(folder)
  } finally {
    for (const { from } of beside) await removed(from)
  }
}

const OWNER_ONLY = 0o600

/** Where the previous version of a file is kept. */
export function previousOf(path: string): string {
  return `${path}.previous`
}

/** Where a damaged file is kept whose previous version stays. */
export function damagedOf(path: string): string {
  return `${path}.damaged`
}

/** A second name for what stands there, so that moving the new file over it leaves the old one. */
async function keepStanding(path: string, keepAs: string): Promise<void> {
  const second = partFile(dirname(path))
  try {
    try {
      await link(path, second)
    } catch (error) {
      if ((error as NodeJS.ErrnoException).code === 'ENOENT') return
      // A file system without second names: a copy does as well.
      await copyFile(path, second, constants.COPYFILE_EXCL)
    }
    await moved(second, keepAs)
  } finally {
    await removed(second)
  }
}

/** Removes a file that may be there; one that cannot be removed is cleared by a later save. */
async function removed(path: string): Promise<void> {
  await rm(path, { force: true }).catch(() => undefined)
}

const LONGEST_WAIT_MS = 1_000

/** Windows refuses to move over a file that a virus scanner or the like holds open for a moment. */
async function moved(from: string, to: string): Promise<void> {
  for (let wait = 10; ; wait *= 2) {
    try {
      return await rename(from, to)
    } catch (error) {
      const { code = '' } = error as NodeJS.ErrnoException
      const isHeld = process.platform === 'win32' && ['EPERM', 'EACCES', 'EBUSY'].includes(code)
      if (!isHeld || wait > LONGEST_WAIT_MS / 2) throw error
      await setTimeout(wait)
    }
  }
}

const PART = /^\.visit-report-(\d+)-[0-9a-f-]{36}\.part$/

/** A name for a file that is to be moved to its place or removed; the next save clears it if this program dies. */
export function partFile(folder: string): string {
  return join(folder, `.visit-report-${process.pid}-${randomUUID()}.part`)
}

/** Whether a file of this name is what a killed program left half-written. */
export function isLeftover(name: string): boolean {
  const pid = PART.exec(name)?.[1]
  return pid !== undefined && !isAlive(Number(pid))
}

/** Half-written files that a killed program left in a folder; those of a living one stay. */
async function clearLeftovers(folder: string): Promise<void> {
  const names = await readdir(folder).catch(() => [])
  for (const name of names) {
    if (isLeftover(name)) await removed(join(folder, name))
  }
}

/** Whether a process of this computer runs. */
export function isAlive(pid: number): boolean {
  try {
    process.kill(pid, 0)
    return true
  } catch (error) {
    return (error as NodeJS.ErrnoException).code === 'EPERM'
  }
}

/** Does it; what fails is told of the path. Throws `WriteFailed`. */
export async function attempt<T>(path: string, action: () => Promise<T>): Promise<T> {
  try {
    return await action()
  } catch (error) {
    throw error instanceof WriteFailed ? error : new WriteFailed(path, reason(error, 'it'))
  }
}

/** Writes all of it, to the disk itself; a full disk fails here, not after the old file is gone. */
async function writeWhole(path: string, content: string | Uint8Array, mode?: number): Promise<void> {
  const file = await open(path, 'wx', mode)
  try {
    await file.writeFile(content)
    await file.sync()
  } finally {
    await file.close()
  }
}

/** Makes the moves last where the system can; Windows cannot open folders. */
async function syncFolder(folder: string): Promise<void> {
  try {
    const handle = await open(folder, 'r')
    try {
      await handle.sync()
    } finally {
      await handle.close()
    }
  } catch {
    // The files are written and in place; only their survival of a power cut within seconds is not sure.
  }
}

/** Whether two paths lead to one file, links followed. */
export function isSameFile(a: string, b: string): boolean {
  return realPath(a) === realPath(b)
}

/** Whether standard input comes from the file at a path. */
export function isStandardInput(path: string): boolean {
  try {
    const [input, file] = [fstatSync(0), statSync(path)]
    return input.isFile() && input.dev === file.dev && input.ino === file.ino
  } catch {
    return false
  }
}

/** The path with links followed, also where the file itself is yet to be made. */
export function realPath(path: string): string {
  try {
    return realpathSync(path)
  } catch {
    const whole = resolve(path)
    try {
      return join(realpathSync(dirname(whole)), basename(whole))
    } catch {
      return whole
    }
  }
}

const REASONS: Readonly<Record<string, string>> = {
  ENOENT: 'does not exist. Create the folder first or choose another.',
  EACCES: 'may not be written to. Choose another folder.',
  EPERM: 'may not be written to, or is open in another program. Close it or choose another name.',
  EROFS: 'is read-only. Choose another folder.',
  ENOSPC: 'does not fit: the disk is full.',
  EDQUOT: 'does not fit: your share of the disk is full.',
  ENOTDIR: 'is not a folder. Choose another place.',
  ELOOP: 'is a link that leads back to itself. Choose another name.',
  ENAMETOOLONG: 'has too long a name. Choose a shorter one.',
}

function reason(error: unknown, what: string): string {
  const code = (error as NodeJS.ErrnoException).code ?? ''
  return `${what} ${REASONS[code] ?? `failed (${code || String(error)}).`}`
}
