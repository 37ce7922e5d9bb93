import { accessSync, constants, fstatSync, realpathSync, statSync } from 'node:fs'
import { copyFile, type FileHandle, link, open, readdir, rename, rm, writeFile } from 'node:fs/promises'
import { createHash, randomUUID } from 'node:crypto'
import { hostname } from 'node:os'
import { basename, dirname, join, resolve } from 'node:path'
import { setTimeout } from 'node:timers/promises'
import { isMainThread } from 'node:worker_threads'
import { type FileKind, fileKind } from './fileKind'
import type { NotWritten, WriteFault } from '../../src-core/model/notWritten'

/** A file to be written. */
export interface Output {
  readonly path: string
  /** In pieces where the whole would take much memory. */
  readonly content: string | Uint8Array | Iterable<string>
  /** Readable by its owner alone, whatever stood there. Else it keeps the mode of the file that it replaces. */
  readonly ownerOnly?: boolean
  /** Where what stood there is kept; null or left out keeps it nowhere. */
  readonly keepAs?: string | null
  /** Whether a visit, and a file that is not this program's, stay as they are: then nothing is written. */
  readonly sparesOthers?: boolean
}

/** An output that could not be written; what stood there before is untouched. */
export class WriteFailed extends Error {
  constructor(
    path: string,
    why: WriteFault,
    readonly fault: NotWritten = { path, why, run: null },
  ) {
    super(`${path}: ${why.code}`)
  }

  /** The same, with which files of the run are in place. */
  of(run: NonNullable<NotWritten['run']>): WriteFailed {
    const { path, why } = this.fault
    return new WriteFailed(path, why, { path, why, run })
  }
}

/** Says before any work is done whether a file can be written at a path. Throws `WriteFailed`. */
export function checkWritable({ path, sparesOthers = false }: Omit<Output, 'content'>): void {
  const kind = kindAt(path)
  if (kind === 'device') return checkDevice(path)
  const folder = dirname(resolve(path))
  try {
    accessSync(folder, constants.W_OK)
  } catch (error) {
    throw systemFault(path, error, folder)
  }
  if (kind === 'folder') throw new WriteFailed(path, { code: 'folder-stands' })
  if (kind !== 'nothing' && (statSync(path).mode & ANYONE_MAY_WRITE) === 0)
    throw new WriteFailed(path, { code: 'read-only' })
  if (sparesOthers && (kind === 'visit' || kind === 'other'))
    throw new WriteFailed(path, { code: 'spared', stands: kind })
}

const ANYONE_MAY_WRITE = 0o222

/** Pipes, terminals and the like take what is written; a disk would be destroyed. */
function checkDevice(path: string): void {
  if (statSync(path).isBlockDevice()) throw new WriteFailed(path, { code: 'disk' })
}

/** What stands at a path. Throws `WriteFailed` where that cannot be told. */
export function kindAt(path: string): FileKind {
  try {
    return fileKind(path)
  } catch (error) {
    throw systemFault(path, error)
  }
}

/** Whether what is written to a path goes on to a pipe, a terminal or the like. Throws `WriteFailed`. */
export function isDevice(path: string): boolean {
  return kindAt(path) === 'device'
}

/** An output that is written beside its place. */
interface Staged {
  readonly output: Output
  readonly from: string
  readonly to: string
}

/**
 * Writes files all or none: all are written beside their places and synced first, then moved there in the given order.
 * Where one fails, those that were moved are taken back, and the message says so. Throws `WriteFailed`.
 */
export async function writeOutputs(outputs: readonly Output[]): Promise<void> {
  const staged: Staged[] = []
  const placed: Placed[] = []
  const devices = outputs.filter(({ path }) => isDevice(path))
  const files = outputs.filter((output) => !devices.includes(output))
  try {
    for (const output of files) {
      const to = realPath(output.path)
      await clearLeftovers(dirname(to))
      const from = partFile(dirname(to))
      staged.push({ output, from, to })
      await attempt(output.path, () => writeWhole(from, to, output))
    }
    // What a pipe took cannot be taken back: files follow only where it took all.
    for (const { path, content } of devices) await attempt(path, () => writeFile(path, content))
    for (const one of staged) {
      placed.push(await attempt(one.output.path, () => place(one, placed.length < staged.length - 1)))
    }
    for (const folder of new Set(staged.map(({ to }) => dirname(to)))) await syncFolder(folder)
  } catch (error) {
    if (!(error instanceof WriteFailed)) throw error
    const stay = await takenBack(placed)
    if (outputs.length === 1) throw error
    const missing = files.map(({ path }) => path).filter((path) => !stay.includes(path))
    throw error.of({ inPlace: stay, missing })
  } finally {
    for (const { from } of staged) await removed(from)
    for (const { before } of placed) if (before !== null) await removed(before)
  }
}

/** An output in its place. */
interface Placed {
  readonly output: Output
  readonly to: string
  /** A second name of what stood there; null where nothing did, and of the last output, which stays. */
  readonly before: string | null
}

