import { countMarkers, hasClockTime, type Readings } from '../log/readings'
import { mealMoment } from '../log/mealWords'
import { hasManyMarkers } from '../statistics/heldBack'
import { sampleSd } from '../statistics/moments'
import { dayOf, secondOfDay } from '../units/wallClock'

/** Where no tag tells it, the first test of a day in these hours stands for the fasting one (design choice). */
export const MORNING_HOURS = { from: 4, to: 10 } as const
/** Fewer mornings give no spread worth planning with (as for the printed SD). */
const FEWEST_MORNINGS = 15

export interface FastingSpread {
  /** mg/dL. */
  readonly sdMgDl: number
  readonly mornings: number
  /** Whether the log's tags tell the readings, or the hour alone. */
  readonly basis: 'tags' | 'hours'
}

/** SD of the first fasting reading of each day; null below 15 such days, or where too many of them are HI or LO. */
export function fastingSpread(readings: Readings, indexes: readonly number[]): FastingSpread | null {
  const tagged = indexes.filter((i) => mealMoment(readings.meal(i)) === 'before-breakfast')
  const early = indexes.filter((i) => hasClockTime(readings, i) && isMorning(secondOfDay(readings.at[i])))
  return spreadOf(readings, tagged, 'tags') ?? spreadOf(readings, early, 'hours')
}

/** Whether a second of the day lies in the hours of the fasting test. */
export function isMorning(second: number): boolean {
  return second >= MORNING_HOURS.from * 3600 && second < MORNING_HOURS.to * 3600
}

function spreadOf(
  readings: Readings,
  indexes: readonly number[],
  basis: FastingSpread['basis'],
): FastingSpread | null {
  const firsts = new Map<number, number>()
  for (const i of indexes) {
    const day = dayOf(readings.at[i])
    if (!firsts.has(day)) firsts.set(day, i)
  }
  const mornings = [...firsts.values()]
  if (hasManyMarkers(countMarkers(readings, mornings))) return null
  const sd = sampleSd(Float64Array.from(mornings, (i) => readings.mgDl[i]))
  return sd === null || firsts.size < FEWEST_MORNINGS ? null : { sdMgDl: sd, mornings: firsts.size, basis }
}
