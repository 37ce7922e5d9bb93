/** How many of those chosen follow another within reach, where every choice of so many is as likely as any other. */
export interface CloseRuns {
  /** Chance of as many as were seen, or more. */
  readonly p: number
  /** How many chance gives in the mean. */
  readonly expected: number
}

/** More steps than these take too long. */
const MOST_STEPS = 60_000_000

/**
 * Of `at.length` places in ascending order `k` are chosen by chance, every choice as likely as any other; counted are those
 * chosen that come at most `reach` after the one chosen before. Exact, by counting all choices place by place; nothing is
 * drawn. `seen`: the count to reach. With `odds` each of those counted makes a choice so many times as likely (as in
 * Fisher's noncentral law). Null where there are too many to count.
 */
export function closeRuns(
  at: readonly number[],
  k: number,
  reach: number,
  seen: number,
  odds = 1,
): CloseRuns | null {
  const n = at.length
  if ((n * k * k) / 2 > MOST_STEPS) return null
  /** First place that lies within reach of each. */
  const within = new Uint32Array(n)
  for (let i = 1, first = 0; i < n; i++) {
    while (at[i] - at[first] > reach) first++
    within[i] = first
  }
  // ways[i * k + s]: choices of j places of which the last lies before i and s are close, as a part of all choices of j.
  let ways = new Float64Array((n + 1) * k)
  for (let i = 1; i <= n; i++) ways[i * k] = i / n
  for (let j = 2; j <= k; j++) {
    const next = new Float64Array((n + 1) * k)
    const part = j / (n - j + 1)
    for (let i = 0; i < n; i++) {
      const [here, after, far] = [i * k, (i + 1) * k, within[i] * k]
      for (let s = 0; s < j; s++) {
        const near = s === 0 ? 0 : ways[here + s - 1] - ways[far + s - 1]
        next[after + s] = next[here + s] + part * (near + ways[far + s])
      }
    }
    ways = next
  }
  // As logarithms: many close ones at high odds are more than a number holds.
  const weighted = ways.subarray(n * k).map((chance, s) => Math.log(Math.max(0, chance)) + s * Math.log(odds))
  const largest = weighted.reduce((most, log) => Math.max(most, log), -Infinity)
  const chances = weighted.map((log) => Math.exp(log - largest))
  const total = chances.reduce((sum, chance) => sum + chance, 0)
  const expected = chances.reduce((sum, chance, s) => sum + s * chance, 0) / total
  return { p: chances.subarray(seen).reduce((sum, chance) => sum + chance, 0) / total, expected }
}
