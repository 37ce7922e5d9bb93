import { BLOCK_HOURS, BLOCKS_PER_DAY } from '../reference/dayParts'
import { fisherUpperTail } from '../statistics/exactTests'
import { dayOf, secondOfDay } from '../units/wallClock'
import { countOf } from './finding'
import type { Look, Question } from './look'
import { occasionsOf } from './occasions'

/** Fewer lows make no pattern (design choice). */
export const FEWEST_LOWS = 3

/** Whether lows come more often in some blocks of the day than testing there explains (Fisher's exact test). */
export function lowsGather(look: Look): Question | null {
  const occasions = occasionsOf(look)
  const lows = occasions.filter(({ low }) => low).length
  if (lows < FEWEST_LOWS) return null
  // A run of lows longer than a block is no matter of the block in which it began.
  if (occasions.some(({ lowMinutes }) => lowMinutes > BLOCK_HOURS * 60)) return null
  const inBlocks = Array.from({ length: BLOCKS_PER_DAY }, (_, block) =>
    occasions.filter(
      ({ index }) => Math.floor(secondOfDay(look.readings.at[index]) / (BLOCK_HOURS * 3600)) === block,
    ),
  )
  const counts = inBlocks.map((of) => ({ low: of.filter(({ low }) => low).length, n: of.length }))
  const tested = [...counts.keys()].filter((block) => counts[block].n > 0)
  return {
    ps: tested.map((block) => {
      const { low, n } = counts[block]
      return fisherUpperTail(low, n - low, lows - low, occasions.length - n - (lows - low))
    }),
    answer(clear) {
      const blocks = tested.filter((block, i) => clear[i] && counts[block].low >= FEWEST_LOWS)
      if (blocks.length === 0) return null
      const sum = (of: readonly number[], key: 'low' | 'n') =>
        of.reduce((total, block) => total + counts[block][key], 0)
      const parts = runsOf(blocks).map((run) => ({
        fromHour: run[0] * BLOCK_HOURS,
        toHour: (run[run.length - 1] + 1) * BLOCK_HOURS,
        ...countOf(sum(run, 'low'), sum(run, 'n')),
      }))
      const elsewhere = countOf(lows - sum(blocks, 'low'), occasions.length - sum(blocks, 'n'))
      const daysOf = (of: readonly { index: number }[]) =>
        new Set(of.map(({ index }) => dayOf(look.readings.at[index]))).size
      const seldomTested = 2 * daysOf(blocks.flatMap((block) => inBlocks[block])) < daysOf(occasions)
      return { code: 'lows-gather', evidence: { parts, elsewhere, seldomTested } }
    },
  }
}

/** Neighbouring blocks together. */
function runsOf(blocks: readonly number[]): readonly number[][] {
  const runs: number[][] = []
  for (const block of blocks) {
    const run = runs.at(-1)
    if (run?.at(-1) === block - 1) run.push(block)
    else runs.push([block])
  }
  return runs
}
