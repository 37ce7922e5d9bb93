import type { Analysis, PeriodFigures } from '../analysis/analysis'
import { equipmentStretches } from '../technique/equipmentStretches'
import { causeText } from '../wording/doubt'
import { metersOnPaper } from '../wording/metersOnPaper'

/** The faults of strips and meters that make readings of the period doubtful, in words. */
export function knownCauses(
  { readings, technique, settings }: Analysis,
  { start, end }: PeriodFigures,
): readonly string[] {
  const onPaper = metersOnPaper(readings.meters)
  const doubtful = technique.doubtful.filter(({ index }) => index >= start && index < end)
  return equipmentStretches(doubtful, readings, settings).map(({ reason, indexes }) =>
    causeText(indexes.length, onPaper[readings.meter[indexes[0]]], reason.code),
  )
}
