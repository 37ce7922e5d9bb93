import { createHash, randomUUID } from 'node:crypto'
import { link, readFile, rename, rm, stat, writeFile } from 'node:fs/promises'
import { hostname } from 'node:os'
import { basename, dirname, join } from 'node:path'
import { setTimeout } from 'node:timers/promises'
import { attempt, isAlive, partFile, realPath, WriteFailed } from './writeFiles'

/** Gives a lock back. */
export type Release = () => Promise<void>

/**
 * Tells other windows that a visit is open here. Null where another one has it open; a lock that a dead program left is
 * taken over. Where no file can be made beside the visit, there is nothing to keep apart: it cannot be saved either.
 */
export async function lockVisit(path: string): Promise<Release | null> {
  return takeLock(beside(path, 'open')).catch(() => () => Promise.resolve())
}

const LONGEST_SAVE_MS = 60_000
const LONGEST_WAIT_MS = 10_000

/** Keeps saves of one visit apart: each sees what the one before has written. Throws `WriteFailed`. */
export async function whileSaving<T>(path: string, save: () => Promise<T>): Promise<T> {
  const lock = beside(path, 'saving')
  for (let waited = 0; ; waited += 10) {
    const release = await attempt(path, () => takeLock(lock, LONGEST_SAVE_MS))
    if (release !== null) return save().finally(release)
    if (waited >= LONGEST_WAIT_MS) throw new WriteFailed(path, { code: 'beingSaved' })
    await setTimeout(10)
  }
}

function beside(path: string, what: string): string {
  const real = realPath(path)
  return join(dirname(real), `.${basename(real)}.${what}`)
}

/** This computer, without its name: the lock may lie in a folder that others see. */
const HERE = createHash('sha256').update(hostname()).digest('hex').slice(0, 16)

/** Locks of this process; one of its own that is not among them could not be removed. */
const held = new Set<string>()

/** Makes a lock file; null where it stands and its program lives, or was made less than so long ago. */
async function takeLock(lock: string, longestMs = Infinity): Promise<Release | null> {
  const mine = `${process.pid} ${HERE} ${randomUUID()}\n`
  held.add(mine)
  const isMine = await taken(lock, mine, longestMs).catch((error: unknown) => {
    held.delete(mine)
    throw error
  })
  if (!isMine) {
    held.delete(mine)
    return null
  }
  return async () => {
    held.delete(mine)
    if (((await contentOf(lock)) ?? mine) === mine) await rm(lock, { force: true }).catch(() => undefined)
  }
}

async function taken(lock: string, mine: string, longestMs: number): Promise<boolean> {
  if (await made(lock, mine)) return true
  if (!(await isStale(lock, longestMs))) return false
  // Moved away before it is looked at again: another program may have taken it over meanwhile.
  const aside = partFile(dirname(lock))
  await rename(lock, aside).catch(() => undefined)
  const wasStale = await isStale(aside, longestMs)
  if (!wasStale) await link(aside, lock).catch(() => undefined)
  await rm(aside, { force: true }).catch(() => undefined)
  return wasStale && made(lock, mine)
}

/** Whether the lock file could be made; it is never seen half-written. */
async function made(lock: string, content: string): Promise<boolean> {
  const part = partFile(dirname(lock))
  try {
    await writeFile(part, content, { flag: 'wx', mode: 0o600 })
    await link(part, lock).catch(async (error: NodeJS.ErrnoException) => {
      if (error.code === 'EEXIST') throw error
      // A file system without second names.
      await writeFile(lock, content, { flag: 'wx', mode: 0o600 })
    })
    return true
  } catch (error) {
    if ((error as NodeJS.ErrnoException).code === 'EEXIST') return false
    throw error
  } finally {
    await rm(part, { force: true }).catch(() => undefined)
  }
}

async function isStale(lock: string, longestMs: number): Promise<boolean> {
  const content = (await contentOf(lock)) ?? ''
  const [pid, computer] = content.split(' ')
  if (computer === HERE && !(Number(pid) === process.pid ? held.has(content) : isAlive(Number(pid))))
    return true
  const standing = await stat(lock).catch(() => null)
  return standing === null || Date.now() - standing.mtimeMs > longestMs
}

async function contentOf(lock: string): Promise<string | null> {
  return readFile(lock, 'utf8').catch(() => null)
}
