import type { Interval } from './wilson'

/** Chance allowed for outside the interval, both sides together. */
const OUTSIDE = 0.05

/**
 * Distribution-free 95 % interval of the median of values in ascending order: two of the values, as near to the
 * middle as a coverage of at least 95 % allows. Null below 6 values, where even the extremes cover less. Exact
 * binomial; Conover, Practical Nonparametric Statistics, 3rd edition 1999, section 3.2. It takes the values to be
 * independent: readings of a sensor, minutes apart, are not.
 */
export function medianInterval(sorted: Float64Array): Interval | null {
  const rank = medianRank(sorted.length)
  return rank === null ? null : [sorted[rank - 1], sorted[sorted.length - rank]]
}

/** Rank, from 1, of the lower limit; the upper one has the same rank counted from the largest. Null below 6. */
export function medianRank(n: number): number | null {
  const chances = halfBinomial(n)
  // chances[j] belongs to `first + j` of n values below the median; what lies before is too small to matter.
  const first = Math.floor(n / 2) - (chances.length - 1)
  let rank = 0
  let tail = 0
  for (let j = 0; j < chances.length; j++) {
    tail += chances[j]
    if (2 * tail > OUTSIDE) break
    rank = first + j + 1
  }
  return rank > 0 ? rank : null
}

/** Chances of up to n / 2 heads in n throws of a coin, in ascending order, without those below 1e-18 of the middle's. */
function halfBinomial(n: number): number[] {
  const NEGLIGIBLE = 1e-18
  const middle = Math.floor(n / 2)
  const weights = [1]
  let total = n % 2 === 0 ? 1 : 2
  for (let k = middle; k > 0 && weights[0] > NEGLIGIBLE; k--) {
    weights.unshift((weights[0] * k) / (n - k + 1))
    total += 2 * weights[0]
  }
  return weights.map((weight) => weight / total)
}
