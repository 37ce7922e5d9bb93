import { createHash } from 'node:crypto'
import { closeSync, openSync, readSync, statSync } from 'node:fs'
import { basename } from 'node:path'
import type { LogSource } from '../../src-core/log/logSource'

/** Bytes read at once. */
const PIECE = 1 << 16

/** What was named as a log is a folder or the like. */
export class NotAFile extends Error {}

/** A log in a file, read in pieces as often as asked; nothing of it stays in memory. Throws where it cannot be opened. */
export function logInFile(path: string): LogSource {
  if (!statSync(path).isFile()) throw new NotAFile()
  const hash = createHash('sha256')
  let bytes = 0
  for (const piece of pieces(path)) {
    hash.update(piece)
    bytes += piece.length
  }
  return { name: basename(path), bytes, sha256: hash.digest('hex'), chunks: () => pieces(path) }
}

function* pieces(path: string): Generator<Uint8Array> {
  const file = openSync(path, 'r')
  try {
    for (;;) {
      const piece = new Uint8Array(PIECE)
      const length = readSync(file, piece)
      if (length === 0) return
      yield length === PIECE ? piece : piece.subarray(0, length)
    }
  } finally {
    closeSync(file)
  }
}

/** A log whose bytes are in memory. */
export function logInMemory(name: string, bytes: Uint8Array): LogSource {
  return {
    name,
    bytes: bytes.length,
    sha256: createHash('sha256').update(bytes).digest('hex'),
    chunks: () => [bytes],
  }
}

/** The log on standard input, under a name for the person. */
export async function logOnStandardInput(name: string): Promise<LogSource> {
  const pieces: Buffer[] = []
  for await (const piece of process.stdin) pieces.push(piece as Buffer)
  return logInMemory(name, Buffer.concat(pieces))
}
