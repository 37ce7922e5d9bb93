import type { Settings } from '../model/settings'
import { FLAG, hasFlag, isLow } from '../log/readings'
import type { Evidence } from './reasons/evidence'
import { areEnough, reasonFinders } from './reasons/reasonTable'
import type { DoubtfulReading } from './technique'

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
  const { all, standingAlone } = reasonFinders(evidence)
  const doubtful: DoubtfulReading[] = []
  for (let index = 0; index < readings.n; index++) {
    if (hasFlag(readings, index, FLAG.sensor)) continue
    const low = isLow(readings, index)
    const bar = low ? settings.doubtThresholdLow : settings.doubtThreshold
    // Most readings have neither, and are asked no more.
    if (!(doubt[index] >= bar) && standingAlone(index).length === 0) continue
    const reasons = all(index)
    if (areEnough(reasons, doubt[index], low, settings))
      doubtful.push({ index, doubt: doubt[index], reasons })
  }
  return doubtful
}
