import type { Settings } from '../analysis/settings'
import { isLow, type Readings } from '../log/readings'
import { areEnough, REASONS } from './reasons/reasonTable'
import type { DoubtfulReading, DoubtReason, FailedControl, StripOutOfDate } from './technique'

/** Readings of one meter that are doubtful for one fault of its strips or meter and for nothing else. */
export interface EquipmentStretch {
  readonly reason: FailedControl | StripOutOfDate
  /** Indexes in the logbook's order. */
  readonly indexes: readonly number[]
}

/** Whether a reading is doubtful by its strips or a control alone: nothing else that is known of it would do. */
export function isDoubtfulByEquipment(
  { index, doubt, reasons }: DoubtfulReading,
  readings: Readings,
  settings: Settings,
): boolean {
  const others = reasons.filter((reason) => !isOfEquipment(reason))
  return others.length < reasons.length && !areEnough(others, doubt, isLow(readings, index), settings)
}

function isOfEquipment(reason: DoubtReason): reason is FailedControl | StripOutOfDate {
  return REASONS[reason.code].ofEquipment === 'days-on-end'
}

/** The readings doubtful by strips or a control alone, those of one fault and one meter together. */
export function equipmentStretches(
  doubtful: readonly DoubtfulReading[],
  readings: Readings,
  settings: Settings,
): readonly EquipmentStretch[] {
  const stretches = new Map<string, { reason: FailedControl | StripOutOfDate; indexes: number[] }>()
  for (const reading of doubtful) {
    const reason = reading.reasons.find(isOfEquipment)
    if (reason === undefined || !isDoubtfulByEquipment(reading, readings, settings)) continue
    const fault = reason.code === 'failed-control' ? reason.evidence.failedOn : reason.evidence.goodUntil
    const key = `${reason.code} ${fault} ${readings.meter[reading.index]}`
    const stretch = stretches.get(key)
    if (stretch === undefined) stretches.set(key, { reason, indexes: [reading.index] })
    else stretch.indexes.push(reading.index)
  }
  return [...stretches.values()]
}
