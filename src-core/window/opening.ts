import type { LogFile } from '../bridge/contract'
import { historyOf } from '../visit/history'
import { EMPTY_VISIT, type Visit } from '../visit/visit'
import { addLogs } from './adding'
import { type Loaded, perform, type Work } from './effects'
import { computed, keepUnsaved } from './making'
import {
  fileOpening,
  isEdited,
  type Lock,
  type OnItsWay,
  type Opening,
  type Question,
  type WindowState,
} from './state'
import { after, type Outcome, type Saying, telling, trouble } from './told'
import type { Words } from '../wording/words'

/** Opens a visit in place of this one, and adds the logs that came with it; what must be asked before is asked. */
export function open(
  words: Words,
  state: WindowState,
  opening: Opening,
  logs: readonly LogFile[] = [],
): Work<Outcome> {
  return goOn(words, state, {
    opening,
    logs,
    unsavedMayGo: false,
    elsewhereIsFine: false,
    passphrase: null,
    tries: 0,
  })
}

/** Opens the visit that the person chooses, or the one of a mark. */
export function* openChosen(words: Words, state: WindowState): Work<Outcome> {
  const place = yield* perform(state, 'chooseVisit')
  return place === null ? telling(state) : yield* open(words, state, fileOpening(place))
}

export function* openRecent(words: Words, state: WindowState, mark: string): Work<Outcome> {
  const place = yield* perform(state, 'recent', mark)
  return place === null
    ? trouble(state, null, { code: 'gone' })
    : yield* open(words, state, fileOpening(place))
}

export function* recover(words: Words, state: WindowState, mark: string): Work<Outcome> {
  const opening = yield* perform(state, 'unsaved', mark)
  return opening === null ? trouble(state, null, { code: 'gone' }) : yield* open(words, state, opening)
}

/** Goes on with an opening as far as it can without asking. */
export function* goOn(words: Words, before: WindowState, next: OnItsWay): Work<Outcome> {
  const state = { ...before, question: null }
  const { file } = state
  const { opening, passphrase, unsavedMayGo, elsewhereIsFine } = next
  const { name, place, source } = opening
  if (isEdited(state) && !unsavedMayGo) return asking(state, { kind: 'unsaved', next })
  const found = yield* perform(state, 'read', { source, passphrase })
  switch (found.kind) {
    case 'protected':
      return asking(state, { kind: 'passphrase', again: found.again, next })
    case 'refused':
      return trouble(state, name, { code: 'in-words', text: found.message })
    case 'gone':
    case 'not-readable':
      return trouble(state, name, { code: found.kind })
    case 'loaded':
  }
  const isOwn =
    place !== null &&
    file.place !== null &&
    (yield* perform(state, 'isSameFile', [place.path, file.place.path]))
  const lock = place === null ? null : isOwn ? file.lock : yield* perform(state, 'lock', place.path)
  const openElsewhere = place !== null && !isOwn && lock === null
  if (openElsewhere && !elsewhereIsFine) return asking(state, { kind: 'open-elsewhere', next })
  return yield* take(words, state, next, found, { lock, isOwn, openElsewhere })
}

export function asking(state: WindowState, question: Question): Outcome {
  return telling({ ...state, question })
}

/** Takes over what was read, with its file; the visit before and its file are let go. */
function* take(
  words: Words,
  before: WindowState,
  { opening, logs }: OnItsWay,
  loaded: Loaded,
  how: { readonly lock: Lock | null; readonly isOwn: boolean; readonly openElsewhere: boolean },
): Work<Outcome> {
  const { name, place, source } = opening
  const { visit, passphrase, sha256, damage, openedAs } = loaded
  const { lock, isOwn, openElsewhere } = how
  const wasUnsaved = source.kind === 'unsaved'
  const replaced = yield* replacing(before, visit)
  if ('why' in replaced) {
    if (lock !== null && !isOwn) yield* perform(before, 'release', lock)
    return trouble(before, null, replaced.why)
  }
  const { lock: lockBefore, handed } = before.file
  const state: WindowState = {
    ...replaced,
    file: {
      place,
      name,
      openedAs,
      damagedAs: damage.length > 0 && !wasUnsaved ? sha256 : null,
      lock,
      damage,
      openElsewhere,
      passphrase,
      saved: { visit: wasUnsaved ? null : visit, passphrase },
      handed: null,
    },
  }
  // From here on the state is the new one, whatever the rest comes to.
  yield* perform(state, 'keepFor', place && place.path)
  yield* perform(state, 'endHanded', handed === sha256)
  yield* perform(state, 'discardHanded', sha256)
  if (lockBefore !== null && !isOwn) yield* perform(state, 'release', lockBefore)
  yield* keepUnsaved(words, state)
  if (place !== null) yield* perform(state, 'remember', place.path)
  // Only when this window keeps it may the one that it was recovered from go.
  if (wasUnsaved && (yield* perform(state, 'isKept'))) yield* perform(state, 'discard', source.file)
  const said: readonly Saying[] = wasUnsaved
    ? [{ code: 'recovered' }]
    : name === null
      ? []
      : [{ code: 'opened', name }]
  const opened = telling(state, { said })
  return logs.length === 0 ? opened : after(opened.told, yield* addLogs(words, state, logs))
}

/** The state with another visit in place of its own and nothing to undo; why it cannot be. */
function* replacing(state: WindowState, visit: Visit): Work<WindowState | { readonly why: Saying }> {
  const readAt = yield* perform(state, 'now')
  const broughtAlong = visit === EMPTY_VISIT ? null : visit.logs.map(({ sha256 }) => sha256)
  const history = historyOf(visit)
  const report = yield* computed(state, visit, { readAt, broughtAlong })
  if (report.kind === 'refused') return { why: { code: 'in-words', text: report.message } }
  if (report.kind === 'cancelled') return { why: { code: 'opening-cancelled' } }
  const { revision, visitNumber } = state
  return {
    ...state,
    history,
    report,
    readAt,
    broughtAlong,
    revision: revision + 1,
    visitNumber: visitNumber + 1,
    unopened: [],
  }
}
