import type { Decision, TypedReading } from '../model/decision'
import { keyOfTyped } from './edits'
import type { Visit } from './visit'

// What files told in words before they had a code for it. These words stand in files that were written then: they never
// change, whatever the program says today.

const SAMPLE_LABEL = 'Invented sample, not a person'
const correctedWords = ({ value, unit }: TypedReading) => `typed by hand instead: ${value} ${unit}`
/** Of `YYYY-MM-DDTHH:MM`. */
const MINUTE_LENGTH = 16

/** A visit of an earlier file with the codes that its words stand for. */
export function withCodes(visit: Visit): Visit {
  const { typed, label } = visit
  const decisions = visit.decisions.map((decision) => withCorrection(decision, typed))
  // eslint-disable-next-line house/no-sentence-read -- the file has no code for it
  const isSample = label === SAMPLE_LABEL
  return { ...visit, decisions, ...(isSample && { sampleLabel: true }) }
}

function withCorrection(decision: Decision, typed: readonly TypedReading[]): Decision {
  if (decision.correctedTo !== undefined || decision.choice !== 'leave-out') return decision
  const { reading, reason } = decision
  const by = typed.find(
    (one) => reading.at.slice(0, MINUTE_LENGTH) === one.at && reason === correctedWords(one),
  )
  return by === undefined ? decision : { ...decision, reason: '', correctedTo: keyOfTyped(by) }
}
