import { z } from 'zod'
import type { Channel } from './channels'
import { FILE_REQUEST } from './fileRequest'
import type { BeginningView } from './fileView'
import { type FieldFault, FORM_REQUEST } from './forms/formRequest'
import type { ReadingProgress } from '../log/logSource'
import { MESSAGE_LIMITS } from './limits'
import type { PictureScreenView } from './pictureScreen'
import { READING_FILTER, type RowsView } from './readingRows'
import type { ReadingView } from './readingView'
import type { Problem, VisitState } from './visitState'
import { type MoveView, WAYS_SUBJECT, type WaysView } from './waysView'
import { SHA256, WINDOW_EDIT } from './windowEdit'

// What the window and the program behind it may say to each other. Both ends, and both ways of carrying the
// messages, derive their types from here; nothing here knows of either end.

const logFile = z.strictObject({
  /** Base name, for the person to recognise the file by; nothing is ever opened by it. */
  name: z.string().min(1).max(255),
  bytes: z.instanceof(Uint8Array),
})

/** Which state of the visit a message speaks of: numbers and lists of an older one would mean something else. */
const revision = z.int().min(0)
/** As `Printed`. */
const PRINTED = z
  .strictObject({ onePage: z.boolean(), wholeMethod: z.boolean(), withoutNotes: z.boolean() })
  .partial()

/** What each channel takes. Every message is held against this before anything else looks at it. */
export const ARGUMENTS = {
  about: z.null(),
  /** The visit as it stands, also for a page that was loaded again. */
  show: z.null(),
  addLogs: z.strictObject({
    logs: z
      .array(logFile)
      .min(1)
      .max(MESSAGE_LIMITS.logs)
      .refine((logs) => logs.reduce((sum, log) => sum + log.bytes.length, 0) <= MESSAGE_LIMITS.bytes),
  }),
  addSample: z.null(),
  edit: z.strictObject({ revision, edit: WINDOW_EDIT }),
  undo: z.strictObject({ revision }),
  redo: z.strictObject({ revision }),
  /** A stretch of the list of readings. */
  readings: z.strictObject({
    revision,
    filter: READING_FILTER,
    from: z.int().min(0),
    count: z.int().min(1).max(MESSAGE_LIMITS.rows),
  }),
  reading: z.strictObject({ revision, index: z.int().min(0) }),
  picture: z.strictObject({ revision }),
  /** What each choice about the reading of a log would make of it. */
  waysToRead: z.strictObject({ revision, sha256: SHA256, subject: WAYS_SUBJECT }),
  /** Makes the pages; `attach`: with the readings, and the visit where it has a file. */
  makePdf: z.strictObject({ revision, printed: PRINTED.optional(), attach: z.boolean().optional() }),
  /** Makes the pages to be printed; where the desktop has a viewer for them, they are opened there. */
  print: z.strictObject({ revision, printed: PRINTED.optional() }),
  /** What may be opened or recovered. */
  beginning: z.null(),
  /** A form about the visit: one edit, or what is wrong with its fields. */
  form: z.strictObject({ revision, form: FORM_REQUEST }),
  /** Opens, saves and protects the file of the visit. */
  file: FILE_REQUEST,
  /** Whether what is not saved is kept on the disk meanwhile; answered once that was tried. */
  kept: z.null(),
  /** How far the reading of logs has come. */
  progress: z.null(),
  /** Stops what is being read or computed; the visit stays as it was before. */
  cancel: z.null(),
} as const satisfies Record<Channel, z.ZodType>

/** A log as it was chosen. */
export type LogFile = z.infer<typeof logFile>

export interface About {
  readonly name: string
  readonly version: string
}

/** The visit after what was asked for, and what could not be done of it. */
export interface Changed {
  readonly state: VisitState
  readonly problems: readonly Problem[]
  /** What the person should know of what was done, in sentences. */
  readonly notices: readonly string[]
  /** Whether the person stopped it before it was done. */
  readonly cancelled: boolean
}

/** What came of a form: nothing was changed where a field has a fault. */
export interface FormOutcome extends Changed {
  readonly faults: readonly FieldFault[]
}

/** What came of a request about the visit's file. */
export interface FileOutcome extends Changed {
  /** What was done, in words; '' where nothing was. */
  readonly said: string
  /** A file for the browser to save. */
  readonly download: { readonly fileName: string; readonly bytes: Uint8Array<ArrayBuffer> } | null
}

export type PdfOutcome = PdfMade | Stale

/** The pages of one state of the visit. */
export interface PdfMade {
  readonly kind: 'made'
  readonly revision: number
  readonly fileName: string
  readonly bytes: Uint8Array<ArrayBuffer>
}

/** `made`: the page prints them itself; `opened`: by the desktop's own viewer, which prints; `not-opened`: it has none. */
export type PrintOutcome = PdfOutcome | { readonly kind: 'opened' } | { readonly kind: 'not-opened' }

/** The visit was changed since, in another window: `show` gives the one that stands. */
export interface Stale {
  readonly kind: 'stale'
}

/** Null while nothing is read or computed. */
export type ProgressView = ReadingProgress | null

/** What each channel answers. */
interface Results extends Record<Channel, unknown> {
  about: About
  show: VisitState
  addLogs: Changed
  addSample: Changed
  edit: Changed
  undo: Changed
  redo: Changed
  readings: RowsView | Stale
  reading: ReadingView | Stale
  picture: PictureScreenView | Stale
  waysToRead: WaysView | MoveView | Stale
  makePdf: PdfOutcome
  print: PrintOutcome
  beginning: BeginningView
  form: FormOutcome
  file: FileOutcome
  /** Why it could not be kept; '' where it is, or all is saved. */
  kept: string
  progress: ProgressView
  cancel: null
}

export type Argument<C extends Channel> = z.infer<(typeof ARGUMENTS)[C]>
export type Result<C extends Channel> = Results[C]

/** The contract as the window sees it: one asynchronous function for each channel. */
export type Bridge = { readonly [C in Channel]: (argument: Argument<C>) => Promise<Result<C>> }

/** The contract as the program behind the window fulfils it. */
export type Handlers = {
  readonly [C in Channel]: (argument: Argument<C>) => Result<C> | Promise<Result<C>>
}
