import type { AttachmentFault } from '../model/attachmentFault'
import type { NotWritten } from '../model/notWritten'
import type { RemovedTraces } from '../wording/english/traces'
import type { WindowState } from './state'

/** What is said to the person, as a code with its parameters; `sentences.ts` makes the words. */
export type Saying =
  | { readonly code: 'saved'; readonly name: string; readonly isProtected: boolean }
  | { readonly code: 'handed' | 'opened'; readonly name: string }
  | { readonly code: 'recovered' | 'discarded' | 'protect-next' | 'unprotect-next' }
  | { readonly code: 'traces-removed'; readonly folder: string; readonly removed: RemovedTraces }
  | { readonly code: 'open-elsewhere' | 'opening-cancelled' | 'visit-alone' | 'gone' | 'not-readable' }
  | { readonly code: 'stale' | 'log-held-already' }
  | { readonly code: 'too-many-logs'; readonly most: number }
  | { readonly code: 'sample-put-away' | 'sample-among-logs' | 'added-to-others' }
  | { readonly code: 'new-outside'; readonly readings: number }
  /** Of a report that was added; `fault`: why what it carries is not read. */
  | { readonly code: 'attachments'; readonly fault: AttachmentFault }
  | { readonly code: 'readings-alone' }
  | { readonly code: 'not-written'; readonly fault: NotWritten }
  /** What another part of the program has put into words. */
  | { readonly code: 'in-words'; readonly text: string }

/** Something that was not done, and why; `about` names the log or file where it is one's own. */
export interface Trouble {
  readonly about: string | null
  readonly why: Saying
}

/** What is told of a request. */
export interface Told {
  readonly problems: readonly Trouble[]
  /** What was done. */
  readonly said: readonly Saying[]
  /** What should be known besides. */
  readonly notices: readonly Saying[]
  /** Whether the person stopped it before it was done. */
  readonly cancelled: boolean
  /** A file for the browser to save. */
  readonly download: { readonly fileName: string; readonly bytes: Uint8Array<ArrayBuffer> } | null
}

/** The state after a request, and what is told of it. */
export interface Outcome {
  readonly state: WindowState
  readonly told: Told
}

const NOTHING: Told = { problems: [], said: [], notices: [], cancelled: false, download: null }

export function telling(state: WindowState, told: Partial<Told> = {}): Outcome {
  return { state, told: { ...NOTHING, ...told } }
}

export function trouble(state: WindowState, about: string | null, why: Saying): Outcome {
  return telling(state, { problems: [{ about, why }] })
}

/** What was told first, and after it what came of the next. */
export function after(first: Told, { state, told }: Outcome): Outcome {
  return {
    state,
    told: {
      problems: [...first.problems, ...told.problems],
      said: [...first.said, ...told.said],
      notices: [...first.notices, ...told.notices],
      cancelled: told.cancelled,
      download: told.download ?? first.download,
    },
  }
}
