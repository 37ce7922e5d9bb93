import { type DayNumber, parseIsoDay } from '../../units/wallClock'
import type { EquipmentTold, StripsTold } from './evidence'

/** The vials that may have been in use with a meter on a day: opened, not finished, no later one opened since. */
export function stripsInUse(
  { strips, isOfMeter }: EquipmentTold,
  meter: number,
  day: DayNumber,
): readonly StripsTold[] {
  const opened = strips.filter(
    (vial) => isOfMeter(vial.meter, meter) && (dayOfText(vial.opened) ?? -Infinity) <= day,
  )
  return opened.filter((vial) => day <= lastDayOf(vial, opened))
}

/** The last day on which a vial may have been in use with a meter; Infinity where nothing ends it. */
export function stripsLastUntil(
  { strips, isOfMeter }: EquipmentTold,
  vial: StripsTold,
  meter: number,
): DayNumber {
  return lastDayOf(
    vial,
    strips.filter((other) => isOfMeter(other.meter, meter)),
  )
}

/** Where nobody says when a vial was finished, the next one opened ends it. */
function lastDayOf(vial: StripsTold, others: readonly StripsTold[]): DayNumber {
  const finished = dayOfText(vial.finished)
  if (finished !== null) return finished
  const start = dayOfText(vial.opened) ?? -Infinity
  const next = others.map(({ opened }) => dayOfText(opened) ?? -Infinity).filter((day) => day > start)
  return next.length === 0 ? Infinity : Math.min(...next)
}

/** The day of an ISO date that was checked where it was read; null where it is left out. */
export function dayOfText(isoDay: string | undefined): DayNumber | null {
  return isoDay === undefined ? null : parseIsoDay(isoDay)
}
