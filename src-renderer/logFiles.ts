import type { LogFile } from '../src-core/bridge/contract'
import type { Problem } from '../src-core/bridge/visitState'
import { MESSAGE_LIMITS } from '../src-core/bridge/limits'
import type { WindowWords } from '../src-core/wording/words'

const BYTES_PER_MB = 1024 * 1024

/** Why files could not be taken, in a sentence for the person. */
export class LogFileError extends Error {}

/** What can be taken of chosen files, in the order in which they were chosen, and what is told of the others. */
export interface TakenFiles<T> {
  readonly logs: readonly T[]
  readonly problems: readonly Problem[]
}

/** Looks which files can be opened. Throws where they are too many or too large, or none can. */
export function checkLogFiles(words: WindowWords, files: readonly File[]): Promise<TakenFiles<File>> {
  return taken(words, files, async (file) => {
    await file.slice(0, 1).arrayBuffer()
    return file
  })
}

/** Reads chosen files into memory. Throws where they are too many or too large, or none can be opened. */
export function readLogFiles(words: WindowWords, files: readonly File[]): Promise<TakenFiles<LogFile>> {
  return taken(words, files, async (file) => ({
    name: file.name,
    bytes: new Uint8Array(await file.arrayBuffer()),
  }))
}

async function taken<T>(
  words: WindowWords,
  files: readonly File[],
  take: (file: File) => Promise<T>,
): Promise<TakenFiles<T>> {
  checkSizes(words, files)
  const logs: T[] = []
  const unopened: string[] = []
  const all = await Promise.allSettled(files.map(take))
  for (const [position, one] of all.entries()) {
    if (one.status === 'fulfilled') logs.push(one.value)
    else unopened.push(files[position].name)
  }
  const { NOT_OPENED, notOpenedText } = words.windowWork
  if (logs.length === 0) throw new LogFileError(notOpenedText(unopened))
  return { logs, problems: unopened.map((about) => ({ about, message: NOT_OPENED })) }
}

function checkSizes({ windowWork }: WindowWords, files: readonly File[]): void {
  if (files.length > MESSAGE_LIMITS.logs) {
    throw new LogFileError(windowWork.tooManyFiles(MESSAGE_LIMITS.logs))
  }
  if (files.reduce((sum, { size }) => sum + size, 0) > MESSAGE_LIMITS.bytes) {
    throw new LogFileError(windowWork.tooLargeFiles(MESSAGE_LIMITS.bytes / BYTES_PER_MB))
  }
}
