/**
 * p values adjusted for looking at several, in the order given; none gives none. A result with an adjusted p
 * up to q is kept where at most a share q of what is kept may be chance. Benjamini and Hochberg, JRSS B
 * 1995;57:289-300.
 */
export function benjaminiHochberg(ps: readonly number[]): readonly number[] {
  const order = ps.map((_, i) => i).sort((a, b) => ps[b] - ps[a])
  const adjusted = new Array<number>(ps.length)
  let smallest = 1
  order.forEach((index, position) => {
    const rank = ps.length - position
    smallest = Math.min(smallest, (ps[index] * ps.length) / rank)
    adjusted[index] = smallest
  })
  return adjusted
}
