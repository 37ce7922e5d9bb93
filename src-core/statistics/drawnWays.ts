/** Once so many ways have reached what was seen, the answer is known well enough to be no. */
export const ENOUGH_REACHED = 400

/**
 * p by ways drawn by chance: `reaches` draws one and tells whether it reaches what was seen. p = (b + 1) / (m + 1) of `most`
 * ways (Phipson and Smyth, Stat Appl Genet Mol Biol 2010;9:39); with `enough` the drawing ends once so many have reached
 * it, p = b / ways drawn (Besag and Clifford, Biometrika 1991;78:301).
 */
export function drawnP(most: number, reaches: () => boolean, enough = Infinity): number {
  let reached = 0
  for (let way = 1; way <= most; way++) {
    if (reaches() && ++reached === enough) return reached / way
  }
  return (reached + 1) / (most + 1)
}
