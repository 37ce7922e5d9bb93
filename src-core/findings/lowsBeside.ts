import { hasClockTime, isLow, type Readings } from '../log/readings'
import { NIGHT_ENDS_AT_HOUR } from '../reference/dayParts'
import { secondOfDay } from '../units/wallClock'

/** The lows of the same readings, told with whatever might ask for more treatment. */
export interface LowsBeside {
  readonly readingsBelow70: number
  /** Those of them from 00:00 to before 06:00. */
  readonly readingsBelow70AtNight: number
}

export function lowsBeside(readings: Readings, indexes: readonly number[]): LowsBeside {
  const lows = indexes.filter((index) => isLow(readings, index))
  return {
    readingsBelow70: lows.length,
    readingsBelow70AtNight: lows.filter((index) => isAtNight(readings, index)).length,
  }
}

export function isAtNight(readings: Readings, index: number): boolean {
  return hasClockTime(readings, index) && secondOfDay(readings.at[index]) < NIGHT_ENDS_AT_HOUR * 3600
}
