import { DAY, type RowTable } from '../rowTable'

// A table that keeps days alone may still write a time, the same in every row: '2026-03-02 00:00'.

const MIDNIGHT = 0
const NOON = 12 * 3600
/** Fewest rows with a time that show it. A design choice. */
const FEWEST_ROWS = 4
/** Share of the days that must have several readings at noon; one a day may be a test before lunch. A design choice. */
const SEVERAL_A_DAY = 0.5

/**
 * The one time, in seconds from 00:00, that stands for none in all rows of a log: midnight, or noon where most days have
 * several readings then. Null where times differ, or tell the same moment everywhere.
 */
export function placeholderTime(rows: RowTable): number | null {
  let only: number | null = null
  let timed = 0
  const onDay = new Map<number, number>()
  for (let row = 0; row < rows.n; row++) {
    if (rows.fates.reasonOf(row) !== null) continue
    const second = rows.secondOf(row)
    if (second === null) continue
    if (second === 'unreadable' || rows.offsetOf(row) !== null || rows.dayKind[row] === DAY.instant)
      return null
    if (second !== MIDNIGHT && second !== NOON) return null
    only ??= second
    if (second !== only) return null
    timed++
    onDay.set(rows.day[row], (onDay.get(rows.day[row]) ?? 0) + 1)
  }
  if (timed < FEWEST_ROWS || only === null || onDay.size < 2) return null
  const several = [...onDay.values()].filter((n) => n > 1).length
  return only === MIDNIGHT || several >= SEVERAL_A_DAY * onDay.size ? only : null
}
