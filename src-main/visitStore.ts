import { readFileSync } from 'node:fs'
import type { Visit } from '../src-core/visit/visit'
import { readVisit, visitText } from '../src-core/visit/visitFile'
import { VISIT_FILE } from '../src-core/wording/visitFile'
import { BYTE_TOOLS } from './byteTools'
import { isProtected, protect, unprotect } from './protection'
import { WriteFailed, writeOutputs } from './writeFiles'

export type LoadedVisit =
  | {
      readonly kind: 'loaded'
      readonly visit: Visit
      /** What was not sound in the file, in words. */
      readonly damage: readonly string[]
      /** The passphrase that opened it; null for an unprotected file. */
      readonly passphrase: string | null
      /** SHA-256 of the file, to see whether it was changed since. */
      readonly sha256: string
    }
  | { readonly kind: 'refused'; readonly message: string }

/** Reads a visit from its file. `ask` gives the passphrase of a protected one; it is asked once. */
export async function loadVisit(path: string, ask: () => Promise<string>): Promise<LoadedVisit> {
  const bytes = readFileSync(path)
  const sha256 = BYTE_TOOLS.sha256(bytes)
  let text = bytes.toString('utf8')
  let passphrase: string | null = null
  if (isProtected(text)) {
    passphrase = await ask()
    const opened = await unprotect(text, passphrase)
    if (opened.kind !== 'opened') return { kind: 'refused', message: VISIT_FILE[opened.kind] }
    text = opened.text
  }
  const read = readVisit(text, BYTE_TOOLS)
  return read.kind === 'refused' ? read : { ...read, kind: 'loaded', passphrase, sha256 }
}

export interface SaveRequest {
  readonly path: string
  readonly visit: Visit
  /** Null leaves the file unprotected. */
  readonly passphrase: string | null
  /** The file's SHA-256 when it was opened; null where it was not opened from there. */
  readonly openedAs: string | null
}

/**
 * Writes a visit into its file, whole or not at all, readable by its owner alone; what stood there is kept beside it.
 * Throws `WriteFailed`, also where another program has changed the file since it was opened. Gives its SHA-256.
 */
export async function saveVisit({ path, visit, passphrase, openedAs }: SaveRequest): Promise<string> {
  const text = visitText(visit, BYTE_TOOLS)
  const content = passphrase === null ? text : await protect(text, passphrase)
  if (openedAs !== null && standingSha256(path) !== openedAs) {
    throw new WriteFailed(path, VISIT_FILE.changedOutside)
  }
  await writeOutputs([{ path, content, ownerOnly: true, keepPrevious: true }])
  return BYTE_TOOLS.sha256(content)
}

function standingSha256(path: string): string | null {
  try {
    return BYTE_TOOLS.sha256(readFileSync(path))
  } catch {
    return null
  }
}
