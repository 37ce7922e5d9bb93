import type { PeriodFigures } from '../analysis/analysis'
import { HOURS_PER_DAY } from '../reference/dayParts'

/** Hours of the clock from the first to behind the last. */
export type Hours = readonly [number, number]

/** Tests within so many hours of the day tell of these hours alone (design choice). */
const NARROW_HOURS = 3
/** Tests within so many hours leave most of the day unknown, which is told beside their figures (design choice). */
const PART_OF_DAY_HOURS = 8
/** Fewer readings show no habit of testing (design choice). */
const FEWEST_READINGS = 8

type Tests = Pick<PeriodFigures, 'timeOfDay' | 'asLogged'>

/** The few hours in which all tests of a period were made, such as 06 to 08; null where they cover more, or are few. */
export function onlyHours(tests: Tests): Hours | null {
  return hoursOfAll(tests, NARROW_HOURS)
}

/** The same of a third of the day or less, such as a night. */
export function onlyPartOfDay(tests: Tests): Hours | null {
  return hoursOfAll(tests, PART_OF_DAY_HOURS)
}

/** The hours, at most so many, in which all tests were made; the fewest that hold them; null without, or of few readings. */
function hoursOfAll({ timeOfDay, asLogged }: Tests, most: number): Hours | null {
  const tested = timeOfDay.hours.map(({ n }) => n > 0)
  const timed = timeOfDay.hours.reduce((sum, { n }) => sum + n, 0)
  if (timed < FEWEST_READINGS || timed < asLogged.n) return null
  for (let from = 0; from < HOURS_PER_DAY; from++) {
    const isIn = (hour: number) => (hour - from + HOURS_PER_DAY) % HOURS_PER_DAY < most
    if (!tested[from] || !tested.every((is, hour) => !is || isIn(hour))) continue
    const last = [...tested.keys()]
      .filter((hour) => tested[hour])
      .map((hour) => (hour - from + HOURS_PER_DAY) % HOURS_PER_DAY)
    return [from, ((from + Math.max(...last)) % HOURS_PER_DAY) + 1]
  }
  return null
}
