import { hasClockTime, isLow } from '../log/readings'
import { LOW_EPISODE_GAP_MINUTES } from '../reference/dayParts'
import { minutesBetween } from '../technique/chronology'
import type { Look } from './look'

/** Tests each at most an hour after the one before: a low and its rechecks are one occasion. */
export interface Occasion {
  /** Index of its first low, else of its first reading. */
  readonly index: number
  readonly low: boolean
  /** From its first low to its last, minutes; 0 without two. */
  readonly lowMinutes: number
}

/** Occasions of testing with a time of day, in order of time. */
export function occasionsOf({ readings, indexes }: Look): readonly Occasion[] {
  const occasions: Occasion[] = []
  let last: number | null = null
  for (const index of indexes) {
    if (!hasClockTime(readings, index)) continue
    const low = isLow(readings, index)
    const current = occasions.at(-1)
    const goesOn = last !== null && minutesBetween(readings, last, index) <= LOW_EPISODE_GAP_MINUTES
    if (!goesOn || current === undefined) occasions.push({ index, low, lowMinutes: 0 })
    else if (low && !current.low) occasions[occasions.length - 1] = { index, low, lowMinutes: 0 }
    else if (low)
      occasions[occasions.length - 1] = {
        ...current,
        lowMinutes: minutesBetween(readings, current.index, index),
      }
    last = index
  }
  return occasions
}
