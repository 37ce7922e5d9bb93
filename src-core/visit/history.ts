import { type Edit, edited } from './edits'
import type { Visit } from './visit'

/** A visit with what was done to it: what can be undone, newest last, and what can be done again, next last. */
export interface History {
  readonly visit: Visit
  readonly undoable: readonly Step[]
  readonly redoable: readonly Step[]
}

/** An edit and the visit before it; visits share all that did not change. */
interface Step {
  readonly edit: Edit
  readonly before: Visit
}

/** Older steps are forgotten. */
const MOST_STEPS = 1_000

export function historyOf(visit: Visit): History {
  return { visit, undoable: [], redoable: [] }
}

/** The history after an edit; unchanged where the edit changes nothing. What was undone cannot be redone any more. */
export function done(history: History, edit: Edit): History {
  const { visit: before } = history
  const visit = edited(before, edit)
  if (visit === before) return history
  return { visit, undoable: [...history.undoable, { edit, before }].slice(-MOST_STEPS), redoable: [] }
}

/** One step back; unchanged where there is none. */
export function undone({ visit, undoable, redoable }: History): History {
  const last = undoable.at(-1)
  if (last === undefined) return { visit, undoable, redoable }
  return { visit: last.before, undoable: undoable.slice(0, -1), redoable: [...redoable, last] }
}

/** The step that was undone last, done again; unchanged where there is none. */
export function redone({ visit, undoable, redoable }: History): History {
  const next = redoable.at(-1)
  if (next === undefined) return { visit, undoable, redoable }
  return {
    visit: edited(visit, next.edit),
    undoable: [...undoable, { edit: next.edit, before: visit }],
    redoable: redoable.slice(0, -1),
  }
}
