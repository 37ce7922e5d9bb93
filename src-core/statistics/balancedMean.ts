import { FLAG, type Readings } from '../log/readings'
import { BALANCED_MIN_READINGS, BLOCK_HOURS, BLOCKS_PER_DAY } from '../reference/dayParts'
import { secondOfDay } from '../units/wallClock'

/**
 * Unweighted mean, mg/dL, of the means of the three-hour blocks that hold 5 or more readings, and how many
 * such blocks there are; it answers what the mean would be had every part of the day been tested alike. Over
 * the readings `[start, end)`, those with a bit of `leaveOut` and those without a clock time left out.
 */
export function balancedMean(
  readings: Readings,
  start: number,
  end: number,
  leaveOut: number,
): { mean: number | null; blocks: number } {
  const sums = new Float64Array(BLOCKS_PER_DAY)
  const counts = new Uint32Array(BLOCKS_PER_DAY)
  const skipped = leaveOut | FLAG.dayOnly
  for (let i = start; i < end; i++) {
    if (readings.flags[i] & skipped) continue
    const block = Math.floor(secondOfDay(readings.at[i]) / (BLOCK_HOURS * 3600))
    sums[block] += readings.mgDl[i]
    counts[block]++
  }
  let total = 0
  let blocks = 0
  for (let block = 0; block < BLOCKS_PER_DAY; block++) {
    if (counts[block] < BALANCED_MIN_READINGS) continue
    total += sums[block] / counts[block]
    blocks++
  }
  return { mean: blocks === 0 ? null : total / blocks, blocks }
}
