import type { LogFile } from '../bridge/contract'
import type { PictureScreenView } from '../bridge/pictureScreen'
import type { ReadingFilter, RowsView } from '../bridge/readingRows'
import type { ReadingView } from '../bridge/readingView'
import type { StoppedView } from '../bridge/stoppedView'
import type { OpenedView } from '../bridge/visitView'
import type { MoveView, WaysSubject, WaysView } from '../bridge/waysView'
import type { ImportContext } from '../log/logSource'
import type { AttachmentFault } from '../model/attachmentFault'
import type { NotWritten } from '../model/notWritten'
import type { Printed } from '../model/printed'
import type { RemovedTraces } from '../wording/english/traces'
import type { Visit, VisitLog } from '../visit/visit'
import type { Lock, Opening, Place, Source, WindowState } from './state'

// What the steps have done by their host: computing, the disk, dialogs, the clock. A step asks for one effect at a time
// and goes on with its outcome; what an expected failure means is for the step to say, so it is an outcome too.

/** What was made of a visit. One that stops leaves the figures made before as they are. */
export type Made =
  | OpenedView
  | StoppedView
  /** What was asked for cannot be, and why. */
  | { readonly kind: 'refused'; readonly message: string }
  | { readonly kind: 'cancelled' }

/** When logs are read as of, so that figures can be kept, when the person looks, and what was there before. */
export interface Moments {
  readonly readAt: ImportContext
  readonly now: ImportContext
  /** SHA-256 of the logs with which the visit was opened; null of one that began here. */
  readonly broughtAlong: readonly string[] | null
}

/** What of a visit the pages are told besides its figures. */
export interface PdfSettings extends Pick<Visit, 'paper' | 'label' | 'diary'> {
  readonly printed: Printed
  /** Null carries nothing. */
  readonly attach: Attach | null
}

/** What a PDF carries so that it can be opened again: its readings, and a visit's file where there is one. */
export interface Attach {
  readonly visitFile: Uint8Array<ArrayBuffer> | null
}

export interface MadePdf {
  readonly fileName: string
  readonly bytes: Uint8Array<ArrayBuffer>
}

/** A visit as its file holds it. */
export interface LoadedFile {
  readonly kind: 'loaded'
  readonly visit: Visit
  /** What was not sound in the file, in words. */
  readonly damage: readonly string[]
  /** The passphrase that opened it; null for an unprotected file. */
  readonly passphrase: string | null
  /** SHA-256 of what was read, to see whether the file was changed since. */
  readonly sha256: string
}

/** What was read where a visit was to be opened. */
export type Found =
  | (LoadedFile & {
      /** SHA-256 that its file has as long as nobody else saves it; null where none stands there. */
      readonly openedAs: string | null
    })
  | { readonly kind: 'refused'; readonly message: string }
  | { readonly kind: 'gone' }
  | { readonly kind: 'not-readable' }
  /** `again`: what was wrong with the passphrase; null where none was given. */
  | { readonly kind: 'protected'; readonly again: string | null }

/** What a report carries: its visit, else its readings; any other file is given back as it is. */
export type Unpacked = { readonly files: readonly LogFile[] } | { readonly fault: AttachmentFault }

export type Loaded = Extract<Found, { kind: 'loaded' }>

export interface Failed {
  readonly kind: 'failed'
  readonly fault: NotWritten
}

/** What stands where a visit is to be saved; `output` is of this program, `other` is somebody else's. */
export type StandsThere = 'nothing' | 'folder' | 'device' | 'empty' | 'visit' | 'output' | 'other'

/** A visit to be written. */
export interface Content {
  readonly visit: Visit
  /** Null leaves it unprotected. */
  readonly passphrase: string | null
}

export interface SaveOrder extends Content {
  readonly path: string
  /** SHA-256 of the file when it was opened; null where it was not opened from there. */
  readonly openedAs: string | null
  /** SHA-256 of the file when it was opened with damage; null where it was sound. */
  readonly damagedAs: string | null
  /** Whether a visit that was not opened, and a file that is not this program's, stay as they are. */
  readonly sparesOthers: boolean
}

/** A visit to be kept while it is not saved; `holds`: what it holds, in words. */
export interface ToKeep extends Content {
  readonly holds: string
}

