import type { LogFile } from '../src-core/bridge/contract'
import { MESSAGE_LIMITS } from '../src-core/bridge/limits'

const BYTES_PER_MB = 1024 * 1024

/** Why files could not be taken, in a sentence for the person. */
export class LogFileError extends Error {}

/** Throws where files cannot be taken: too many, too large, or a folder among them. */
export async function checkLogFiles(files: readonly File[]): Promise<void> {
  checkSizes(files)
  await Promise.all(files.map((file) => bytesOf(file.name, file.slice(0, 1))))
}

/** Reads chosen files into memory, in the order in which they were chosen. */
export async function readLogFiles(files: readonly File[]): Promise<LogFile[]> {
  checkSizes(files)
  return Promise.all(files.map(async (file) => ({ name: file.name, bytes: await bytesOf(file.name, file) })))
}

function checkSizes(files: readonly File[]): void {
  if (files.length > MESSAGE_LIMITS.logs) {
    throw new LogFileError(`The window takes up to ${MESSAGE_LIMITS.logs} logs at a time.`)
  }
  if (files.reduce((sum, { size }) => sum + size, 0) > MESSAGE_LIMITS.bytes) {
    const most = MESSAGE_LIMITS.bytes / BYTES_PER_MB
    throw new LogFileError(`The window takes up to ${most} MB of logs at a time; npm run report takes more.`)
  }
}

async function bytesOf(name: string, part: Blob): Promise<Uint8Array<ArrayBuffer>> {
  try {
    return new Uint8Array(await part.arrayBuffer())
  } catch {
    throw new LogFileError(`${name} could not be opened. If it is a folder, choose the files inside it.`)
  }
}
