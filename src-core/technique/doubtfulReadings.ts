import type { Settings } from '../model/settings'
import { FLAG, hasFlag, isLow } from '../log/readings'
import { atMeasuringLimit } from './reasons/atMeasuringLimit'
import { contradictions } from './reasons/contradictedByRepeat'
import type { Evidence } from './reasons/evidence'
import { failedControls } from './reasons/failedControl'
import { fasterThanGlucoseChanges } from './reasons/fasterThanGlucoseChanges'
import { controlSolutionTests } from './reasons/looksLikeControlSolution'
import { looksLikeOtherUnit } from './reasons/looksLikeOtherUnit'
import { witnesses } from './reasons/neighbours'
import { noteTellsOfTechnique } from './reasons/noteTellsOfTechnique'
import { outsideWorkingTemperature } from './reasons/outsideWorkingTemperature'
import {
  areEnough,
  REASON_CODES,
  type ReasonCode,
  type ReasonOf,
  STANDING_ALONE,
} from './reasons/reasonTable'
import { stripOutOfDate } from './reasons/stripOutOfDate'
import { unlikeNeighbours } from './reasons/unlikeNeighbours'
import { usualRange } from './reasons/usualRange'
import type { ContradictedByRepeat, DoubtfulReading, DoubtReason } from './technique'

/**
 * The readings that are doubtful, in the logbook's order: by their doubt, or by a reason that stands on its own. Each
 * has every reason that speaks against it, in the order of the table of reasons.
 */
export function doubtfulReadings(
  evidence: Evidence,
  doubt: Float64Array,
  settings: Settings,
): readonly DoubtfulReading[] {
  const { readings } = evidence
  const find = reasonFinder(evidence)
  const doubtful: DoubtfulReading[] = []
  for (let index = 0; index < readings.n; index++) {
    if (hasFlag(readings, index, FLAG.sensor)) continue
    const low = isLow(readings, index)
    const bar = low ? settings.doubtThresholdLow : settings.doubtThreshold
    // Most readings have neither, and are asked no more.
    if (!(doubt[index] >= bar) && find(index, STANDING_ALONE).length === 0) continue
    const reasons = find(index, REASON_CODES)
    if (areEnough(reasons, doubt[index], low, settings))
      doubtful.push({ index, doubt: doubt[index], reasons })
  }
  return doubtful
}

/** Who looks for each reason. */
type ReasonFinders = {
  readonly [Code in ReasonCode]: (index: number) => ReasonOf<Code> | null | undefined
}

function reasonFinder(evidence: Evidence) {
  const { readings, order, repeatSets, equipment } = evidence
  const near = witnesses(readings, order)
  const range = usualRange(readings)
  const setOf = new Map<number, readonly number[]>()
  const contradicted = new Map<number, ContradictedByRepeat>()
  for (const members of repeatSets) {
    contradictions(readings, members).forEach((reason, i) => {
      setOf.set(members[i], members)
      if (reason) contradicted.set(members[i], reason)
    })
  }
  const finders: ReasonFinders = {
    'note-tells-of-technique': (index) => noteTellsOfTechnique(evidence.telling(index)),
    'looks-like-control-solution': controlSolutionTests(readings, equipment),
    'strip-out-of-date': (index) => stripOutOfDate(readings, equipment, index),
    'failed-control': failedControls(readings, equipment),
    'outside-working-temperature': (index) => outsideWorkingTemperature(readings, equipment, index),
    'contradicted-by-repeat': (index) => contradicted.get(index),
    'faster-than-glucose-changes': (index) =>
      fasterThanGlucoseChanges(readings, near, setOf.get(index) ?? [], index),
    'unlike-neighbours': (index) => unlikeNeighbours(readings, evidence.expected, index),
    'looks-like-other-unit': (index) => looksLikeOtherUnit(readings, range, index),
    'at-measuring-limit': (index) => atMeasuringLimit(readings, index),
  }
  return (index: number, codes: readonly ReasonCode[]): readonly DoubtReason[] =>
    codes
      .map((code) => finders[code](index))
      .filter((reason): reason is DoubtReason => reason !== null && reason !== undefined)
}
