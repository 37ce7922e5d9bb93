import { type DayNumber, dayOf } from '../../units/wallClock'
import type { StripsTold } from './evidence'
import { dayOfText, stripsInUse } from './stripsInUse'
import type { ReasonDefinition } from './definition'

/** Strips used after their date, or too long after opening. */
export interface StripOutOfDate {
  readonly code: 'strip-out-of-date'
  readonly evidence: {
    readonly limit: 'expiry' | 'once-open'
    /** The last good day. */
    readonly goodUntil: DayNumber
    readonly daysPast: number
    readonly lot: string | null
  }
}

/** Where every vial that may have been in use was past its date; the date itself is still good. */
export const STRIP_OUT_OF_DATE: ReasonDefinition<StripOutOfDate> = {
  code: 'strip-out-of-date',
  standsAlone: true,
  mayFlagLow: true,
  faultOf: ({ limit, goodUntil, lot }) => {
    const fault = `${limit} ${goodUntil} ${lot}`
    return { fault, told: fault, direction: null }
  },
  adviceOf: () => ({ fits: { code: 'old-strip' }, next: 'new-vial' }),
  finder:
    ({ readings, equipment }) =>
    (index) => {
      if (equipment.strips.length === 0) return null
      const day = dayOf(readings.at[index])
      const past = stripsInUse(equipment, readings.meter[index], day).map((vial) => pastDate(vial, day))
      const known = past.filter((reason) => reason !== null)
      if (past.length === 0 || known.length < past.length) return null
      return known.reduce((least, other) =>
        other.evidence.daysPast < least.evidence.daysPast ? other : least,
      )
    },
}

function pastDate(vial: StripsTold, day: DayNumber): StripOutOfDate | null {
  const expires = dayOfText(vial.expires)
  const opened = dayOfText(vial.opened)
  const limits = [
    { limit: 'expiry' as const, goodUntil: expires },
    {
      limit: 'once-open' as const,
      goodUntil: opened === null || vial.daysOnceOpen === undefined ? null : opened + vial.daysOnceOpen,
    },
  ]
  for (const { limit, goodUntil } of limits) {
    if (goodUntil === null || day <= goodUntil) continue
    return {
      code: 'strip-out-of-date',
      evidence: { limit, goodUntil, daysPast: day - goodUntil, lot: vial.lot ?? null },
    }
  }
  return null
}
