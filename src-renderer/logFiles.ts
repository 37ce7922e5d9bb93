import type { LogFile } from '../src-core/bridge/contract'
import type { Problem } from '../src-core/bridge/visitState'
import { MESSAGE_LIMITS } from '../src-core/bridge/limits'

const BYTES_PER_MB = 1024 * 1024

/** Why files could not be taken, in a sentence for the person. */
export class LogFileError extends Error {}

/** What can be taken of chosen files, in the order in which they were chosen, and what is told of the others. */
export interface TakenFiles<T> {
  readonly logs: readonly T[]
  readonly problems: readonly Problem[]
}

/** Looks which files can be opened. Throws where they are too many or too large, or none can. */
export function checkLogFiles(files: readonly File[]): Promise<TakenFiles<File>> {
  return taken(files, async (file) => {
    await file.slice(0, 1).arrayBuffer()
    return file
  })
}

/** Reads chosen files into memory. Throws where they are too many or too large, or none can be opened. */
export function readLogFiles(files: readonly File[]): Promise<TakenFiles<LogFile>> {
  return taken(files, async (file) => ({ name: file.name, bytes: new Uint8Array(await file.arrayBuffer()) }))
}

async function taken<T>(files: readonly File[], take: (file: File) => Promise<T>): Promise<TakenFiles<T>> {
  checkSizes(files)
  const logs: T[] = []
  const problems: Problem[] = []
  const all = await Promise.allSettled(files.map(take))
  for (const [position, one] of all.entries()) {
    if (one.status === 'fulfilled') logs.push(one.value)
    else problems.push({ about: files[position].name, message: NOT_OPENED })
  }
  if (logs.length === 0) {
    throw new LogFileError(problems.map(({ about, message }) => `${about}: ${message}`).join(' '))
  }
  return { logs, problems }
}

const NOT_OPENED = 'It could not be opened. If it is a folder, choose the files inside it.'

function checkSizes(files: readonly File[]): void {
  if (files.length > MESSAGE_LIMITS.logs) {
    throw new LogFileError(`The window takes up to ${MESSAGE_LIMITS.logs} logs at a time.`)
  }
  if (files.reduce((sum, { size }) => sum + size, 0) > MESSAGE_LIMITS.bytes) {
    const most = MESSAGE_LIMITS.bytes / BYTES_PER_MB
    throw new LogFileError(`The window takes up to ${most} MB of logs at a time; npm run report takes more.`)
  }
}
