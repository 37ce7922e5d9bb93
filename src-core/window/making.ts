import type { ReportView } from '../bridge/visitState'
import type { Edit } from '../visit/edits'
import { done, type History } from '../visit/history'
import type { Visit } from '../visit/visit'
import { type Made, perform, type Work } from './effects'
import { holds } from './sentences'
import { isEdited, type WindowState } from './state'
import { type Outcome, telling, trouble } from './told'
import type { Words } from '../wording/words'

/** What is made of a history's visit; nothing is computed where the figures stay the same. */
export function* made(state: WindowState, { visit }: History): Work<Made | ReportView> {
  return sameFigures(state.history.visit, visit) ? state.report : yield* computed(state, visit, state)
}

/** What is made of a visit; `state` stands meanwhile. */
export function* computed(
  state: WindowState,
  visit: Visit,
  { readAt, broughtAlong }: Pick<WindowState, 'readAt' | 'broughtAlong'>,
): Work<Made | ReportView> {
  if (visit.logs.length + visit.typed.length === 0) return { kind: 'empty' }
  const now = yield* perform(state, 'now')
  return yield* perform(state, 'report', { visit, moments: { readAt, now, broughtAlong } })
}

/** Takes over a history with what was made of it. */
export function* settle(
  words: Words,
  state: WindowState,
  history: History,
  report: ReportView,
): Work<WindowState> {
  if (history === state.history) return state
  const settled = { ...state, history, report, revision: state.revision + 1, unopened: [] }
  yield* keepUnsaved(words, settled)
  return settled
}

/** Has what is not saved kept meanwhile; after every change of the visit, of its protection and of what is saved. */
export function* keepUnsaved(words: Words, state: WindowState): Work<void> {
  const { passphrase } = state.file
  if (!isEdited(state)) return yield* perform(state, 'forget')
  yield* perform(state, 'keep', { visit: state.history.visit, passphrase, holds: holds(words, state) })
}

/** Takes a history as it is, also one whose logs stop the report: a person goes back where they were. */
export function* goTo(words: Words, state: WindowState, next: History): Work<Outcome> {
  const view = yield* made(state, next)
  // Figures that were made once can be made again: only an edit brings what cannot be.
  if (view.kind === 'refused') throw new Error('A visit of the history cannot be made')
  if (view.kind === 'cancelled') return telling(state, { cancelled: true })
  return telling(yield* settle(words, state, next, view))
}

/** Makes an edit, unless what it asks for cannot be: then the visit stays and the reason is told. */
export function* make(words: Words, state: WindowState, edit: Edit): Work<Outcome> {
  const next = done(state.history, edit)
  const view = yield* made(state, next)
  if (view.kind === 'cancelled') return telling(state, { cancelled: true })
  if (view.kind === 'refused') return trouble(state, null, { code: 'in-words', text: view.message })
  const hopeless = view.kind === 'stopped' && view.refusals.find(({ question }) => question === null)
  if (hopeless && edit.kind !== 'remove-log')
    return trouble(state, hopeless.log, { code: 'in-words', text: hopeless.message })
  return telling(yield* settle(words, state, next, view))
}

/** Whether each part of a visit bears on its figures, or on its pages alone. */
const BEARS_ON_FIGURES: Readonly<Record<keyof Visit, boolean>> = {
  logs: true,
  typed: true,
  decisions: true,
  kit: true,
  shifts: true,
  period: true,
  versus: true,
  targets: true,
  goal: true,
  unit: true,
  zone: true,
  paper: false,
  label: false,
  sampleLabel: false,
  diary: false,
}

function sameFigures(a: Visit, b: Visit): boolean {
  return (Object.keys(BEARS_ON_FIGURES) as readonly (keyof Visit)[]).every(
    (part) => !BEARS_ON_FIGURES[part] || a[part] === b[part],
  )
}
