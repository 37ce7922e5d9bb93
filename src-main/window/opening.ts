import { statSync } from 'node:fs'
import { basename, dirname, resolve } from 'node:path'
import type { Found } from '../../src-core/window/effects'
import type { Opening, Place, Source } from '../../src-core/window/state'
import { EMPTY_VISIT } from '../../src-core/visit/visit'
import { loadUnsaved, type Unsaved } from './autosave'
import { BYTE_TOOLS } from '../files/byteTools'
import { type AskPassphrase, loadVisit, type LoadedVisit, sha256Of, visitIn } from '../files/visitStore'
import type { Words } from '../../src-core/wording/words'

export function placeOf(path: string): Place {
  const whole = resolve(path)
  return { path: whole, name: basename(whole), folder: dirname(whole) }
}

/** The opening of a visit that an earlier program kept unsaved. */
export function openingOfUnsaved({ file, visitPath, keptAtMs, handed }: Unsaved): Opening {
  const place = visitPath === null ? null : placeOf(visitPath)
  return {
    name: place === null ? (handed?.name ?? null) : place.name,
    place,
    source: { kind: 'unsaved', file, path: visitPath, keptAtMs },
  }
}

/** What a request of the window names a file by, so that no path comes from there. */
export function markOf(path: string): string {
  return BYTE_TOOLS.sha256(path)
}

/** Reads a visit that is to be opened, with the passphrase as far as it is known. */
export async function read(words: Words, source: Source, passphrase: string | null): Promise<Found> {
  try {
    const loaded = await load(words, source, () => Promise.resolve(passphrase))
    if (loaded.kind === 'protected') return { kind: 'protected', again: null }
    if (loaded.kind === 'loaded') return { ...loaded, openedAs: openedAs(source, loaded.sha256) }
    return loaded.wrongPassphrase ? { kind: 'protected', again: loaded.message } : loaded
  } catch (error) {
    const { code } = error as NodeJS.ErrnoException
    if (code === undefined) throw error
    return { kind: code === 'ENOENT' ? 'gone' : 'not-readable' }
  }
}

async function load(words: Words, source: Source, ask: AskPassphrase): Promise<LoadedVisit> {
  switch (source.kind) {
    case 'empty':
      return { kind: 'loaded', visit: EMPTY_VISIT, damage: [], passphrase: null, sha256: '' }
    case 'file':
      return loadVisit(words, source.path, ask)
    case 'bytes':
      return visitIn(words, Buffer.from(source.bytes), ask)
    case 'unsaved':
      return loadUnsaved(words, source.file, ask)
  }
}

/** SHA-256 that the visit's file has as long as nobody else saves it; null where none stands there. */
function openedAs(source: Source, sha256: string): string | null {
  if (source.kind === 'file') return sha256
  const path = source.kind === 'unsaved' ? source.path : null
  const saved = path === null ? undefined : statSync(path, { throwIfNoEntry: false })
  if (source.kind !== 'unsaved' || path === null || saved === undefined) return null
  // Saved again since then: what stands there is not what was worked on.
  return saved.mtimeMs > source.keptAtMs ? 'another' : sha256Of(path)
}
