import { SECONDS_PER_DAY } from './wallClock'

/** Transitions of every zone in use fall on a quarter of an hour, so one look-up serves each. */
const QUARTER_HOUR_MS = 900_000

/** Whether the platform knows a zone of this name. */
export function isZone(zone: string): boolean {
  try {
    new Intl.DateTimeFormat('en-GB', { timeZone: zone })
    return true
  } catch {
    return false
  }
}

/** Returns a function that gives a zone's offset, minutes east of UTC, at an instant in milliseconds. */
export function zoneOffsets(zone: string): (instantMs: number) => number {
  const format = new Intl.DateTimeFormat('en-GB', {
    timeZone: zone,
    hourCycle: 'h23',
    year: 'numeric',
    month: 'numeric',
    day: 'numeric',
    hour: 'numeric',
    minute: 'numeric',
  })
  const known = new Map<number, number>()
  return (instantMs) => {
    const quarter = Math.floor(instantMs / QUARTER_HOUR_MS)
    let offset = known.get(quarter)
    if (offset === undefined) {
      const instant = quarter * QUARTER_HOUR_MS
      const part: Record<string, number> = {}
      for (const { type, value } of format.formatToParts(new Date(instant))) part[type] = Number(value)
      const wall = Date.UTC(part.year, part.month - 1, part.day, part.hour, part.minute)
      offset = Math.round((wall - instant) / 60_000)
      known.set(quarter, offset)
    }
    return offset
  }
}

/** Wall-clock seconds of an instant at an offset in minutes east of UTC. */
export function wallSeconds(instantMs: number, offsetMinutes: number): number {
  return Math.floor(instantMs / 1000) + offsetMinutes * 60
}

/** Serial number of 1970-01-01 in spreadsheets (1900 system; ECMA-376 part 1, 18.17.4.1). */
export const SPREADSHEET_SERIAL_OF_1970 = 25_569

/** Wall-clock seconds of a spreadsheet's serial date, to the nearest second. */
export function serialToWallSeconds(serial: number): number {
  return Math.round((serial - SPREADSHEET_SERIAL_OF_1970) * SECONDS_PER_DAY)
}
