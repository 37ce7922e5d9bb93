import { createHash } from 'node:crypto'
import type { ByteTools } from '../../src-core/visit/visitFile'

/** What the core asks of the platform. */
export const BYTE_TOOLS: ByteTools = {
  sha256: (data) => createHash('sha256').update(data).digest('hex'),
  toBase64: (bytes) => Buffer.from(bytes.buffer, bytes.byteOffset, bytes.byteLength).toString('base64'),
  fromBase64: (text) => new Uint8Array(Buffer.from(text, 'base64')),
}