/** Every effect by name: what it is given, and its outcome. */
export interface Effects {
  now(): ImportContext
  /** The log to try the window with. */
  sample(): VisitLog
  /** What a report carries, in its place. */
  unpack(file: LogFile): Unpacked
  /** Files as logs of a visit, each with its hash. */
  logsOf(files: readonly LogFile[]): readonly VisitLog[]

  report(of: { readonly visit: Visit; readonly moments: Moments }): Made
  rows(of: { readonly filter: ReadingFilter; readonly from: number; readonly count: number }): RowsView
  reading(index: number): ReadingView | null
  picture(): PictureScreenView
  /** Null where there is no such log. */
  waysToRead(of: {
    readonly visit: Visit
    readonly moments: Moments
    readonly sha256: string
    readonly subject: WaysSubject
  }): WaysView | MoveView | null
  pdf(of: { readonly settings: PdfSettings; readonly nowMs: number }): MadePdf

  /** The person chooses a visit; null where none is chosen, or the host has no dialogs. */
  chooseVisit(): Place | null
  /** The person chooses where the visit is to be saved, under this name unless another is written. */
  choosePlace(name: string): Place | null
  /** The recent visit of a mark; null where there is none any more. */
  recent(mark: string): Place | null
  /** The unsaved visit of a mark; null where there is none any more. */
  unsaved(mark: string): Opening | null
  remember(path: string): void

  read(of: { readonly source: Source; readonly passphrase: string | null }): Found
  isSameFile(paths: readonly [string, string]): boolean
  /** Tells other windows that a visit is open here; null where another one has it open. */
  lock(path: string): Lock | null
  release(lock: Lock): void
  /** How a file differs from the one that was opened; null where it does not. */
  changedOutside(of: { readonly path: string; readonly openedAs: string }): 'changed' | 'gone' | null
  kindAt(path: string): { readonly kind: 'stands'; readonly what: StandsThere } | Failed
  save(order: SaveOrder): { readonly kind: 'saved'; readonly sha256: string } | Failed
  /** The bytes of a visit's file, to be given away. */
  contentOf(content: Content): { readonly bytes: Uint8Array<ArrayBuffer>; readonly sha256: string }

  /** Keeps the visit while it is not saved; of several the last one counts. */
  keep(what: ToKeep): void
  /** There is nothing unsaved any more. */
  forget(): void
  /** Removes what is kept, and keeps from now on what belongs to this file. */
  keepFor(path: string | null): void
  /** Whether what was last to be kept is on the disk. */
  isKept(): boolean
  /** Stops keeping, and removes what is kept or leaves it to be recovered. */
  endKept(remove: boolean): void
  /** Keeps what a browser is given, for it may not save it, in place of what was given before. */
  keepHanded(what: ToKeep & { readonly name: string; readonly sha256: string }): void
  endHanded(remove: boolean): void
  /** Removes what an earlier program kept unsaved. */
  discard(file: string): void
  /** Removes what is kept of a file given to a browser, which is seen to be saved now. */
  discardHanded(sha256: string): void
  removeTraces(): { readonly folder: string; readonly removed: RemovedTraces }
}

export type EffectName = keyof Effects

/** An effect to be done, as data. */
export type Effect = {
  readonly [N in EffectName]: { readonly does: N; readonly of: Parameters<Effects[N]>[0] }
}[EffectName]

/** One function for each effect, as a host does them. */
export type Performers = {
  readonly [N in EffectName]: (
    ...of: Parameters<Effects[N]>
  ) => ReturnType<Effects[N]> | Promise<ReturnType<Effects[N]>>
}

/** What a step gives out on its way: the state as it stands from here on, and one effect whose outcome it waits for. */
export interface Wanted {
  readonly state: WindowState
  readonly effect: Effect
}

/**
 * A step on its way. It reads nothing but its arguments and the outcomes that it is given: the same ones give the same
 * effects, state and answer.
 */
export type Work<T> = Generator<Wanted, T, unknown>

/** Has one effect done, with the state as it stands meanwhile, also where the effect ends in a fault. */
export function* perform<N extends EffectName>(
  state: WindowState,
  does: N,
  ...[of]: Parameters<Effects[N]>
): Work<ReturnType<Effects[N]>> {
  return (yield { state, effect: { does, of } as Effect }) as ReturnType<Effects[N]>
}
