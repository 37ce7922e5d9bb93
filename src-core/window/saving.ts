import { visitFileName } from '../bridge/fileNames'
import { perform, type StandsThere, type Work } from './effects'
import { keepUnsaved } from './making'
import { asking, goOn } from './opening'
import { holds } from './sentences'
import { isEdited, type OnItsWay, type Place, type WindowState } from './state'
import { after, type Outcome, telling, trouble } from './told'
import type { Words } from '../wording/words'

/** How a visit is to be saved. */
interface Saving {
  /** Under another name than its own. */
  readonly as?: boolean
  /** Whether what another program has made of its file may go. */
  readonly overOther?: boolean
  /** What is opened after it. */
  readonly next?: OnItsWay | null
}

/** What may not be saved over unasked where it was not opened here. */
const KEPT_UNLESS_ASKED: ReadonlySet<StandsThere> = new Set(['visit', 'output', 'other'])

/** Saves the visit in its place, or where the person chooses; in a browser without a place it is given to the browser. */
export function* save(words: Words, before: WindowState, saving: Saving = {}): Work<Outcome> {
  const state = { ...before, question: null }
  const { place } = state.file
  const { as = false } = saving
  const name = state.file.name ?? visitFileName(state.history.visit.label)
  if (!state.hasDialogs && (as || place === null)) return yield* handOver(words, state, name)
  const to = !as && place !== null ? place : yield* perform(state, 'choosePlace', name)
  return to === null ? telling(state) : yield* saveAt(words, state, to, saving)
}

/** Saves, then goes on with what waited for it. */
export function* saveFirst(
  words: Words,
  state: WindowState,
  next: OnItsWay | null,
  saving: Work<Outcome> = save(words, state, { next }),
): Work<Outcome> {
  const saved = yield* saving
  if (next === null || isEdited(saved.state)) return saved
  return after(saved.told, yield* goOn(words, saved.state, next))
}

/** For the browser to save; nobody knows where it does. */
function* handOver(words: Words, before: WindowState, fileName: string): Work<Outcome> {
  const { history, file } = before
  const { passphrase } = file
  const { visit } = history
  const { zone } = yield* perform(before, 'now')
  const content = { visit: { ...visit, zone: visit.zone ?? zone }, passphrase }
  const { bytes, sha256 } = yield* perform(before, 'contentOf', content)
  const given = { said: [{ code: 'handed' as const, name: fileName }], download: { fileName, bytes } }
  // A copy of a visit that has its place is no save of it.
  if (file.place !== null) return telling(before, given)
  const kept = { visit, passphrase, holds: holds(words, before) }
  yield* perform(before, 'keepHanded', { ...kept, name: fileName, sha256 })
  const state = {
    ...before,
    file: { ...file, name: fileName, saved: { visit, passphrase }, handed: sha256 },
  }
  yield* keepUnsaved(words, state)
  return telling(state, given)
}

/** Saves at a place. What stands there and is not what this window opened goes only where that was asked. */
export function* saveAt(
  words: Words,
  before: WindowState,
  place: Place,
  { overOther = false, next = null }: Saving,
): Work<Outcome> {
  const state = { ...before, question: null }
  const { history, file } = state
  const { path, name } = place
  const isOwn = file.place !== null && (yield* perform(state, 'isSameFile', [path, file.place.path]))
  const openedAs = isOwn && !overOther ? file.openedAs : null
  const damagedAs = isOwn ? file.damagedAs : null
  const other = openedAs === null ? null : yield* perform(state, 'changedOutside', { path, openedAs })
  if (other !== null) return asking(state, { kind: `${other}-outside`, place, next })
  const lock = isOwn ? file.lock : yield* perform(state, 'lock', path)
  if (lock === null && !isOwn) return trouble(state, name, { code: 'open-elsewhere' })
  const letGo = function* (): Work<void> {
    if (lock !== null && !isOwn) yield* perform(state, 'release', lock)
  }
  const { passphrase } = file
  const { visit } = history
  let sha256: string
  try {
    const standing = yield* perform(state, 'kindAt', path)
    if (
      standing.kind === 'stands' &&
      openedAs === null &&
      !overOther &&
      KEPT_UNLESS_ASKED.has(standing.what)
    ) {
      yield* letGo()
      return asking(state, { kind: 'other-stands', place, isVisit: standing.what === 'visit', next })
    }
    const { zone } = yield* perform(state, 'now')
    const saved =
      standing.kind === 'failed'
        ? standing
        : yield* perform(state, 'save', {
            path,
            visit: { ...visit, zone: visit.zone ?? zone },
            passphrase,
            openedAs,
            damagedAs,
            sparesOthers: !overOther,
          })
    if (saved.kind === 'failed') {
      yield* letGo()
      return trouble(state, null, { code: 'not-written', fault: saved.fault })
    }
    sha256 = saved.sha256
  } catch (fault) {
    yield* letGo()
    throw fault
  }
  const after: WindowState = {
    ...state,
    file: {
      ...file,
      place,
      name,
      openedAs: sha256,
      damagedAs,
      lock,
      damage: isOwn ? file.damage : [],
      openElsewhere: isOwn && file.openElsewhere,
      saved: { visit, passphrase },
    },
  }
  yield* perform(after, 'keepFor', path)
  if (file.lock !== null && !isOwn) yield* perform(after, 'release', file.lock)
  yield* keepUnsaved(words, after)
  yield* perform(after, 'remember', path)
  return telling(after, { said: [{ code: 'saved', name, isProtected: passphrase !== null }] })
}

/** Sets or takes away the protection; it is so in the file once the visit is saved. */
export function* protect(words: Words, before: WindowState, passphrase: string | null): Work<Outcome> {
  const state = { ...before, file: { ...before.file, passphrase } }
  yield* keepUnsaved(words, state)
  return telling(state, { said: [{ code: passphrase === null ? 'unprotect-next' : 'protect-next' }] })
}
