import { rangesIn } from '../analysis/targets'
import type { Channel } from '../bridge/channels'
import type { Argument, Changed, LogFile, Result, Stale } from '../bridge/contract'
import type { FileRequest } from '../bridge/fileRequest'
import { formEdit } from '../bridge/forms/formEdit'
import type { FormRequest } from '../bridge/forms/formRequest'
import type { Problem } from '../bridge/visitState'
import type { OpenedView } from '../bridge/visitView'
import type { WindowEdit } from '../bridge/windowEdit'
import { wallSeconds, zoneOffsets } from '../units/timeZone'
import { isoMoment } from '../units/wallClock'
import type { Edit } from '../visit/edits'
import { isPdf } from '../log/encoding'
import { beginsAsVisit } from '../visit/format'
import { redone, undone } from '../visit/history'
import { removing } from '../visit/sample'
import { addedNotices, addLogs, addSample } from './adding'
import { changed, fileOutcome, problems, visitState } from './answers'
import { perform, type Work } from './effects'
import { goTo, make } from './making'
import { goOn, open, openChosen, openRecent, recover } from './opening'
import { protect, save, saveAt, saveFirst } from './saving'
import { fileOpening, isEdited, type Opening, type Place, type WindowState } from './state'
import { after, type Outcome, type Saying, telling, type Told, type Trouble, trouble } from './told'
import type { Words } from '../wording/words'

// What the program behind one window does at each request: from a state, by effects, to a state and an answer. One step
// is at its end before the next begins, so that what is between its effects is nobody else's state.

/** The state after a request, and its answer. */
export interface Step<A> {
  readonly state: WindowState
  readonly answer: A
}

/** Channels whose requests are answered in turn; the others need no state and are the host's. */
export type SteppedChannel = Exclude<
  Channel,
  'about' | 'print' | 'beginning' | 'kept' | 'progress' | 'cancel'
>

export type Steps = {
  readonly [C in SteppedChannel]: (state: WindowState, argument: Argument<C>) => Work<Step<Result<C>>>
}

/** The steps, with the catalogue in which they answer. */
export function stepsWith(words: Words): Steps {
  return {
    // eslint-disable-next-line require-yield -- nothing is to be done for it
    *show(state) {
      return { state, answer: visitState(words, state) }
    },
    addLogs: (state, { logs }) => answered(words, takeFiles(words, state, logs)),
    addSample: (state) => answered(words, addSample(words, state)),
    edit: (state, { revision, edit }) =>
      answered(
        words,
        ofRevision(state, revision, function* () {
          return yield* make(words, state, yield* editOf(state, edit))
        }),
      ),
    *form(state, { revision, form }) {
      if (revision === state.revision) return yield* fill(words, state, form)
      const stale = trouble(state, null, { code: 'stale' })
      return { state, answer: { ...changed(words, stale), faults: [] } }
    },
    undo: (state, { revision }) =>
      answered(
        words,
        ofRevision(state, revision, () => goTo(words, state, undone(state.history))),
      ),
    redo: (state, { revision }) =>
      answered(
        words,
        ofRevision(state, revision, () => goTo(words, state, redone(state.history))),
      ),
    readings: (state, { revision, filter, from, count }) =>
      look(state, revision, () => perform(state, 'rows', { filter, from, count })),
    reading: (state, { revision, index }) => look(state, revision, () => perform(state, 'reading', index)),
    picture: (state, { revision }) => look(state, revision, () => perform(state, 'picture')),
    waysToRead: (state, { revision, sha256, subject }) =>
      look(state, revision, function* () {
        const { readAt, broughtAlong, history } = state
        const moments = { readAt, now: yield* perform(state, 'now'), broughtAlong }
        return yield* perform(state, 'waysToRead', { visit: history.visit, moments, sha256, subject })
      }),
    makePdf: (state, { revision, printed = {}, attach: attaches = false }) =>
      look(state, revision, function* () {
        const { nowMs, zone } = yield* perform(state, 'now')
        const { visit } = state.history
        const { paper, label, diary } = visit
        // What is attached holds the notes.
        const attach = attaches && !printed.withoutNotes ? { visitFile: yield* visitFile(state, zone) } : null
        const pdf = yield* perform(state, 'pdf', {
          settings: { paper, label, diary, printed, attach },
          nowMs,
        })
        return { kind: 'made' as const, revision, ...pdf }
      }),
    *file(state, request) {
      const outcome = yield* ofFile(words, state, request)
      return { state: outcome.state, answer: fileOutcome(words, outcome) }
    },
  }
}

