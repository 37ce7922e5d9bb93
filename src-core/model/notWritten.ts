/** Why a file could not be written. */
export type WriteFault =
  /** What the system said: its code, or its own words where it has none; `folder`: where that is not of the file itself. */
  | { readonly code: 'system'; readonly errno: string; readonly folder: string | null }
  | { readonly code: 'folder-stands' | 'read-only' | 'disk' }
  /** What stands there would be lost: a visit that was not opened, or a file of somebody else. */
  | { readonly code: 'spared'; readonly stands: 'visit' | 'other' }
  /** Of a visit: what became of its file since it was opened, who saves it now, what of it cannot be removed. */
  | { readonly code: 'changedOutside' | 'goneOutside' | 'beingSaved' | 'clearVersionStays' }

/** A file that could not be written; what stood there before is untouched. */
export interface NotWritten {
  readonly path: string
  readonly why: WriteFault
  /** Of several files written all or none: which of them are in place; null where it was alone. */
  readonly run: { readonly inPlace: readonly string[]; readonly missing: readonly string[] } | null
}
