import { FLAG, hasClockTime, hasFlag, type Readings } from '../log/readings'
import { minutesBetween } from './chronology'
import { isTyped } from '../log/typedByHand'
import { comparedMeters } from './comparedMeters'
import { readingsAgree } from './meterAgreement'

/** Two meters whose clocks seem to differ by a constant. Noticed, never corrected. */
export interface ClockOffset {
  /** Indexes into the logbook's meters. */
  readonly first: number
  readonly second: number
  /** By how many minutes the second is ahead of the first. */
  readonly minutes: number
  /** Nearest tests that agree in value, and how many of them lie just so far apart. */
  readonly pairs: number
  readonly justSo: number
}

/** Design choices: farther apart two tests are no pair; fewer pairs, smaller shares and shorter offsets tell nothing. */
const FURTHEST_MINUTES = 60
const FEWEST_PAIRS = 8
const LEAST_SHARE = 0.7
const LEAST_MINUTES = 4
const WITHIN_MINUTES = 1
/** Neighbours looked at on either side of a test. */
const MOST_LOOKED_AT = 12

/**
 * Meters that were used together and whose tests lie nearly always the same minutes apart: their clocks may differ, and
 * contradictions between them may be none. `order` is `chronologicalOrder(readings)`.
 */
export function clockOffsets(readings: Readings, order: Uint32Array): readonly ClockOffset[] {
  if (readings.meters.length < 2) return []
  const isCompared = comparedMeters(readings)
  const tests = [...order].filter(
    (i) =>
      isCompared[readings.meter[i]] === 1 && hasClockTime(readings, i) && !hasFlag(readings, i, FLAG.sensor),
  )
  const lags = new Map<string, number[]>()
  tests.forEach((index, place) => {
    for (const other of nearestOfOtherMeters(readings, tests, place)) {
      const key = `${readings.meter[index]} ${readings.meter[other]}`
      const minutes = Math.round(minutesBetween(readings, index, other))
      const list = lags.get(key)
      if (list === undefined) lags.set(key, [minutes])
      else list.push(minutes)
    }
  })
  return [...lags].flatMap(([key, minutes]) => {
    const [first, second] = key.split(' ').map(Number)
    const counts = new Map<number, number>()
    for (const lag of minutes) counts.set(lag, (counts.get(lag) ?? 0) + 1)
    const near = (lag: number) =>
      (counts.get(lag - WITHIN_MINUTES) ?? 0) +
      (counts.get(lag) ?? 0) +
      (counts.get(lag + WITHIN_MINUTES) ?? 0)
    const most = [...counts.keys()]
      .map((lag) => ({ lag, n: near(lag) }))
      .reduce((best, other) => (other.n > best.n ? other : best))
    const clear = minutes.length >= FEWEST_PAIRS && most.n >= LEAST_SHARE * minutes.length
    if (!clear || Math.abs(most.lag) < LEAST_MINUTES) return []
    return [{ first, second, minutes: most.lag, pairs: minutes.length, justSo: most.n }]
  })
}

/** Of each later meter of the logbook the nearest test that agrees in value. */
function nearestOfOtherMeters(
  readings: Readings,
  tests: readonly number[],
  place: number,
): readonly number[] {
  const index = tests[place]
  const nearest = new Map<number, number>()
  const distance = (other: number) => Math.abs(minutesBetween(readings, index, other))
  for (let step = -MOST_LOOKED_AT; step <= MOST_LOOKED_AT; step++) {
    const other = tests.at(place + step)
    if (step === 0 || place + step < 0 || other === undefined) continue
    const meter = readings.meter[other]
    if (isTyped(readings, index) || isTyped(readings, other)) continue
    if (meter <= readings.meter[index] || distance(other) > FURTHEST_MINUTES) continue
    if (!readingsAgree(readings.mgDl[index], readings.mgDl[other], 0)) continue
    const best = nearest.get(meter)
    if (best === undefined || distance(other) < distance(best)) nearest.set(meter, other)
  }
  return [...nearest.values()]
}
