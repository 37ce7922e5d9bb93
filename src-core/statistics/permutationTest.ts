import { drawnP } from './drawnWays'
import type { RandomSource } from './randomSource'

/** Readings of one day that stay together: how many, and their sum. */
export interface DaySum {
  readonly n: number
  readonly sum: number
}

/** Up to this many ways of parting the days all are tried, else this many are drawn. */
const MOST_WAYS = 20_000
const WAYS_DRAWN = 4_999
/** Differences this close, as a share of the sums, are the same but for rounding. */
const SAME = 1e-12

/**
 * Two-sided p of the difference between the means of two groups of days, null where a group is empty. Days, not
 * readings, are parted anew: readings of one day are no independent witnesses. All ways where they are few; else
 * 4,999 drawn by chance (`drawnP`, which `enough` is for).
 */
export function permutationTest(
  first: readonly DaySum[],
  second: readonly DaySum[],
  random: RandomSource,
  enough?: number,
): number | null {
  if (first.length === 0 || second.length === 0) return null
  // Deviations from the overall mean keep the digits of long and nearly constant series.
  const all = centred([...first, ...second])
  const total = all.reduce((so, day) => ({ n: so.n + day.n, sum: so.sum + day.sum }), { n: 0, sum: 0 })
  const size = all.reduce((so, day) => so + Math.abs(day.sum), 0)
  const difference = (n: number, sum: number) => Math.abs(sum / n - (total.sum - sum) / (total.n - n))
  const part = all.slice(0, first.length)
  const seen = difference(
    part.reduce((so, day) => so + day.n, 0),
    part.reduce((so, day) => so + day.sum, 0),
  )
  const reaches = (n: number, sum: number) => difference(n, sum) >= seen - SAME * size
  if (ways(all.length, first.length) <= MOST_WAYS) return exact(all, first.length, reaches)
  return drawnP(WAYS_DRAWN, partings(all, first.length, reaches, random), enough)
}

type Reaches = (n: number, sum: number) => boolean

function exact(all: readonly DaySum[], taken: number, reaches: Reaches): number {
  let tried = 0
  let reached = 0
  const take = (from: number, left: number, n: number, sum: number): void => {
    if (left === 0) {
      tried++
      if (reaches(n, sum)) reached++
      return
    }
    for (let i = from; i <= all.length - left; i++) take(i + 1, left - 1, n + all[i].n, sum + all[i].sum)
  }
  take(0, taken, 0, 0)
  return reached / tried
}

/** Parts the days anew at each call, and tells whether that reaches what was seen. */
function partings(
  all: readonly DaySum[],
  taken: number,
  reaches: Reaches,
  random: RandomSource,
): () => boolean {
  const order = Uint32Array.from(all, (_, i) => i)
  const counts = Float64Array.from(all, (day) => day.n)
  const sums = Float64Array.from(all, (day) => day.sum)
  return () => {
    let n = 0
    let sum = 0
    for (let i = 0; i < taken; i++) {
      const j = i + random.nextBelow(order.length - i)
      const index = order[j]
      order[j] = order[i]
      order[i] = index
      n += counts[index]
      sum += sums[index]
    }
    return reaches(n, sum)
  }
}

function centred(days: readonly DaySum[]): readonly DaySum[] {
  const n = days.reduce((so, day) => so + day.n, 0)
  const centre = days.reduce((so, day) => so + day.sum, 0) / n
  return days.map((day) => ({ n: day.n, sum: day.sum - day.n * centre }))
}

/** How many ways there are to choose `k` of `n`; stops counting above the most that are tried. */
function ways(n: number, k: number): number {
  let found = 1
  for (let i = 1; i <= Math.min(k, n - k) && found <= MOST_WAYS; i++) found = (found * (n - i + 1)) / i
  return found
}
