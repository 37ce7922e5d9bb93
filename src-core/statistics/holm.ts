/**
 * p values adjusted so that the chance of any false one among them stays what one test's would be, in the order given. With
 * `weights`, all above 0, a test has that part of the whole chance of error; left out, all have the same. Holm, Scand J Stat
 * 1979;6:65-70 (weights: section 4).
 */
export function holm(ps: readonly number[], weights?: readonly number[]): readonly number[] {
  const weightOf = (i: number) => weights?.[i] ?? 1
  const order = ps.map((_, i) => i).sort((a, b) => ps[a] / weightOf(a) - ps[b] / weightOf(b))
  const adjusted = new Array<number>(ps.length)
  /** Weight of this test and of all that come after it, from the last on. */
  const left = new Array<number>(ps.length)
  order.reduceRight((sum, index, rank) => (left[rank] = sum + weightOf(index)), 0)
  let largest = 0
  order.forEach((index, rank) => {
    largest = Math.max(largest, Math.min(1, (ps[index] * left[rank]) / weightOf(index)))
    adjusted[index] = largest
  })
  return adjusted
}
