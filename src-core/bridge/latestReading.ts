import { FLAG, hasClockTime, hasFlag, isLow, type Readings } from '../log/readings'
import type { ImportContext } from '../log/logSource'
import type { GlucoseUnit } from '../units/glucose'
import { wallSeconds, zoneOffsets } from '../units/timeZone'
import { clock } from '../units/wallClock'
import type { Words } from '../wording/words'

/** A latest reading younger than this may still need treating: 6 hours. */
const RECENT_SECONDS = 6 * 60 * 60

/**
 * What to say first where the logbook's latest reading is under six hours old and low, or HI; null where
 * there is nothing to say. A reading dated after now counts as recent: the meter's clock may be ahead.
 */
export function latestWarning(
  words: Words,
  readings: Readings,
  unit: GlucoseUnit,
  now: ImportContext,
): string | null {
  let index = readings.n - 1
  while (index >= 0 && !hasClockTime(readings, index)) index--
  if (index < 0 || ageSeconds(readings, index, now) >= RECENT_SECONDS) return null
  const high = hasFlag(readings, index, FLAG.aboveRange)
  const low = isLow(readings, index) || hasFlag(readings, index, FLAG.belowRange)
  if (!high && !low) return null
  const { latestHigh, latestLow } = words.latestReading
  const value = words.numbers.readingText(readings, index, unit)
  return (high ? latestHigh : latestLow)(value, clock(readings.at[index]))
}

/** Seconds from a reading to now: between instants where the log gives an offset, else on the wall clock. */
function ageSeconds(readings: Readings, index: number, now: ImportContext): number {
  if (hasFlag(readings, index, FLAG.offset)) {
    return Math.floor(now.nowMs / 1000) - (readings.at[index] - readings.offsetMinutes[index] * 60)
  }
  return wallSeconds(now.nowMs, zoneOffsets(now.zone)(now.nowMs)) - readings.at[index]
}
