import { dayOfDate, MINUTES_PER_DAY } from '../units/wallClock'
import type { ClockCheck, Kit } from './kit'

/**
 * Whether what the kit tells of `told` holds for a meter: it may be named as the log names it or as on paper
 * ('meter A'); what names no meter holds for all.
 */
export function isOfMeter(told: string | undefined, meter: string, onPaper: string): boolean {
  if (told === undefined) return true
  const name = told.toLowerCase()
  return name === meter.toLowerCase() || name === onPaper.toLowerCase()
}

/** Meters that the kit names and no log has, each once. */
export function unknownMeters(
  kit: Kit,
  meters: readonly string[],
  onPaper: readonly string[],
): readonly string[] {
  const told = [...(kit.strips ?? []), ...(kit.controls ?? []), ...(kit.clocks ?? [])].map(
    ({ meter }) => meter,
  )
  return [...new Set(told)].filter(
    (name): name is string =>
      name !== undefined && !meters.some((meter, i) => isOfMeter(name, meter, onPaper[i])),
  )
}

/** By how many minutes a meter's clock was ahead of the true time. */
export function minutesFast({ shown, true: trueTime }: ClockCheck): number {
  return minuteOf(shown) - minuteOf(trueTime)
}

function minuteOf(moment: string): number {
  const [date, time] = moment.split('T')
  const [hours, minutes] = time.split(':').map(Number)
  return dayOfDate(date) * MINUTES_PER_DAY + hours * 60 + minutes
}
