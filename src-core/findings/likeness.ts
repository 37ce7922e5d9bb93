import type { Readings } from '../log/readings'
import { LIMITS } from '../reference/limits'
import { mean } from '../statistics/moments'
import { dayOf } from '../units/wallClock'

/** Correlations of log glucose, 0 or more. */
export interface Likeness {
  readonly sameDay: number
  readonly nextDay: number
}

/** No correlation of single tests is believed to be higher (design choice). */
const MOST = 0.8

/**
 * How alike two tests of one day, and of neighbouring days, are: parts of the variance of log glucose (between days:
 * Fisher's intraclass correlation, Statistical Methods for Research Workers, 1925). A low counts as 70 mg/dL, so that the
 * lows themselves do not make the days alike.
 */
export function likenessOfDays(readings: Readings, indexes: readonly number[]): Likeness {
  const byDay = new Map<number, number[]>()
  for (const index of indexes) {
    const day = dayOf(readings.at[index])
    const value = Math.log(Math.max(LIMITS.low.mgDl, readings.mgDl[index]))
    const values = byDay.get(day)
    if (values) values.push(value)
    else byDay.set(day, [value])
  }
  const [k, n] = [byDay.size, indexes.length]
  if (k < 2 || n <= k) return { sameDay: 0, nextDay: 0 }
  const days = [...byDay.values()]
  const centre = mean(Float64Array.from(days.flat())) ?? NaN
  const means = new Map([...byDay].map(([day, values]) => [day, mean(Float64Array.from(values)) ?? NaN]))
  let within = 0
  let between = 0
  let squaresOfSizes = 0
  for (const [day, values] of byDay) {
    const own = means.get(day) ?? NaN
    for (const value of values) within += (value - own) ** 2
    between += values.length * (own - centre) ** 2
    squaresOfSizes += values.length ** 2
  }
  const withinVariance = within / (n - k)
  const size = (n - squaresOfSizes / n) / (k - 1)
  const betweenVariance = Math.max(0, (between / (k - 1) - withinVariance) / size)
  const variance = withinVariance + betweenVariance
  if (variance === 0) return { sameDay: 0, nextDay: 0 }
  let products = 0
  let pairs = 0
  for (const [day, own] of means) {
    const next = means.get(day + 1)
    if (next === undefined) continue
    products += (own - centre) * (next - centre)
    pairs++
  }
  const held = (correlation: number) => Math.min(MOST, Math.max(0, correlation))
  return {
    sameDay: held(betweenVariance / variance),
    nextDay: held(pairs === 0 ? 0 : products / pairs / variance),
  }
}
