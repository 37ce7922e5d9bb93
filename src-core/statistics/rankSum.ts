import { Z95 } from '../reference/meter'
import { ENOUGH_REACHED } from './drawnWays'
import { permutationTest } from './permutationTest'
import { orderedAt, quantileR7 } from './quantile'
import type { RandomSource } from './randomSource'
import type { Interval } from './wilson'

export interface Shift {
  /** Median of all differences, first - second (Hodges and Lehmann, Ann Math Stat 1963;34:598-611). */
  readonly shift: number
  /** 95 % interval, from the large-sample quantile of the rank sum. */
  readonly ci95: Interval
  /** Two-sided p of the rank-sum test (Mann and Whitney, Ann Math Stat 1947;18:50-60), by parting anew. */
  readonly p: number
}

/** How far one group of independent values lies above another; null where either is empty. */
export function rankSumShift(
  first: readonly number[],
  second: readonly number[],
  random: RandomSource,
): Shift | null {
  const [m, n] = [first.length, second.length]
  const ranks = midRanks([...first, ...second]).map((rank) => ({ n: 1, sum: rank }))
  const p = permutationTest(ranks.slice(0, m), ranks.slice(m), random, ENOUGH_REACHED)
  if (p === null) return null
  const differences = new Float64Array(m * n)
  first.forEach((a, i) => second.forEach((b, j) => (differences[i * n + j] = a - b)))
  const reach = Z95 * Math.sqrt((m * n * (m + n + 1)) / 12)
  const rank = Math.max(1, Math.round((m * n) / 2 - reach))
  const last = m * n - 1
  orderedAt(differences, [rank - 1, last >> 1, (last + 1) >> 1, last - rank + 1])
  return {
    shift: quantileR7(differences, 0.5) ?? NaN,
    ci95: [differences[rank - 1], differences[differences.length - rank]],
    p,
  }
}

/** Ranks from 1; equal values share the mean of theirs. */
function midRanks(values: readonly number[]): readonly number[] {
  const sorted = [...values].sort((a, b) => a - b)
  const firstAt = new Map<number, number>()
  const lastAt = new Map<number, number>()
  sorted.forEach((value, i) => {
    if (!firstAt.has(value)) firstAt.set(value, i + 1)
    lastAt.set(value, i + 1)
  })
  return values.map((value) => ((firstAt.get(value) ?? NaN) + (lastAt.get(value) ?? NaN)) / 2)
}
