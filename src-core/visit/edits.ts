import type { LogAnswers } from '../log/logSource'
import { correctedText } from '../wording/forms'
import type { Decision, ReadingKey, TypedReading, Visit, VisitLog } from './visit'

/** Parts of a visit that are set as a whole. */
type Settings = Omit<Visit, 'logs' | 'typed' | 'decisions'>

/** All that a person can do to a visit. */
export type Edit =
  | {
      readonly kind: 'add-logs'
      readonly logs: readonly VisitLog[]
      /** SHA-256 of a log that goes away for them. */
      readonly insteadOf?: string
      /** What is set with them. */
      readonly settings?: Partial<Settings>
    }
  | { readonly kind: 'remove-log'; readonly sha256: string; readonly settings?: Partial<Settings> }
  /** All answers of one log; those that it had are replaced. */
  | { readonly kind: 'answer'; readonly sha256: string; readonly answers: LogAnswers }
  | { readonly kind: 'decide'; readonly decision: Decision }
  | { readonly kind: 'take-back'; readonly reading: ReadingKey }
  | {
      readonly kind: 'type-reading'
      readonly reading: TypedReading
      /** Place of the typed reading that it corrects. */
      readonly replaces?: number
      /** What the log's own reading, which it corrects, is decided to be. */
      readonly insteadOf?: Decision
    }
  | { readonly kind: 'remove-typed'; readonly index: number }
  | { readonly kind: 'set'; readonly settings: Partial<Settings> }

/**
 * The visit after an edit; the same object where the edit changes nothing. A log that is in it already is not added
 * again. Removing a log keeps what was decided about its readings: a longer export may bring them back.
 */
export function edited(visit: Visit, edit: Edit): Visit {
  switch (edit.kind) {
    case 'add-logs': {
      const stay = visit.logs.filter(({ sha256 }) => sha256 !== edit.insteadOf)
      const known = new Set(stay.map(({ sha256 }) => sha256))
      const added = edit.logs.filter(({ sha256 }) => !known.has(sha256) && known.add(sha256))
      return added.length === 0 ? visit : { ...visit, ...edit.settings, logs: [...stay, ...added] }
    }
    case 'remove-log': {
      const logs = visit.logs.filter(({ sha256 }) => sha256 !== edit.sha256)
      return logs.length === visit.logs.length ? visit : { ...visit, ...edit.settings, logs }
    }
    case 'answer':
      if (!visit.logs.some(({ sha256 }) => sha256 === edit.sha256)) return visit
      return {
        ...visit,
        logs: visit.logs.map((log) => (log.sha256 === edit.sha256 ? { ...log, answers: edit.answers } : log)),
      }
    case 'decide':
      return { ...visit, decisions: withDecision(visit.decisions, edit.decision) }
    case 'take-back': {
      const decisions = visit.decisions.filter(({ reading }) => !isSameReading(reading, edit.reading))
      return decisions.length === visit.decisions.length ? visit : { ...visit, decisions }
    }
    case 'type-reading': {
      const { reading, replaces, insteadOf } = edit
      const typed =
        replaces === undefined
          ? [...visit.typed, reading]
          : visit.typed.map((one, index) => (index === replaces ? reading : one))
      const before = replaces === undefined ? undefined : visit.typed[replaces]
      const decisions = visit.decisions.map((decision) =>
        before && isOfCorrection(decision, before)
          ? { ...decision, reason: correctedText(reading) }
          : decision,
      )
      return {
        ...visit,
        typed,
        decisions: insteadOf ? withDecision(decisions, insteadOf) : decisions,
      }
    }
    case 'remove-typed': {
      const removed = visit.typed.at(edit.index)
      if (edit.index < 0 || !removed) return visit
      const typed = visit.typed.filter((_, index) => index !== edit.index)
      // With a correction goes what it decided of the log's own reading.
      const decisions = visit.decisions.filter((decision) => !isOfCorrection(decision, removed))
      return { ...visit, typed, decisions }
    }
    case 'set':
      return { ...visit, ...edit.settings }
  }
}

/** Whether a typed reading, as the correction that it is, made this decision of the log's own. */
function isOfCorrection({ reading, reason }: Decision, typed: TypedReading): boolean {
  return reading.at.slice(0, MINUTE_LENGTH) === typed.at && reason === correctedText(typed)
}

/** Of `YYYY-MM-DDTHH:MM`. */
const MINUTE_LENGTH = 16

function withDecision(decisions: readonly Decision[], decision: Decision): readonly Decision[] {
  return [...decisions.filter(({ reading }) => !isSameReading(reading, decision.reading)), decision]
}

export function isSameReading(a: ReadingKey, b: ReadingKey): boolean {
  return a.at === b.at && a.value === b.value && a.unit === b.unit && a.meter === b.meter && a.log === b.log
}