/** The bytes of the visit's file as it would be saved now; null where it has none. */
function* visitFile(state: WindowState, zone: string): Work<Uint8Array<ArrayBuffer> | null> {
  const { file, history } = state
  if (file.name === null) return null
  const visit = { ...history.visit, zone: history.visit.zone ?? zone }
  return (yield* perform(state, 'contentOf', { visit, passphrase: file.passphrase })).bytes
}

/** Opens what the host was started with: a visit, logs, or both. Gives what could not be opened. */
export function* openWith(
  words: Words,
  state: WindowState,
  visit: Place | null,
  logs: readonly LogFile[],
): Work<Step<readonly Problem[]>> {
  const outcome = yield* takeFiles(words, state, logs, visit)
  return { state: outcome.state, answer: problems(words, outcome.told.problems) }
}

/** Has the window tell what could not be opened before it was there. */
// eslint-disable-next-line require-yield -- nothing is to be done for it
export function* tellUnopened(state: WindowState, unopened: readonly Problem[]): Work<Step<void>> {
  return { state: { ...state, unopened }, answer: undefined }
}

/** Ends the window. What is not saved stays to be recovered, unless it is meant to go. */
export function* end(state: WindowState, discard: boolean): Work<Step<void>> {
  const edited = isEdited(state)
  yield* perform(state, 'endKept', discard || !edited)
  // What is left edited holds all that the browser was given.
  yield* perform(state, 'endHanded', discard || edited)
  if (state.file.lock !== null) yield* perform(state, 'release', state.file.lock)
  return { state, answer: undefined }
}

function* answered(words: Words, work: Work<Outcome>): Work<Step<Changed>> {
  const outcome = yield* work
  return { state: outcome.state, answer: changed(words, outcome) }
}

function* ofRevision(state: WindowState, revision: number, does: () => Work<Outcome>): Work<Outcome> {
  return revision === state.revision ? yield* does() : trouble(state, null, { code: 'stale' })
}

/** Looks at the figures, where they are still those that the window means. */
function* look<T>(state: WindowState, revision: number, does: () => Work<T | null>): Work<Step<T | Stale>> {
  const isShown = revision === state.revision && state.report.kind === 'opened'
  const seen = isShown ? yield* does() : null
  return { state, answer: seen ?? { kind: 'stale' } }
}

/** A visit, in its place or among the files, is opened, and the logs added to it. */
function* takeFiles(
  words: Words,
  state: WindowState,
  given: readonly LogFile[],
  place: Place | null = null,
): Work<Outcome> {
  const { files, told } = yield* unpacked(state, given)
  const logs = files.filter((file) => !isVisit(file))
  const openings: Opening[] = [
    ...(place === null ? [] : [fileOpening(place)]),
    ...files
      .filter(isVisit)
      .map(({ name, bytes }) => ({ name, place: null, source: { kind: 'bytes' as const, bytes } })),
  ]
  if (openings.length > 1) return trouble(state, null, { code: 'visit-alone' })
  const [opening] = openings
  if (openings.length > 0) return after(told, yield* open(words, state, opening, logs))
  return logs.length === 0 ? telling(state, told) : after(told, yield* addLogs(words, state, logs))
}

/** The files, with what reports among them carry in their place. */
function* unpacked(
  state: WindowState,
  given: readonly LogFile[],
): Work<{ readonly files: readonly LogFile[]; readonly told: Told }> {
  const files: LogFile[] = []
  const problems: Trouble[] = []
  const notices: Saying[] = []
  for (const file of given) {
    const found = isPdf(file.bytes) ? yield* perform(state, 'unpack', file) : { files: [file] }
    if ('fault' in found) {
      problems.push({ about: file.name, why: { code: 'attachments', fault: found.fault } })
      continue
    }
    files.push(...found.files)
    const carriesReadings = found.files.some((one) => one !== file && !isVisit(one))
    if (carriesReadings && notices.length === 0) notices.push({ code: 'readings-alone' })
  }
  return { files, told: telling(state, { problems, notices }).told }
}

/** Bytes that tell a visit file from a log. */
const START = 64

function isVisit({ bytes }: LogFile): boolean {
  return beginsAsVisit(new TextDecoder().decode(bytes.subarray(0, START)))
}

