import { isZone, wallSeconds, zoneOffsets } from '../../src-core/units/timeZone'
import { isoMoment } from '../../src-core/units/wallClock'

/**
 * The moment of running, milliseconds since 1970: that of SOURCE_DATE_EPOCH where it is set, so that the same
 * input gives the same bytes (reproducible-builds.org, SOURCE_DATE_EPOCH specification).
 */
export function nowMs(): number {
  return fixedMs() ?? Date.now()
}

/** The zone in which the date of making is printed: the computer's own, UTC where the moment is fixed. */
export function zoneOfMaking(): string {
  return fixedMs() === null ? computersZone() : 'UTC'
}

/** The computer's own time zone; UTC where its environment names none that exists. */
export function computersZone(): string {
  const zone = Intl.DateTimeFormat().resolvedOptions().timeZone as string | undefined
  return zone !== undefined && isZone(zone) ? zone : 'UTC'
}

/** The last moment that dates can hold, by the language's standard. */
const LAST_MS = 8.64e15

function fixedMs(): number | null {
  const epoch = process.env.SOURCE_DATE_EPOCH
  if (epoch === undefined || !/^\d+$/.test(epoch)) return null
  const ms = Number(epoch) * 1000
  return ms <= LAST_MS ? ms : null
}

/** 'YYYY-MM-DD HH:MM' by the computer's own clock. */
export function minuteOf(ms: number): string {
  return isoMoment(wallSeconds(ms, zoneOffsets(computersZone())(ms))).replace('T', ' ')
}
