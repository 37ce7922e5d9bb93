import { BALANCED_MIN_READINGS } from '../reference/dayParts'
import { total } from '../statistics/dayTotals'
import { FEWEST_BLOCKS } from './comparison'
import type { DayTable } from './dayTable'

/** A block of the day and its weight; the weights of a mix add up to 1. */
export interface BlockWeight {
  readonly block: number
  readonly weight: number
}

/** Blocks of the day with five readings or more in both periods. */
export function blocksOfBoth(first: DayTable, second: DayTable): readonly number[] {
  return first.blockN
    .map((_, block) => block)
    .filter(
      (block) =>
        total(first.blockN[block]) >= BALANCED_MIN_READINGS &&
        total(second.blockN[block]) >= BALANCED_MIN_READINGS,
    )
}

/**
 * The mix of times of day to which both means are standardised: each block that both periods tested counts by
 * its readings in both together. Null below four such blocks. Direct standardisation: Kitagawa, JASA
 * 1955;50:1168-1194.
 */
export function commonWeights(first: DayTable, second: DayTable): readonly BlockWeight[] | null {
  const blocks = blocksOfBoth(first, second)
  if (blocks.length < FEWEST_BLOCKS) return null
  const counts = blocks.map((block) => total(first.blockN[block]) + total(second.blockN[block]))
  const all = counts.reduce((sum, count) => sum + count, 0)
  return blocks.map((block, i) => ({ block, weight: counts[i] / all }))
}

/**
 * The weighted mean of the block means, mg/dL, each day counted `times` over; NaN where a weighted block is
 * empty. Left out, every day counts once.
 */
export function standardisedMean(
  table: DayTable,
  weights: readonly BlockWeight[],
  times?: Uint32Array,
): number {
  let mean = 0
  for (const { block, weight } of weights) {
    let n = 0
    let sum = 0
    for (let day = 0; day < table.days; day++) {
      const counted = times ? times[day] : 1
      n += counted * table.blockN[block][day]
      sum += counted * table.blockSums[block][day]
    }
    mean += (weight * sum) / n
  }
  return mean
}
