import type { CorrectedTo, Decision, ReadingKey, TypedReading } from '../model/decision'
import type { LogAnswers } from '../log/logSource'
import type { Visit, VisitLog } from './visit'

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
      return added.length === 0 ? visit : { ...withSettings(visit, edit.settings), logs: [...stay, ...added] }
    }
    case 'remove-log': {
      const logs = visit.logs.filter(({ sha256 }) => sha256 !== edit.sha256)
      return logs.length === visit.logs.length ? visit : { ...withSettings(visit, edit.settings), logs }
    }
    case 'answer':
      if (!visit.logs.some(({ sha256 }) => sha256 === edit.sha256)) return visit
      return {
        ...visit,
        logs: visit.logs.map((log) => (log.sha256 === edit.sha256 ? { ...log, answers: edit.answers } : log)),
      }
    case 'decide':
      return { ...visit, decisions: withDecision(visit.decisions, ofSameCorrection(visit, edit.decision)) }
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
          ? { ...decision, correctedTo: keyOfTyped(reading) }
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
      // With a correction goes what it decided of the log's own reading, unless the same was typed twice.
      const stands = typed.some((one) => isSameTyped(one, removed))
      const decisions = visit.decisions.filter((decision) => stands || !isOfCorrection(decision, removed))
      return { ...visit, typed, decisions }
    }
    case 'set':
      return withSettings(visit, edit.settings)
  }
}

/** The visit with what is set. A label that somebody writes is not the program's own any more. */
function withSettings(visit: Visit, settings: Partial<Settings> = {}): Visit {
  if (settings.label === undefined) return { ...visit, ...settings }
  const others: { -readonly [K in keyof Visit]: Visit[K] } = { ...visit }
  delete others.sampleLabel
  return { ...others, ...settings }
}

/** A reading that a correction left out, left out again in the person's own words: it still goes with the correction. */
function ofSameCorrection({ decisions }: Visit, decision: Decision): Decision {
  const before = decisions.find(({ reading }) => isSameReading(reading, decision.reading))
  if (decision.choice !== 'leave-out' || before?.correctedTo === undefined) return decision
  return { correctedTo: before.correctedTo, ...decision }
}

/** What a decision names a typed reading by. */
export function keyOfTyped({ at, value, unit }: TypedReading): CorrectedTo {
  return { at, value, unit }
}

/** Whether a typed reading, as the correction that it is, made this decision of the log's own. */
function isOfCorrection({ correctedTo }: Decision, typed: TypedReading): boolean {
  return correctedTo !== undefined && isSameTyped(correctedTo, typed)
}

function isSameTyped(a: CorrectedTo, b: CorrectedTo): boolean {
  return a.at === b.at && a.value === b.value && a.unit === b.unit
}

function withDecision(decisions: readonly Decision[], decision: Decision): readonly Decision[] {
  return [...decisions.filter(({ reading }) => !isSameReading(reading, decision.reading)), decision]
}

export function isSameReading(a: ReadingKey, b: ReadingKey): boolean {
  return a.at === b.at && a.value === b.value && a.unit === b.unit && a.meter === b.meter && a.log === b.log
}
