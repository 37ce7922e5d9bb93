import type { LogFile } from '../bridge/contract'
import type { Problem, ReportView } from '../bridge/visitState'
import type { ImportContext } from '../log/logSource'
import { type History, historyOf } from '../visit/history'
import { EMPTY_VISIT, type Visit } from '../visit/visit'

/** All that the program behind one window knows, as one value. */
export interface WindowState {
  readonly history: History
  readonly report: ReportView
  /** Grows with every change. */
  readonly revision: number
  /** Another one where another visit has taken the place of the one before. */
  readonly visitNumber: number
  /** What could not be opened when the program was started; told until another visit or log is there. */
  readonly unopened: readonly Problem[]
  /** The moment as of which logs are read, the same for all figures until logs are added. */
  readonly readAt: ImportContext
  /** SHA-256 of the logs with which the visit was opened; null of one that began here. */
  readonly broughtAlong: readonly string[] | null
  readonly file: FileState
  /** What is asked before something goes on, and what goes on then. */
  readonly question: Question | null
  /** Whether the host has dialogs of its own for files; else the browser takes and gives them. */
  readonly hasDialogs: boolean
}

/** Where a file stands; its name and folder are told to the person, the path never leaves the program. */
export interface Place {
  readonly path: string
  readonly name: string
  readonly folder: string
}

/** What a host calls a lock that it holds. */
export type Lock = number

/** The file of the visit. */
export interface FileState {
  /** Null where it has none that the program knows. */
  readonly place: Place | null
  /** Also of a file without a place, that came from a browser or was given to it. */
  readonly name: string | null
  /** SHA-256 of the file as this window knows it. */
  readonly openedAs: string | null
  /** SHA-256 of the file when it was opened with damage; null where it was sound. */
  readonly damagedAs: string | null
  readonly lock: Lock | null
  /** What was not sound when it was opened, in words. */
  readonly damage: readonly string[]
  /** Whether another window had it open when it was opened here. */
  readonly openElsewhere: boolean
  /** With which it is saved next; null leaves it unprotected. */
  readonly passphrase: string | null
  /** What is saved; the visit is null where it was recovered and never saved. */
  readonly saved: { readonly visit: Visit | null; readonly passphrase: string | null }
  /** SHA-256 of what the browser was given last. */
  readonly handed: string | null
}

/** Where a visit to be opened is read. */
export type Source =
  | { readonly kind: 'empty' }
  | { readonly kind: 'file'; readonly path: string }
  /** Bytes that came without a place, as a browser gives them. */
  | { readonly kind: 'bytes'; readonly bytes: Uint8Array }
  /** What an earlier program kept unsaved; `path`: the visit's own file. */
  | {
      readonly kind: 'unsaved'
      readonly file: string
      readonly path: string | null
      readonly keptAtMs: number
    }

/** A visit that is to be opened: where it comes from, and where it is saved again. */
export interface Opening {
  /** Null of an empty visit and of one that never had a file. */
  readonly name: string | null
  /** Null where the program knows no place of its file. */
  readonly place: Place | null
  readonly source: Source
}

/** An opening on its way: what was answered so far, and what comes with it. */
export interface OnItsWay {
  readonly opening: Opening
  /** Logs that came with it, added once it is open. */
  readonly logs: readonly LogFile[]
  readonly unsavedMayGo: boolean
  readonly elsewhereIsFine: boolean
  readonly passphrase: string | null
  /** How many passphrases were tried. */
  readonly tries: number
}

/** What the program asks; it knows itself what it was about, so that an answer needs nothing besides. */
export type Question =
  | { readonly kind: 'unsaved' | 'open-elsewhere'; readonly next: OnItsWay }
  /** `again`: what was wrong with the last one; null before the first. */
  | { readonly kind: 'passphrase'; readonly again: string | null; readonly next: OnItsWay }
  /** `next`: what is opened once this one is saved. */
  | {
      readonly kind: 'changed-outside' | 'gone-outside'
      readonly place: Place
      readonly next: OnItsWay | null
    }
  /** A file that this window did not open stands where the visit is to be saved. */
  | {
      readonly kind: 'other-stands'
      readonly place: Place
      readonly isVisit: boolean
      readonly next: OnItsWay | null
    }
  | { readonly kind: 'remove-traces'; readonly next: null }

const NO_FILE: FileState = {
  place: null,
  name: null,
  openedAs: null,
  damagedAs: null,
  lock: null,
  damage: [],
  openElsewhere: false,
  passphrase: null,
  saved: { visit: EMPTY_VISIT, passphrase: null },
  handed: null,
}

/** A window with nothing in it. */
export function emptyWindow(readAt: ImportContext, hasDialogs: boolean): WindowState {
  return {
    history: historyOf(EMPTY_VISIT),
    report: { kind: 'empty' },
    revision: 0,
    visitNumber: 0,
    unopened: [],
    readAt,
    broughtAlong: null,
    file: NO_FILE,
    question: null,
    hasDialogs,
  }
}

/** Whether something is not saved. */
export function isEdited({ history, file: { saved, passphrase } }: WindowState): boolean {
  return history.visit !== saved.visit || passphrase !== saved.passphrase
}

export function fileOpening(place: Place): Opening {
  return { name: place.name, place, source: { kind: 'file', path: place.path } }
}
