import { SHARES } from '../statistics/dayTotals'
import { quantileR7 } from '../statistics/quantile'
import type { RandomSource } from '../statistics/randomSource'
import type { DayTable } from './dayTable'
import type { Interval, MeasureName } from './comparison'
import { type BlockWeight, standardisedMean } from './sameTimesOfDay'

export const RESAMPLES = 2_000

/** Intervals of the differences, first - second. */
export interface ResampledIntervals {
  readonly measures: Readonly<Record<MeasureName, Interval>>
  /** Null without weights, or where every resample empties a block. */
  readonly sameTimesOfDay: Interval | null
}

/**
 * 95 % intervals of the differences between two periods, by percentiles of 2,000 resamples: of each period, by
 * itself, as many days with readings are drawn with replacement as it has, and all readings of a drawn day are
 * kept. Days, because readings of one day resemble each other: Davison and Hinkley, Bootstrap Methods and their
 * Application, Cambridge 1997, section 3.8; Field and Welsh, JRSS B 2007;69:369-390.
 */
export function resampleDays(
  first: DayTable,
  second: DayTable,
  weights: readonly BlockWeight[] | null,
  random: RandomSource,
): ResampledIntervals {
  const drawnFirst = new Uint32Array(first.days)
  const drawnSecond = new Uint32Array(second.days)
  const differences = MEASURES.map(() => new Float64Array(RESAMPLES))
  const standardised: number[] = []
  for (let resample = 0; resample < RESAMPLES; resample++) {
    draw(drawnFirst, random)
    draw(drawnSecond, random)
    const a = measuresOf(first, drawnFirst)
    const b = measuresOf(second, drawnSecond)
    differences.forEach((column, i) => (column[resample] = a[i] - b[i]))
    if (weights === null) continue
    const difference =
      standardisedMean(first, weights, drawnFirst) - standardisedMean(second, weights, drawnSecond)
    if (!Number.isNaN(difference)) standardised.push(difference)
  }
  const measures = Object.fromEntries(
    MEASURES.map((measure, i) => [measure, percentileLimits(differences[i])]),
  ) as Record<MeasureName, Interval>
  return {
    measures,
    sameTimesOfDay: standardised.length === 0 ? null : percentileLimits(Float64Array.from(standardised)),
  }
}

const MEASURES: readonly MeasureName[] = ['meanMgDl', 'medianMgDl', 'sdMgDl', 'cvPercent', ...SHARES]

/** How often each day was drawn, of as many draws as there are days. */
function draw(times: Uint32Array, random: RandomSource): void {
  times.fill(0)
  for (let i = 0; i < times.length; i++) times[random.nextBelow(times.length)]++
}

/** The figures of a resample in the order of `MEASURES`. */
function measuresOf(table: DayTable, times: Uint32Array): readonly number[] {
  const n = weighted(table.n, times)
  const sum = weighted(table.sums, times)
  const mean = table.centre + sum / n
  const squares = Math.max(0, weighted(table.squares, times) - (sum * sum) / n)
  const sd = Math.sqrt(squares / (n - 1))
  return [
    mean,
    median(table, times, n),
    sd,
    (100 * sd) / mean,
    ...table.counts.map((counts) => (100 * weighted(counts, times)) / n),
  ]
}

function weighted(column: Float64Array, times: Uint32Array): number {
  let sum = 0
  for (let day = 0; day < times.length; day++) sum += times[day] * column[day]
  return sum
}

/** The median of the `n` values of a resample: the two in the middle, or the one. */
function median({ sorted, dayOfSorted }: DayTable, times: Uint32Array, n: number): number {
  const lower = Math.floor((n - 1) / 2)
  const upper = Math.floor(n / 2)
  let passed = 0
  let lowerValue = NaN
  for (let i = 0; i < sorted.length; i++) {
    passed += times[dayOfSorted[i]]
    if (Number.isNaN(lowerValue) && passed > lower) lowerValue = sorted[i]
    if (passed > upper) return (lowerValue + sorted[i]) / 2
  }
  return NaN
}

function percentileLimits(values: Float64Array): Interval {
  const sorted = values.sort()
  return [quantileR7(sorted, 0.025) ?? NaN, quantileR7(sorted, 0.975) ?? NaN]
}
