import { accessSync, constants, fstatSync, realpathSync, type Stats, statSync } from 'node:fs'
import { open, rename, rm } from 'node:fs/promises'
import { randomUUID } from 'node:crypto'
import { basename, dirname, join, resolve } from 'node:path'

/** A file to be written. */
export interface Output {
  readonly path: string
  readonly content: string | Uint8Array
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
  const beside: { readonly from: string; readonly to: string; readonly path: string }[] = []
  try {
    for (const { path, content } of outputs) {
      const to = real(path)
      const from = join(dirname(to), `.${randomUUID()}.part`)
      beside.push({ from, to, path })
      await attempt(path, () => writeWhole(from, content))
    }
    for (const { from, to, path } of beside) await attempt(path, () => rename(from, to))
    for (const folder of new Set(beside.map(({ to }) => dirname(to)))) await syncFolder(folder)
  } finally {
    for (const { from } of beside) await rm(from, { force: true })
  }
}

async function attempt(path: string, action: () => Promise<void>): Promise<void> {
  try {
    await action()
  } catch (error) {
    throw new WriteFailed(path, reason(error, 'it'))
  }
}

/** Writes all of it, to the disk itself; a full disk fails here, not after the old file is gone. */
async function writeWhole(path: string, content: string | Uint8Array): Promise<void> {
  const file = await open(path, 'wx')
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
  return real(a) === real(b)
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
function real(path: string): string {
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
