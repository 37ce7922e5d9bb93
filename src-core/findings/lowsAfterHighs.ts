import type { Lows } from '../day/lows'
import { isLow, type Readings } from '../log/readings'
import { minutesBetween } from '../technique/chronology'
import type { Technique } from '../technique/technique'
import { countOf, type Facts } from './finding'

const HOURS_TO_A_LOW = 5

/** The first low within five hours after a reading, itself no repeat of it; null where none came. */
export function lowAfterwards(
  readings: Readings,
  { repeatSets }: Pick<Technique, 'repeatSets'>,
  lows: Lows,
  index: number,
): number | null {
  const set = repeatSets.find(({ members }) => members.includes(index))
  const found = lows.each.find(({ index: low }) => {
    const minutes = minutesBetween(readings, index, low)
    return minutes > 0 && minutes <= HOURS_TO_A_LOW * 60 && set?.members.includes(low) !== true
  })
  return found?.index ?? null
}

/** Lows soon after a reading that a repeat contradicted as too high: a dose may have been taken on it. */
export function lowsAfterHighs(
  readings: Readings,
  technique: Technique,
  lows: Lows,
  { start, end }: { readonly start: number; readonly end: number },
): Facts | null {
  const highs = technique.doubtful.filter(
    ({ index, reasons }) =>
      index >= start &&
      index < end &&
      !isLow(readings, index) &&
      reasons.some(
        ({ code, evidence }) =>
          code === 'contradicted-by-repeat' && evidence.otherMgDl < readings.mgDl[index],
      ),
  )
  const followed = highs.filter(({ index }) => lowAfterwards(readings, technique, lows, index) !== null)
  if (followed.length === 0) return null
  return { code: 'lows-after-contradicted-highs', evidence: countOf(followed.length, highs.length) }
}