/** Moves an output to its place. `mayGoBack`: whether another one follows that may fail. */
async function place({ output, from, to }: Staged, mayGoBack: boolean): Promise<Placed> {
  // Looked at again: the work in between may have taken a while.
  checkWritable(output)
  const before = mayGoBack ? await secondName(to) : null
  try {
    if (output.keepAs) await keepStanding(to, output.keepAs)
    await moved(from, to)
    return { output, to, before }
  } catch (error) {
    if (before !== null) await removed(before)
    throw error
  }
}

/** Takes outputs out of their places again, the last first; gives the paths of those that stay. */
async function takenBack(placed: readonly Placed[]): Promise<readonly string[]> {
  const stay: string[] = []
  for (const { output, to, before } of [...placed].reverse()) {
    await (before === null ? rm(to) : moved(before, to)).catch(() => stay.unshift(output.path))
  }
  return stay
}

/** Where the previous version of a file is kept. */
export function previousOf(path: string): string {
  return `${path}.previous`
}

/** Where a damaged file is kept whose previous version stays. */
export function damagedOf(path: string): string {
  return `${path}.damaged`
}

/** Keeps what stands at a path under another one, too; moving a new file over the first leaves it there. */
async function keepStanding(path: string, keepAs: string): Promise<void> {
  const second = await secondName(path)
  if (second === null) return
  try {
    await moved(second, keepAs)
  } finally {
    await removed(second)
  }
}

/** A second name for what stands there; null where nothing does. */
async function secondName(path: string): Promise<string | null> {
  const second = partFile(dirname(path))
  try {
    await link(path, second)
  } catch (error) {
    if ((error as NodeJS.ErrnoException).code === 'ENOENT') return null
    // A file system without second names: a copy does as well.
    await copyFile(path, second, constants.COPYFILE_EXCL).catch(async (failure: unknown) => {
      await removed(second)
      throw failure
    })
  }
  return second
}

/** Removes a file that may be there; one that cannot be removed is cleared by a later save. */
async function removed(path: string): Promise<void> {
  await rm(path, { force: true }).then(
    () => own.delete(basename(path)),
    () => undefined,
  )
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

/** Files that this thread writes at the moment. */
const own = new Set<string>()

/** Of this computer among those that write into a shared folder. */
const HOST = createHash('sha256').update(hostname()).digest('hex').slice(0, 8)
const PART = /^\.visit-report-(?:([0-9a-f]{8})-)?(\d+)-[0-9a-f-]{36}\.part$/

/** A name for a file that is to be moved to its place or removed; the next save clears it if this program dies. */
export function partFile(folder: string): string {
  const name = `.visit-report-${HOST}-${process.pid}-${randomUUID()}.part`
  own.add(name)
  return join(folder, name)
}

/** Whether a file of this name is what a killed program left half-written; `alone`: whether no other thread of it writes. */
export function isLeftover(name: string, alone = isMainThread): boolean {
  const [, host = HOST, pid] = PART.exec(name) ?? []
  // Whether a program of another computer lives cannot be told from here.
  if (pid === undefined || host !== HOST) return false
  // In a container a program often gets the number of the one before it.
  return Number(pid) === process.pid ? alone && !own.has(name) : !isAlive(Number(pid))
}

/** Whether a file of this name is half-written, by any computer. */
export function isPart(name: string): boolean {
  return PART.test(name)
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
    throw error instanceof WriteFailed ? error : systemFault(path, error)
  }
}

/** Read once, while nothing is written: asking sets it for a moment. */
const UMASK = process.umask()

/**
 * Writes all of it, to the disk itself; a full disk fails here, not after the old file is gone. Its owner's alone until
 * all of it stands there.
 */
async function writeWhole(path: string, to: string, { content, ownerOnly = false }: Output): Promise<void> {
  const file = await open(path, 'wx', OWNER_ONLY)
  try {
    // Node takes pieces here too; its types tell so only of the function beside it.
    await file.writeFile(content as string)
    // Where a file system takes no mode, it stays its owner's alone.
    if (!ownerOnly) await file.chmod(await modeFor(file, to)).catch(() => undefined)
    await file.sync()
  } finally {
    await file.close()
  }
}

const OWNER_ONLY = 0o600
const ALL_MODES = 0o777
const GROUP = 0o070

const ANY_NEW = 0o666

/** The mode of the file that is replaced, or of a new one. */
async function modeFor(file: FileHandle, to: string): Promise<number> {
  const standing = statSync(to, { throwIfNoEntry: false })
  if (standing === undefined) return ANY_NEW & ~UMASK
  const mode = standing.mode & ALL_MODES
  const { uid, gid } = await file.stat()
  if (gid === standing.gid) return mode
  // What one group may do is not for another one.
  return file.chown(uid, standing.gid).then(
    () => mode,
    () => mode & ~GROUP,
  )
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

/** What the system said of a path, or of its folder. */
function systemFault(path: string, error: unknown, folder: string | null = null): WriteFailed {
  const errno = (error as NodeJS.ErrnoException).code ?? ''
  return new WriteFailed(path, { code: 'system', errno: errno === '' ? String(error) : errno, folder })
}
