import type { Strips } from '../kit/kit'
import { type DayNumber, dayOfDate } from '../units/wallClock'

/** What the dates of a vial of strips mean. */
export interface VialTold {
  /** The day on which it expired, where it was used after that. */
  readonly usedAfter: DayNumber | null
  /** Where it stood open for longer than its leaflet allows, days. */
  readonly openTooLong: { readonly days: number; readonly allowed: number } | null
}

export function vialTold({ expires, opened, finished, daysOnceOpen }: Strips): VialTold {
  const days = opened === undefined || finished === undefined ? 0 : dayOfDate(finished) - dayOfDate(opened)
  return {
    usedAfter: expires !== undefined && (finished ?? opened ?? '') > expires ? dayOfDate(expires) : null,
    openTooLong: daysOnceOpen !== undefined && days > daysOnceOpen ? { days, allowed: daysOnceOpen } : null,
  }
}
