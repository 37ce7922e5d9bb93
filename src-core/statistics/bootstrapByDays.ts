import { type DayTotals, total } from './dayTotals'
import { estimatedA1cPercent } from './estimatedA1c'
import { randomSource } from './randomSource'
import { quantileR7 } from './quantile'
import { type Interval, wilsonPercent } from './wilson'

/** Stream of the seed's numbers that these draws use; the comparison of periods uses others. */
const STREAM = 54

/** Below this many days with readings there is no interval (design choice: too few days to draw from). */
export const FEWEST_DAYS = 8
export const RESAMPLES = 2_000

/** 95 % intervals of a period's figures. mg/dL; percentages 0 to 100. */
export interface Ci95 {
  readonly mean: Interval
  readonly sd: Interval
  readonly cvPercent: Interval
  readonly estimatedA1cPercent: Interval
  readonly percentBelow70: Interval
  readonly percentInTarget: Interval
  readonly percentAbove180: Interval
}

const FIGURES = 6

/**
 * Intervals from `RESAMPLES` resamples of as many whole days, drawn with replacement: readings of one day are
 * alike, so days are drawn, not readings (cluster bootstrap: Field and Welsh, J R Stat Soc B 2007;69:369-390).
 * Percentile limits of type 7; a share of 0 or 100 % has Wilson's. Null below `FEWEST_DAYS` days. The same
 * days and the same seed give the same limits.
 */
export function bootstrapByDays(totals: DayTotals, seed: number): Ci95 | null {
  if (totals.days < FEWEST_DAYS) return null
  const drawn = resampledFigures(totals, seed)
  const [mean, sd, cvPercent, ...shares] = drawn.map(percentileLimits)
  const n = total(totals.n)
  const [, below70, inTarget, above180] = totals.counts
  const share = (counts: Float64Array, limits: Interval): Interval => {
    const count = total(counts)
    return count === 0 || count === n ? (wilsonPercent(count, n) ?? limits) : limits
  }
  return {
    mean,
    sd,
    cvPercent,
    estimatedA1cPercent: [estimatedA1cPercent(mean[0]), estimatedA1cPercent(mean[1])],
    percentBelow70: share(below70, shares[0]),
    percentInTarget: share(inTarget, shares[1]),
    percentAbove180: share(above180, shares[2]),
  }
}

/** Mean, SD, CV and the three shares of each resample, one column for each figure. */
function resampledFigures(totals: DayTotals, seed: number): Float64Array[] {
  const { days, centre } = totals
  const [counts, sums, squaresOf, , below70Of, inTargetOf, above180Of] = inOrderOfTotals(totals)
  // One day's totals side by side, where one look into memory finds them all.
  const ofDay = [counts, sums, squaresOf, below70Of, inTargetOf, above180Of]
  const table = Float64Array.from(
    { length: FIGURES * days },
    (_, i) => ofDay[i % FIGURES][Math.floor(i / FIGURES)],
  )
  const next = randomSource(seed, STREAM).next
  const columns = Array.from({ length: FIGURES }, () => new Float64Array(RESAMPLES))
  for (let resample = 0; resample < RESAMPLES; resample++) {
    let n = 0
    let sum = 0
    let squares = 0
    let below70 = 0
    let inTarget = 0
    let above180 = 0
    for (let draw = 0; draw < days; draw++) {
      const at = FIGURES * drawnDay(next(), days)
      n += table[at]
      sum += table[at + 1]
      squares += table[at + 2]
      below70 += table[at + 3]
      inTarget += table[at + 4]
      above180 += table[at + 5]
    }
    const mean = centre + sum / n
    const sd = Math.sqrt(Math.max(0, squares - (sum * sum) / n) / (n - 1))
    columns[0][resample] = mean
    columns[1][resample] = sd
    columns[2][resample] = (100 * sd) / mean
    columns[3][resample] = (100 * below70) / n
    columns[4][resample] = (100 * inTarget) / n
    columns[5][resample] = (100 * above180) / n
  }
  return columns
}

/** The columns of the totals, their days in the order of the totals: which day was which must not matter to a draw. */
function inOrderOfTotals({ days, n, sums, squares, counts }: DayTotals): Float64Array[] {
  const columns = [n, sums, squares, ...counts]
  const order = Array.from({ length: days }, (_, day) => day).sort((a, b) => {
    const apart = columns.find((column) => column[a] !== column[b])
    return apart === undefined ? 0 : apart[a] - apart[b]
  })
  return columns.map((column) => Float64Array.from(order, (day) => column[day]))
}

/** The day that a number of 32 bits draws; no day is likelier than another by more than `days` in 2^32. */
export function drawnDay(number: number, days: number): number {
  return Math.floor((number * days) / 2 ** 32)
}

function percentileLimits(values: Float64Array): Interval {
  const sorted = values.sort()
  return [quantileR7(sorted, 0.025) ?? NaN, quantileR7(sorted, 0.975) ?? NaN]
}
