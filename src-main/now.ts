/**
 * The moment of running, milliseconds since 1970: that of SOURCE_DATE_EPOCH where it is set, so that the same
 * input gives the same bytes (reproducible-builds.org, SOURCE_DATE_EPOCH specification).
 */
export function nowMs(): number {
  return fixedMs() ?? Date.now()
}

/** The zone in which the date of making is printed: the computer's own, UTC where the moment is fixed. */
export function zoneOfMaking(): string {
  return fixedMs() === null ? Intl.DateTimeFormat().resolvedOptions().timeZone : 'UTC'
}

function fixedMs(): number | null {
  const epoch = process.env.SOURCE_DATE_EPOCH
  return epoch !== undefined && /^\d+$/.test(epoch) ? Number(epoch) * 1000 : null
}