function* ofFile(words: Words, state: WindowState, request: FileRequest): Work<Outcome> {
  const { question } = state
  const next = question?.next ?? null
  switch (request.does) {
    case 'begin':
      return yield* open(words, state, { name: null, place: null, source: { kind: 'empty' } })
    case 'choose':
      return yield* openChosen(words, state)
    case 'open-recent':
      return yield* openRecent(words, state, request.mark)
    case 'recover':
      return yield* recover(words, state, request.mark)
    case 'discard': {
      const found = yield* perform(state, 'unsaved', request.mark)
      if (found?.source.kind === 'unsaved') yield* perform(state, 'discard', found.source.file)
      return telling(state, { said: [{ code: 'discarded' }] })
    }
    case 'save':
      return yield* save(words, state)
    case 'save-as':
      return yield* save(words, state, { as: true })
    case 'protect':
      return yield* protect(words, state, request.passphrase)
    case 'remove-traces':
      return telling({ ...state, question: { kind: 'remove-traces', next: null } })
    case 'cancel':
      return telling({ ...state, question: null })
    case 'go-on':
      return yield* asked(words, state)
    case 'save-first':
      return yield* saveFirst(words, state, next)
    case 'open-with': {
      if (next === null) return telling(state)
      return yield* goOn(words, state, { ...next, passphrase: request.passphrase, tries: next.tries + 1 })
    }
  }
}

/** What was asked may be done. */
function* asked(words: Words, before: WindowState): Work<Outcome> {
  const { question } = before
  const state = { ...before, question: null }
  switch (question?.kind) {
    case 'changed-outside':
    case 'gone-outside': {
      const { next } = question
      return yield* saveFirst(words, state, next, save(words, state, { overOther: true, next }))
    }
    case 'other-stands': {
      const { place, next } = question
      return yield* saveFirst(words, state, next, saveAt(words, state, place, { overOther: true, next }))
    }
    case 'remove-traces': {
      const { folder, removed } = yield* perform(state, 'removeTraces')
      return telling(state, { said: [{ code: 'traces-removed', folder, removed }] })
    }
    case 'unsaved':
      return yield* goOn(words, state, { ...question.next, unsavedMayGo: true })
    case 'open-elsewhere':
      return yield* goOn(words, state, { ...question.next, elsewhereIsFine: true })
    case 'passphrase':
    case undefined:
      return telling(state)
  }
}

/** The unit printed now, and the one where the person names none. */
function units({ report, history }: WindowState): Pick<OpenedView, 'unit' | 'unitOfLogs'> {
  if (report.kind === 'opened') return report
  const unit = history.visit.unit ?? 'mg/dL'
  return { unit, unitOfLogs: unit }
}

function* minuteNow(state: WindowState): Work<string> {
  const { nowMs, zone } = yield* perform(state, 'now')
  return isoMoment(wallSeconds(nowMs, zoneOffsets(zone)(nowMs)))
}

/** The visit's own words for an edit of the window. */
function* editOf(state: WindowState, edit: WindowEdit): Work<Edit> {
  const { visit } = state.history
  if (edit.kind === 'set' && edit.settings.unit !== undefined) {
    const { unit, unitOfLogs } = units(state)
    const ranges = rangesIn(visit, unit, edit.settings.unit ?? unitOfLogs)
    return { kind: 'set', settings: { ...edit.settings, ...ranges } }
  }
  if (edit.kind === 'remove-log') return removing(visit, edit.sha256, yield* perform(state, 'sample'))
  if (edit.kind !== 'decide') return edit
  const decidedAt = yield* minuteNow(state)
  const { reading, choice, reason } = edit
  return { kind: 'decide', decision: { reading, choice, reason: reason.trim(), decidedAt } }
}

function* fill(words: Words, state: WindowState, form: FormRequest): Work<Step<Result<'form'>>> {
  const { visit } = state.history
  const read = formEdit(words, visit, form, { ...units(state), now: yield* minuteNow(state) })
  if ('faults' in read) return { state, answer: { ...changed(words, telling(state)), faults: read.faults } }
  const { edit } = read
  const made = yield* make(words, state, edit)
  const isOwn = edit.kind === 'type-reading' && edit.insteadOf === undefined
  const notices = isOwn ? addedNotices(visit, made.state, yield* perform(made.state, 'sample')) : []
  const outcome = { ...made, told: { ...made.told, notices } }
  return { state: made.state, answer: { ...changed(words, outcome), faults: [] } }
}
