import { z } from 'zod'
import { MESSAGE_LIMITS } from './limits'
import type { VisitView } from './visitView'

// What the window and the program behind it may say to each other. Both ends, and both ways of carrying the
// messages, derive their types from here; nothing here knows of either end.

const logFile = z.strictObject({
  /** Base name, for the person to recognise the file by; nothing is ever opened by it. */
  name: z.string().min(1).max(255),
  bytes: z.instanceof(Uint8Array),
})

const logAnswers = z.strictObject({
  unit: z.enum(['mg/dL', 'mmol/L']).exactOptional(),
  dates: z.enum(['ymd', 'dmy', 'mdy']).exactOptional(),
  columns: z.string().max(2000).exactOptional(),
})

/** What each channel takes. Every message is held against this before anything else looks at it. */
export const ARGUMENTS = {
  about: z.null(),
  openLogs: z.strictObject({
    logs: z
      .array(logFile)
      .min(1)
      .max(MESSAGE_LIMITS.logs)
      .refine((logs) => logs.reduce((sum, log) => sum + log.bytes.length, 0) <= MESSAGE_LIMITS.bytes),
    answers: logAnswers,
  }),
  makePdf: z.strictObject({
    visit: z.string().min(1).max(64),
    paper: z.enum(['A4', 'Letter']),
    label: z.string().max(200),
  }),
} as const

export type Channel = keyof typeof ARGUMENTS
export const CHANNELS = Object.keys(ARGUMENTS) as readonly Channel[]

/** A log as it was chosen, and what a person has answered about the logs. */
export type LogFile = z.infer<typeof logFile>
export type Answers = z.infer<typeof logAnswers>

export interface About {
  readonly name: string
  readonly version: string
}

export type PdfOutcome =
  | { readonly kind: 'made'; readonly fileName: string; readonly bytes: Uint8Array<ArrayBuffer> }
  /** Another visit was opened since (a second tab of the same browser); this one is no longer held. */
  | { readonly kind: 'closed' }

interface Results {
  about: About
  openLogs: VisitView
  makePdf: PdfOutcome
}

export type Argument<C extends Channel> = z.infer<(typeof ARGUMENTS)[C]>
export type Result<C extends Channel> = Results[C]

/** The contract as the window sees it: one asynchronous function for each channel. */
export type Bridge = { readonly [C in Channel]: (argument: Argument<C>) => Promise<Result<C>> }

/** The contract as the program behind the window fulfils it. */
export type Handlers = {
  readonly [C in Channel]: (argument: Argument<C>) => Result<C> | Promise<Result<C>>
}
