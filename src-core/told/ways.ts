import { isLow, loggedUnit } from '../log/readings'
import type { AsRead, Moved, WayChosen } from '../log/waysToRead'
import { shortName } from '../model/named'
import { dayOf, SECONDS_PER_MINUTE, type WallSeconds } from '../units/wallClock'

// What a person is told of a way to read a log, before it is chosen.

/** What the log would come to: readings, lows among them, the first one's unit, days, rows set aside, other entries. */
export function wayEffect({ report, readings, entries }: AsRead) {
  let lows = 0
  for (let i = 0; i < readings.n; i++) if (isLow(readings, i)) lows++
  return {
    readings: readings.n,
    lows,
    unit: loggedUnit(readings, 0),
    from: dayOf(readings.at[0]),
    to: dayOf(readings.at[readings.n - 1]),
    setAside: report.rows.setAside,
    entries: entries.length,
  }
}

/** A cell of the column that a choice would read as meal, note or meter. */
export interface HeldCell {
  readonly role: 'meal' | 'note' | 'meter'
  readonly cell: string
}

/** What such a choice would hold at a reading, short; null of other choices and of empty cells. */
export function heldAt({ readings }: AsRead, index: number, chosen: WayChosen): HeldCell | null {
  if (chosen.of !== 'column') return null
  const { role } = chosen
  if (role !== 'meal' && role !== 'note' && role !== 'meter') return null
  const cell = role === 'meter' ? readings.meters[readings.meter[index]] : readings[role](index)
  return cell === '' ? null : { role, cell: shortName(cell) }
}

/** What moving a stretch of times would do: readings moved, those then set aside, rows set aside now that would be some. */
export function moveEffect({ readingsBefore, after, moved }: Moved) {
  const more = after.readings.n - readingsBefore
  return { moved: moved.length, lost: Math.max(0, -more), won: Math.max(0, more) }
}

/** When a reading that would be moved stands in the log. */
export function loggedAt({ after: { readings } }: Moved, index: number): WallSeconds {
  return readings.at[index] - readings.shiftMinutes[index] * SECONDS_PER_MINUTE
}
