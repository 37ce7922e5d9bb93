/**
 * p values adjusted so that the chance of any false one among them stays what one test's would be, in the order given.
 * Holm, Scand J Stat 1979;6:65-70.
 */
export function holm(ps: readonly number[]): readonly number[] {
  const order = ps.map((_, i) => i).sort((a, b) => ps[a] - ps[b])
  const adjusted = new Array<number>(ps.length)
  let largest = 0
  order.forEach((index, rank) => {
    largest = Math.max(largest, Math.min(1, ps[index] * (ps.length - rank)))
    adjusted[index] = largest
  })
  return adjusted
}
