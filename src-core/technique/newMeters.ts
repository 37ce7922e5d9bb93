import type { DaySpan, Readings } from '../log/readings'
import { isTyped } from '../log/typedByHand'
import { type DayNumber, dayOf } from '../units/wallClock'
import type { MeterPair } from './meterPairs'

/** A meter that came into use later than this many days after the first is new (design choice). */
export const NEW_AFTER_DAYS = 7

/** A meter that began in mid-period and whose pairs with an older one differ. */
export interface NewMeter {
  /** Indexes into the logbook's meters. */
  readonly meter: number
  readonly other: number
  readonly since: DayNumber
  /** Mean of 100 x (new - old) / mean of the two, and its 95 % interval. */
  readonly differencePercent: number
  readonly ci95Percent: readonly [number, number]
  readonly pairs: number
}

/** Of every pair of meters whose mean difference is clear: those of which one began within `span`, the other before it. */
export function newMeters(
  readings: Readings,
  pairs: readonly MeterPair[],
  span: DaySpan,
): readonly NewMeter[] {
  const firstDays = firstDaysOfMeters(readings)
  return pairs.flatMap(({ first, second, meanDifferencePercent, meanCi95Percent, pairs: { length } }) => {
    if (meanCi95Percent === null || (meanCi95Percent[0] <= 0 && meanCi95Percent[1] >= 0)) return []
    const [a, b] = [first, second].map((meter) => firstDays.get(meter) ?? NaN)
    if (Math.abs(a - b) < NEW_AFTER_DAYS) return []
    const isFirst = a > b
    const since = Math.max(a, b)
    if (since <= span.from || since > span.to) return []
    const [low, high] = meanCi95Percent
    return [
      {
        meter: isFirst ? first : second,
        other: isFirst ? second : first,
        since,
        differencePercent: isFirst ? meanDifferencePercent : -meanDifferencePercent,
        ci95Percent: isFirst ? ([low, high] as const) : ([-high, -low] as const),
        pairs: length,
      },
    ]
  })
}

/** The day of each meter's first reading, by index; what was typed by hand is of none. */
export function firstDaysOfMeters(readings: Readings): ReadonlyMap<number, DayNumber> {
  const firstDays = new Map<number, DayNumber>()
  for (let i = 0; i < readings.n; i++) {
    if (!firstDays.has(readings.meter[i]) && !isTyped(readings, i))
      firstDays.set(readings.meter[i], dayOf(readings.at[i]))
  }
  return firstDays
}
