import type { Settings } from '../analysis/settings'
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
import { stripOutOfDate } from './reasons/stripOutOfDate'
import { unlikeNeighbours } from './reasons/unlikeNeighbours'
import { usualRange } from './reasons/usualRange'
import type { ContradictedByRepeat, DoubtfulReading, DoubtReason } from './technique'

/**
 * The readings that are doubtful, in the logbook's order: by their doubt, or by a reason that stands on its own. Each
 * has every reason that speaks against it, in the order in which advice weighs them: note, equipment, tests nearby, the
 * value itself.
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
    const overBar = doubt[index] >= (low ? settings.doubtThresholdLow : settings.doubtThreshold)
    const alone = find.standingAlone(index)
    if (!overBar && !alone.some((reason) => flags(reason, low))) continue
    const reasons = find.all(index, alone)
    if (low && !reasons.some(mayFlagLow)) continue
    doubtful.push({ index, doubt: doubt[index], reasons })
  }
  return doubtful
}

/** Whether a reason that stands on its own flags: an untagged control test hides no low. */
function flags(reason: DoubtReason, low: boolean): boolean {
  return !low || mayFlagLow(reason)
}

/** No neighbour and no limit speaks against a low alone, whatever its doubt. */
const NEVER_OF_A_LOW: ReadonlySet<DoubtReason['code']> = new Set([
  'unlike-neighbours',
  'faster-than-glucose-changes',
  'at-measuring-limit',
])

function mayFlagLow(reason: DoubtReason): boolean {
  if (NEVER_OF_A_LOW.has(reason.code)) return false
  if (reason.code === 'looks-like-control-solution') return reason.evidence.tagged
  // Sugar on the finger would hide a low, not make one.
  return reason.code !== 'note-tells-of-technique' || reason.evidence.direction !== 'too-high'
}

function reasonFinder(evidence: Evidence) {
  const { readings, order, repeatSets, equipment } = evidence
  const near = witnesses(readings, order)
  const range = usualRange(readings)
  const failedControl = failedControls(readings, equipment)
  const controlSolution = controlSolutionTests(readings, equipment)
  const setOf = new Map<number, ReadonlySet<number>>()
  const contradicted = new Map<number, ContradictedByRepeat>()
  for (const members of repeatSets) {
    const set = new Set(members)
    contradictions(readings, members).forEach((reason, i) => {
      setOf.set(members[i], set)
      if (reason) contradicted.set(members[i], reason)
    })
  }
  const noSet: ReadonlySet<number> = new Set()
  const present = (reasons: readonly (DoubtReason | null | undefined)[]) =>
    reasons.filter((reason): reason is DoubtReason => reason !== null && reason !== undefined)
  return {
    standingAlone: (index: number) =>
      present([
        controlSolution(index),
        stripOutOfDate(readings, equipment, index),
        failedControl(index),
        outsideWorkingTemperature(readings, equipment, index),
      ]),
    all: (index: number, alone: readonly DoubtReason[]) =>
      present([
        noteTellsOfTechnique(evidence.telling(index)),
        ...alone,
        contradicted.get(index),
        fasterThanGlucoseChanges(readings, near, setOf.get(index) ?? noSet, index),
        unlikeNeighbours(readings, evidence.expected, index),
        looksLikeOtherUnit(readings, range, index),
        atMeasuringLimit(readings, index),
      ]),
  }
}
