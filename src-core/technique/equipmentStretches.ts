import type { DoubtfulReading, DoubtReason, FailedControl, StripOutOfDate } from './technique'

/** Readings of one meter that are doubtful for one fault of its strips or meter and for nothing else. */
export interface EquipmentStretch {
  readonly reason: FailedControl | StripOutOfDate
  /** Indexes in the logbook's order. */
  readonly indexes: readonly number[]
}

/** Whether a reading is doubtful by its strips or a control alone: its own doubt stays below `doubtThreshold`. */
export function isDoubtfulByEquipment({ doubt, reasons }: DoubtfulReading, doubtThreshold: number): boolean {
  return reasons.some(isOfEquipment) && !reasons.some(isOfItself) && !(doubt >= doubtThreshold)
}

/** Tags and notes of the reading itself speak whatever its doubt. */
function isOfItself({ code }: DoubtReason): boolean {
  return code === 'looks-like-control-solution' || code === 'outside-working-temperature'
}

function isOfEquipment(reason: DoubtReason): reason is FailedControl | StripOutOfDate {
  return reason.code === 'failed-control' || reason.code === 'strip-out-of-date'
}

/** The readings doubtful by strips or a control alone, those of one fault and one meter together. */
export function equipmentStretches(
  doubtful: readonly DoubtfulReading[],
  meterOf: (index: number) => number,
  doubtThreshold: number,
): readonly EquipmentStretch[] {
  const stretches = new Map<string, { reason: FailedControl | StripOutOfDate; indexes: number[] }>()
  for (const reading of doubtful) {
    const reason = reading.reasons.find(isOfEquipment)
    if (reason === undefined || !isDoubtfulByEquipment(reading, doubtThreshold)) continue
    const fault = reason.code === 'failed-control' ? reason.evidence.failedOn : reason.evidence.goodUntil
    const key = `${reason.code} ${fault} ${meterOf(reading.index)}`
    const stretch = stretches.get(key)
    if (stretch === undefined) stretches.set(key, { reason, indexes: [reading.index] })
    else stretch.indexes.push(reading.index)
  }
  return [...stretches.values()]
}
