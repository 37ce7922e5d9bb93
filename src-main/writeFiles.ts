import { accessSync, constants, realpathSync, statSync } from 'node:fs'
import { dirname, resolve } from 'node:path'
import writeFileAtomic from 'write-file-atomic'

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
  const standing = statSync(path, { throwIfNoEntry: false })
  if (standing?.isDirectory())
    throw new WriteFailed(path, 'a folder of that name stands there. Choose another name.')
}

/** Writes files one by one; each is whole or as it was before. Throws `WriteFailed`. */
export async function writeOutputs(outputs: readonly Output[]): Promise<void> {
  for (const { path, content } of outputs) {
    try {
      const data = typeof content === 'string' ? content : Buffer.from(content)
      await writeFileAtomic(path, data)
    } catch (error) {
      throw new WriteFailed(path, reason(error, 'it'))
    }
  }
}

/** Whether two paths lead to one file, links followed. */
export function isSameFile(a: string, b: string): boolean {
  return real(a) === real(b)
}

function real(path: string): string {
  try {
    return realpathSync(path)
  } catch {
    return resolve(path)
  }
}

const REASONS: Readonly<Record<string, string>> = {
  ENOENT: 'does not exist. Create the folder first or choose another.',
  EACCES: 'may not be written to. Choose another folder.',
  EPERM: 'may not be written to, or is open in another program. Close it or choose another name.',
  EROFS: 'is read-only. Choose another folder.',
  ENOSPC: 'does not fit: the disk is full.',
  ENOTDIR: 'is not a folder. Choose another place.',
}

function reason(error: unknown, what: string): string {
  const code = (error as NodeJS.ErrnoException).code ?? ''
  return `${what} ${REASONS[code] ?? `failed (${code || String(error)}).`}`
}
