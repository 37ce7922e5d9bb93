import { removedTracesText } from '../wording/traces'
import * as FILE from '../wording/visitWindow'
import * as WINDOW from '../wording/window'
import type { WindowState } from './state'
import type { Saying } from './told'

// The one place where what a step tells becomes words.

/** The sentence itself, then what belongs beside it. */
export function sentences(saying: Saying): readonly [string, ...string[]] {
  return saying.code === 'traces-removed'
    ? removedTracesText(saying.folder, saying.removed)
    : [sentence(saying)]
}

export function sentence(saying: Exclude<Saying, { code: 'traces-removed' }>): string {
  switch (saying.code) {
    case 'saved':
      return FILE.savedText(saying.name, saying.isProtected)
    case 'handed':
      return FILE.handedText(saying.name)
    case 'opened':
      return FILE.openedText(saying.name)
    case 'recovered':
      return FILE.recoveredText
    case 'discarded':
      return FILE.DISCARDED
    case 'protect-next':
      return FILE.PROTECT_NEXT
    case 'unprotect-next':
      return FILE.UNPROTECT_NEXT
    case 'open-elsewhere':
      return FILE.OPEN_ELSEWHERE
    case 'opening-cancelled':
      return FILE.OPENING_CANCELLED
    case 'visit-alone':
      return FILE.VISIT_ALONE
    case 'gone':
      return FILE.GONE
    case 'not-readable':
      return FILE.NOT_READABLE
    case 'stale':
      return WINDOW.STALE
    case 'log-held-already':
      return WINDOW.LOG_HELD_ALREADY
    case 'too-many-logs':
      return WINDOW.TOO_MANY_LOGS(saying.most)
    case 'sample-put-away':
      return WINDOW.SAMPLE_PUT_AWAY
    case 'sample-among-logs':
      return WINDOW.SAMPLE_AMONG_LOGS
    case 'added-to-others':
      return WINDOW.ADDED_TO_OTHERS
    case 'new-outside':
      return WINDOW.newOutsideText(saying.readings)
    case 'in-words':
      return saying.text
  }
}

/** What the visit holds, for a person to know it by where it is kept unsaved. */
export function holds({ history, report }: WindowState): string {
  const { logs, typed, decisions } = history.visit
  const days = report.kind === 'opened' ? report.period : null
  return FILE.holdsText(
    days,
    logs.map(({ name }) => name),
    typed.length,
    decisions.length,
  )
}

/** `why` what is not saved could not be kept, null where it could; '' where nobody knows. */
export function notKept(why: string | null): string {
  return why === null ? '' : FILE.notKeptText(why)
}
