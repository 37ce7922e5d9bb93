import { BLOCK_HOURS } from '../reference/dayParts'
import { benjaminiHochberg } from '../statistics/benjaminiHochberg'
import { type DaySum, permutationTest } from '../statistics/permutationTest'
import type { RandomSource } from '../statistics/randomSource'
import { type BlockChange, FALSE_DISCOVERY_RATE } from './comparison'
import type { DayTable } from './dayTable'
import { blocksOfBoth } from './sameTimesOfDay'

/** The change of the mean of each block of the day that both periods tested, held against chance over all of them. */
export function blockChanges(
  first: DayTable,
  second: DayTable,
  random: RandomSource,
): readonly BlockChange[] {
  const changes = blocksOfBoth(first, second).map((block) => {
    const a = daySums(first, block)
    const b = daySums(second, block)
    const before = meanOf(a)
    const after = meanOf(b)
    return {
      fromHour: block * BLOCK_HOURS,
      toHour: (block + 1) * BLOCK_HOURS,
      firstN: before.n,
      secondN: after.n,
      first: before.mean,
      second: after.mean,
      difference: before.mean - after.mean,
      p: permutationTest(a, b, random) ?? 1,
    }
  })
  const adjusted = benjaminiHochberg(changes.map(({ p }) => p))
  return changes.map((change, i) => ({
    ...change,
    adjustedP: adjusted[i],
    verdict: verdict(change, adjusted[i]),
  }))
}

function verdict({ difference }: { difference: number }, adjustedP: number): BlockChange['verdict'] {
  if (adjustedP > FALSE_DISCOVERY_RATE || difference === 0) return 'unclear'
  return difference > 0 ? 'higher' : 'lower'
}

/** Days with readings in the block. */
function daySums(table: DayTable, block: number): readonly DaySum[] {
  const sums: DaySum[] = []
  table.blockN[block].forEach((n, day) => {
    if (n > 0) sums.push({ n, sum: table.blockSums[block][day] })
  })
  return sums
}

function meanOf(days: readonly DaySum[]): { n: number; mean: number } {
  const n = days.reduce((so, day) => so + day.n, 0)
  return { n, mean: days.reduce((so, day) => so + day.sum, 0) / n }
}
