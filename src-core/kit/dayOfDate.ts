import { type DayNumber, parseIsoDay } from '../units/wallClock'

/** The day of a date that the shapes of the kit have let through. */
export function dayOfDate(isoDate: string): DayNumber {
  return parseIsoDay(isoDate) as DayNumber
}
