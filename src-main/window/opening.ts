import { statSync } from 'node:fs'
import { basename, resolve } from 'node:path'
import { EMPTY_VISIT } from '../../src-core/visit/visit'
import { GONE, NOT_READABLE } from '../../src-core/wording/visitWindow'
import { loadUnsaved, type Unsaved } from './autosave'
import { BYTE_TOOLS } from '../files/byteTools'
import { type AskPassphrase, loadVisit, type LoadedVisit, sha256Of, visitIn } from '../files/visitStore'

type Loaded = Extract<LoadedVisit, { kind: 'loaded' }>

/** A visit that is to be opened: where it comes from, and where it is saved again. */
export interface Opening {
  /** Null of an empty visit and of one that never had a file. */
  readonly name: string | null
  /** Null where the program knows no place of its file. */
  readonly path: string | null
  /** Where it is kept as unsaved; null where it is not. */
  readonly unsavedFile: string | null
  readonly load: (ask: AskPassphrase) => Promise<LoadedVisit>
  /** SHA-256 that the file has as long as nobody else saves it; null where none stands there. */
  readonly openedAs: (loaded: Loaded) => string | null
}

export function openingOfFile(path: string): Opening {
  const whole = resolve(path)
  return {
    name: basename(whole),
    path: whole,
    unsavedFile: null,
    load: (ask) => loadVisit(whole, ask),
    openedAs: ({ sha256 }) => sha256,
  }
}

/** A visit whose bytes came without a place, as a browser gives them. */
export function openingOfBytes(name: string, bytes: Uint8Array): Opening {
  return {
    name,
    path: null,
    unsavedFile: null,
    load: (ask) => visitIn(Buffer.from(bytes), ask),
    openedAs: () => null,
  }
}

export function openingOfUnsaved({ file, visitPath, keptAtMs, handed }: Unsaved): Opening {
  return {
    name: visitPath === null ? (handed?.name ?? null) : basename(visitPath),
    path: visitPath,
    unsavedFile: file,
    load: (ask) => loadUnsaved(file, ask),
    openedAs: () => {
      const saved = visitPath === null ? undefined : statSync(visitPath, { throwIfNoEntry: false })
      if (visitPath === null || saved === undefined) return null
      // Saved again since then: what stands there is not what was worked on.
      return saved.mtimeMs > keptAtMs ? 'another' : sha256Of(visitPath)
    },
  }
}

export function openingEmpty(): Opening {
  const loaded: Loaded = { kind: 'loaded', visit: EMPTY_VISIT, damage: [], passphrase: null, sha256: '' }
  return {
    name: null,
    path: null,
    unsavedFile: null,
    load: () => Promise.resolve(loaded),
    openedAs: () => null,
  }
}

/** What a request of the window names a file by, so that no path comes from there. */
export function markOf(path: string): string {
  return BYTE_TOOLS.sha256(path)
}

export type Found =
  | Loaded
  | { readonly kind: 'refused'; readonly message: string }
  /** `again`: what was wrong with the passphrase; null where none was given. */
  | { readonly kind: 'protected'; readonly again: string | null }

/** Reads a visit that is to be opened, with the passphrase as far as it is known. */
export async function read(opening: Opening, passphrase: string | null): Promise<Found> {
  try {
    const loaded = await opening.load(() => Promise.resolve(passphrase))
    if (loaded.kind === 'protected') return { kind: 'protected', again: null }
    if (loaded.kind === 'refused' && loaded.wrongPassphrase) {
      return { kind: 'protected', again: loaded.message }
    }
    return loaded
  } catch (error) {
    const { code } = error as NodeJS.ErrnoException
    if (code === undefined) throw error
    return { kind: 'refused', message: code === 'ENOENT' ? GONE : NOT_READABLE }
  }
}
