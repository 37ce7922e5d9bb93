import jstat from 'jstat'
import { drawnP, ENOUGH_REACHED } from './drawnWays'
import type { RandomSource } from './randomSource'

/** Up to this many differences all signs are tried; up to the second number signs are drawn. */
const MOST_TRIED = 13
const MOST_DRAWN = 250
const WAYS_DRAWN = 4_999
/** Sums this close, as a share of all the differences together, are the same but for rounding. */
const SAME = 1e-12

/**
 * One-sided p of the sum of paired differences: how often it would be as large if each difference were as likely
 * to have the other sign. Fisher, The Design of Experiments, 1935, section 21. All signs where they are few; else
 * up to 4,999 drawn (`drawnP`); of more than 250 differences the normal limit. 1 without a difference.
 */
export function signFlipTest(differences: readonly number[], random: RandomSource): number {
  const sizes = differences.filter((difference) => difference !== 0)
  if (sizes.length === 0) return 1
  const seen = sizes.reduce((sum, size) => sum + size, 0)
  if (sizes.length > MOST_DRAWN) {
    const sd = Math.sqrt(sizes.reduce((sum, size) => sum + size * size, 0))
    return 1 - jstat.jStat.normal.cdf(seen / sd, 0, 1)
  }
  const least = seen - SAME * sizes.reduce((sum, size) => sum + Math.abs(size), 0)
  if (sizes.length <= MOST_TRIED) {
    const ways = 2 ** sizes.length
    let reached = 0
    for (let signs = 0; signs < ways; signs++) {
      if (sizes.reduce((sum, size, i) => ((signs >> i) & 1 ? sum + size : sum - size), 0) >= least) reached++
    }
    return reached / ways
  }
  const sums = sumsOfEights(sizes)
  const eights = Math.ceil(sizes.length / 8)
  const reaches = () => {
    let bits = 0
    let sum = 0
    for (let eight = 0; eight < eights; eight++) {
      if (eight % 4 === 0) bits = random.next()
      sum += sums[256 * eight + (bits & 255)]
      bits >>>= 8
    }
    return sum >= least
  }
  return drawnP(WAYS_DRAWN, reaches, ENOUGH_REACHED)
}

/** The sums of every eight differences for all their signs: a bit of the place that is 1 stands for a sign kept. */
function sumsOfEights(sizes: readonly number[]): Float64Array {
  const sums = new Float64Array(256 * Math.ceil(sizes.length / 8))
  for (let at = 0; at < sums.length; at++) {
    const first = 8 * (at >> 8)
    for (let bit = 0; bit < 8 && first + bit < sizes.length; bit++) {
      sums[at] += (at >> bit) & 1 ? sizes[first + bit] : -sizes[first + bit]
    }
  }
  return sums
}
