import type { NotWritten } from '../model/notWritten'
import type { WindowState } from './state'
import type { Saying } from './told'
import type { Words } from '../wording/words'

// The one place where what a step tells becomes words.

/** The sentence itself, then what belongs beside it. */
export function sentences(words: Words, saying: Saying): readonly [string, ...string[]] {
  return saying.code === 'traces-removed'
    ? words.traces.removedTracesText(saying.folder, saying.removed)
    : [sentence(words, saying)]
}

export function sentence(words: Words, saying: Exclude<Saying, { code: 'traces-removed' }>): string {
  switch (saying.code) {
    case 'saved':
      return words.visitWindow.savedText(saying.name, saying.isProtected)
    case 'handed':
      return words.visitWindow.handedText(saying.name)
    case 'opened':
      return words.visitWindow.openedText(saying.name)
    case 'recovered':
      return words.visitWindow.recoveredText
    case 'discarded':
      return words.visitWindow.DISCARDED
    case 'protect-next':
      return words.visitWindow.PROTECT_NEXT
    case 'unprotect-next':
      return words.visitWindow.UNPROTECT_NEXT
    case 'open-elsewhere':
      return words.visitWindow.OPEN_ELSEWHERE
    case 'opening-cancelled':
      return words.visitWindow.OPENING_CANCELLED
    case 'visit-alone':
      return words.visitWindow.VISIT_ALONE
    case 'gone':
      return words.visitWindow.GONE
    case 'not-readable':
      return words.visitWindow.NOT_READABLE
    case 'stale':
      return words.window.STALE
    case 'log-held-already':
      return words.window.LOG_HELD_ALREADY
    case 'too-many-logs':
      return words.window.TOO_MANY_LOGS(saying.most)
    case 'sample-put-away':
      return words.window.SAMPLE_PUT_AWAY
    case 'sample-among-logs':
      return words.window.SAMPLE_AMONG_LOGS
    case 'added-to-others':
      return words.window.ADDED_TO_OTHERS
    case 'new-outside':
      return words.window.newOutsideText(saying.readings)
    case 'attachments':
      return words.attachments.ATTACHMENT_FAULT[saying.fault]
    case 'readings-alone':
      return words.attachments.READINGS_ALONE
    case 'not-written':
      return words.outputs.notWrittenText(saying.fault)
    case 'in-words':
      return saying.text
  }
}

/** What the visit holds, for a person to know it by where it is kept unsaved. */
export function holds(words: Words, { history, report }: WindowState): string {
  const { logs, typed, decisions } = history.visit
  const days = report.kind === 'opened' ? report.period : null
  return words.visitWindow.holdsText(
    days,
    logs.map(({ name }) => name),
    typed.length,
    decisions.length,
  )
}

/** `why` what is not saved could not be kept, null where it could; `unknown` where nobody knows. */
export function notKept(words: Words, why: NotWritten | 'unknown' | null): string {
  if (why === null) return ''
  return words.visitWindow.notKeptText(why === 'unknown' ? '' : words.outputs.notWrittenText(why))
}
