import type { Settings } from '../../model/settings'
import { AT_MEASURING_LIMIT } from './atMeasuringLimit'
import { CONTRADICTED_BY_REPEAT } from './contradictedByRepeat'
import type { EquipmentFault, ReasonAdvice, ReasonDefinition } from './definition'
import type { Evidence } from './evidence'
import { FAILED_CONTROL } from './failedControl'
import { FASTER_THAN_GLUCOSE_CHANGES } from './fasterThanGlucoseChanges'
import { LOOKS_LIKE_CONTROL_SOLUTION } from './looksLikeControlSolution'
import { LOOKS_LIKE_OTHER_UNIT } from './looksLikeOtherUnit'
import { NOTE_TELLS_OF_TECHNIQUE } from './noteTellsOfTechnique'
import { OUTSIDE_WORKING_TEMPERATURE } from './outsideWorkingTemperature'
import { STRIP_OUT_OF_DATE } from './stripOutOfDate'
import { UNLIKE_NEIGHBOURS } from './unlikeNeighbours'

/** In the order in which advice weighs them: note, equipment, tests nearby, the value itself. */
const REASONS = [
  NOTE_TELLS_OF_TECHNIQUE,
  LOOKS_LIKE_CONTROL_SOLUTION,
  STRIP_OUT_OF_DATE,
  FAILED_CONTROL,
  OUTSIDE_WORKING_TEMPERATURE,
  CONTRADICTED_BY_REPEAT,
  FASTER_THAN_GLUCOSE_CHANGES,
  UNLIKE_NEIGHBOURS,
  LOOKS_LIKE_OTHER_UNIT,
  AT_MEASURING_LIMIT,
] as const

/** Why a reading is doubted, with its evidence. The words are made in `wording`. */
export type DoubtReason = NonNullable<ReturnType<ReturnType<(typeof REASONS)[number]['finder']>>>
export type ReasonCode = DoubtReason['code']

// Each definition is asked for reasons of its own code alone, so it knows their evidence.
const BY_CODE = new Map(REASONS.map((reason) => [reason.code, reason as ReasonDefinition<DoubtReason>]))
const definitionOf = ({ code }: DoubtReason) => BY_CODE.get(code) as ReasonDefinition<DoubtReason>

export const REASON_CODES = REASONS.map(({ code }) => code)

/** Finders of all the reasons against a reading, in the order of the table, and of those that stand alone. */
export function reasonFinders(
  known: Evidence,
): Record<'all' | 'standingAlone', (index: number) => readonly DoubtReason[]> {
  const finders = REASONS.map(({ standsAlone, finder }) => ({ standsAlone, find: finder(known) }))
  const among = (some: typeof finders) => (index: number) =>
    some.map(({ find }) => find(index)).filter((reason) => reason !== null)
  return { all: among(finders), standingAlone: among(finders.filter(({ standsAlone }) => standsAlone)) }
}

/** The fault of strips or meter that a reason tells of; null of one that speaks of neither. */
export function faultOf(reason: DoubtReason): EquipmentFault | null {
  return definitionOf(reason).faultOf?.(reason.evidence) ?? null
}

/** What explains a reading by this reason alone; null where others have to be weighed. */
export function adviceOf(reason: DoubtReason): ReasonAdvice | null {
  return definitionOf(reason).adviceOf?.(reason.evidence) ?? null
}

/**
 * Whether these reasons, beside a doubt of 0 to 1 (NaN: not estimated), make a reading doubtful. A low needs the higher
 * doubt, and one reason that may flag a low.
 */
export function areEnough(
  reasons: readonly DoubtReason[],
  doubt: number,
  low: boolean,
  { doubtThreshold, doubtThresholdLow }: Pick<Settings, 'doubtThreshold' | 'doubtThresholdLow'>,
): boolean {
  if (!low) return doubt >= doubtThreshold || reasons.some(standsAlone)
  const speaking = reasons.filter(mayFlagLow)
  return speaking.some(standsAlone) || (doubt >= doubtThresholdLow && speaking.length > 0)
}

function standsAlone(reason: DoubtReason): boolean {
  return definitionOf(reason).standsAlone
}

function mayFlagLow(reason: DoubtReason): boolean {
  const { mayFlagLow: may } = definitionOf(reason)
  return typeof may === 'function' ? may(reason.evidence) : may
}
