import { createHash } from 'node:crypto'

// What tells a PDF of this program that nobody changed: its own hash among the document's properties, computed with
// zeros in its place. A nurse's marks, saved into the file by any reader, make it another file, which is not replaced.

const BEFORE = 'visit-report sha256 '
const ZEROS = '0'.repeat(64)

/** The properties that a PDF is made with, to be sealed. */
export const UNSEALED = { VisitReport: BEFORE + ZEROS } as const

/** The PDF with its hash written into its place; the array itself is changed. Throws where it has no place for one. */
export function sealed(pdf: Uint8Array): Uint8Array {
  const bytes = Buffer.from(pdf.buffer, pdf.byteOffset, pdf.length)
  const at = bytes.lastIndexOf(UNSEALED.VisitReport, undefined, 'latin1')
  if (at < 0) throw new Error('The PDF has no place for its hash')
  bytes.write(sha256(bytes), at + BEFORE.length, 'latin1')
  return pdf
}

/** Whether the bytes are a PDF of this program as it was written. */
export function isSealed(pdf: Uint8Array): boolean {
  const bytes = Buffer.from(pdf)
  const at = bytes.lastIndexOf(BEFORE, undefined, 'latin1') + BEFORE.length
  if (at < BEFORE.length) return false
  const hash = bytes.toString('latin1', at, at + ZEROS.length)
  bytes.write(ZEROS, at, 'latin1')
  return sha256(bytes) === hash
}

function sha256(bytes: Uint8Array): string {
  return createHash('sha256').update(bytes).digest('hex')
}
