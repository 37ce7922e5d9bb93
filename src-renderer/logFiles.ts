import type { LogFile } from '../src-core/bridge/contract'
import { MESSAGE_LIMITS } from '../src-core/bridge/limits'

const BYTES_PER_MB = 1024 * 1024

/** Why files could not be taken, in a sentence for the person. */
export class LogFileError extends Error {}

/** Reads chosen files into memory, in the order in which they were chosen. */
export async function readLogFiles(files: readonly File[]): Promise<LogFile[]> {
  if (files.length > MESSAGE_LIMITS.logs) {
    throw new LogFileError(`The window takes up to ${MESSAGE_LIMITS.logs} logs at a time.`)
  }
  if (files.reduce((sum, { size }) => sum + size, 0) > MESSAGE_LIMITS.bytes) {
    const most = MESSAGE_LIMITS.bytes / BYTES_PER_MB
    throw new LogFileError(`The window takes up to ${most} MB of logs at a time; npm run report takes more.`)
  }
  return Promise.all(files.map(readLogFile))
}

async function readLogFile(file: File): Promise<LogFile> {
  try {
    return { name: file.name, bytes: new Uint8Array(await file.arrayBuffer()) }
  } catch {
    throw new LogFileError(`${file.name} could not be opened. If it is a folder, choose the files inside it.`)
  }
}
