import { existsSync, readFileSync } from 'node:fs'
import { rm } from 'node:fs/promises'
import { beginsAsVisit, withoutByteOrderMark } from '../../src-core/visit/format'
import type { Visit } from '../../src-core/visit/visit'
import { readVisit, visitText } from '../../src-core/visit/visitFile'
import { BYTE_TOOLS } from './byteTools'
import { isProtected, protect, unprotect } from './protection'
import { whileSaving } from './visitLock'
import {
  damagedOf,
  isDevice,
  type Output,
  previousOf,
  realPath,
  WriteFailed,
  writeOutputs,
} from './writeFiles'
import type { LoadedFile } from '../../src-core/window/effects'
import type { Words } from '../../src-core/wording/words'

export type LoadedVisit =
  | LoadedFile
  | {
      readonly kind: 'refused'
      readonly message: string
      /** Whether another passphrase may open it. */
      readonly wrongPassphrase?: true
    }
  /** It is protected, and nobody gave a passphrase. */
  | { readonly kind: 'protected' }

/** Gives the passphrase of a protected visit; null where nobody does. */
export type AskPassphrase = () => Promise<string | null>

/** Reads a visit from its file. `ask` is asked once, of a protected one. */
export async function loadVisit(words: Words, path: string, ask: AskPassphrase): Promise<LoadedVisit> {
  return visitIn(words, readFileSync(path), ask)
}

/** Reads a visit from the bytes of its file. */
export async function visitIn(words: Words, bytes: Buffer, ask: AskPassphrase): Promise<LoadedVisit> {
  const sha256 = BYTE_TOOLS.sha256(bytes)
  let text = withoutByteOrderMark(bytes.toString('utf8'))
  let passphrase: string | null = null
  if (isProtected(text)) {
    passphrase = await ask()
    if (passphrase === null) return { kind: 'protected' }
    const opened = await unprotect(text, passphrase)
    if (opened.kind !== 'opened') {
      const message = words.visitFile.VISIT_FILE[opened.kind]
      return {
        kind: 'refused',
        message,
        ...(opened.kind === 'wrong-passphrase' && { wrongPassphrase: true }),
      }
    }
    text = opened.text
  }
  const read = readVisit(words, text, BYTE_TOOLS)
  return read.kind === 'refused' ? read : { ...read, kind: 'loaded', passphrase, sha256 }
}

/** What stands in a visit's file; enciphered where there is a passphrase. */
export async function fileContent(visit: Visit, passphrase: string | null): Promise<string> {
  const text = visitText(visit, BYTE_TOOLS)
  return passphrase === null ? text : protect(text, passphrase)
}

export interface SaveRequest {
  readonly path: string
  readonly visit: Visit
  /** Null leaves the file unprotected. */
  readonly passphrase: string | null
  /** The file's SHA-256 when it was opened; null where it was not opened from there. */
  readonly openedAs: string | null
  /** The file's SHA-256 when it was opened with damage; null or left out where it was sound. */
  readonly damagedAs?: string | null
  /** Whether a visit that was not opened, and a file that is not this program's, stay as they are. */
  readonly sparesOthers?: boolean
}

/**
 * Writes a visit into its file, whole or not at all, readable by its owner alone unless a visit stood there that was
 * readable by others; what stood there is kept beside it, but no version in clear beside a protected one. Throws
 * `WriteFailed`, also where another program has changed the file since it was opened. Gives its SHA-256. Other outputs
 * of the same run are written with it: all or none, the visit last.
 */
export async function saveVisit(request: SaveRequest, others: readonly Output[] = []): Promise<string> {
  const { path, visit, passphrase, openedAs, sparesOthers = false } = request
  const content = await fileContent(visit, passphrase)
  if (isDevice(path)) {
    await writeOutputs([...others, { path, content }])
    return BYTE_TOOLS.sha256(content)
  }
  await whileSaving(path, async () => {
    const standing = standingAt(path)
    const other = openedAs === null ? null : otherThan(openedAs, path, standing)
    if (other !== null) throw new WriteFailed(path, { code: OTHER[other] })
    const file = realPath(path)
    const keepAs =
      passphrase !== null && isInClear(standing) ? null : placeOfStanding(file, standing, request)
    const ownerOnly = standing === null || !isVisit(standing)
    await writeOutputs([
      ...others,
      { path, content, ownerOnly, keepAs, sparesOthers: sparesOthers && openedAs === null },
    ])
    if (passphrase === null) return
    for (const kept of [previousOf(file), damagedOf(file)]) await removeClear(kept)
  })
  return BYTE_TOOLS.sha256(content)
}

/**
 * Where what stands there is kept. A damaged file is kept by itself: no later save takes it away, and the previous version
 * by which it may be mended stays.
 */
function placeOfStanding(
  file: string,
  standing: Buffer | null,
  { openedAs, damagedAs = null }: SaveRequest,
): string | null {
  const previous = previousOf(file)
  if (standing === null || damagedAs === null) return previous
  const sha256 = BYTE_TOOLS.sha256(standing)
  if (sha256 === damagedAs) return damagedOf(file)
  // Saved since by the same window, without what was damaged.
  return sha256 === openedAs && existsSync(previous) ? null : previous
}

/** SHA-256 of a file; null where none can be read. */
export function sha256Of(path: string): string | null {
  const standing = standingAt(path)
  return standing && BYTE_TOOLS.sha256(standing)
}

const OTHER = { gone: 'goneOutside', changed: 'changedOutside' } as const

/** Whether the file is another than it was when it was opened, or gone: a window asks before it saves. */
export function changedOutside(path: string, openedAs: string): keyof typeof OTHER | null {
  return otherThan(openedAs, path, standingAt(path))
}

function otherThan(openedAs: string, path: string, standing: Buffer | null): keyof typeof OTHER | null {
  if (standing !== null) return BYTE_TOOLS.sha256(standing) === openedAs ? null : 'changed'
  return existsSync(path) ? 'changed' : 'gone'
}

async function removeClear(path: string): Promise<void> {
  if (!isInClear(standingAt(path))) return
  await rm(path).catch(() => {
    throw new WriteFailed(path, { code: 'clearVersionStays' })
  })
}

function isInClear(file: Buffer | null): boolean {
  return file !== null && isVisit(file) && !isProtected(withoutByteOrderMark(file.toString('utf8')))
}

function isVisit(file: Buffer): boolean {
  return beginsAsVisit(file.toString('utf8'))
}

function standingAt(path: string): Buffer | null {
  try {
    return readFileSync(path)
  } catch {
    return null
  }
}
