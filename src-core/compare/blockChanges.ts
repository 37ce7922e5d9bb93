import { BLOCK_HOURS } from '../reference/dayParts'
import { benjaminiHochberg } from '../statistics/benjaminiHochberg'
import { type CellTotals, daysOfCell, weightedMean } from '../statistics/dayEstimates'
import { total } from '../statistics/dayTotals'
import { FEWEST_DAYS } from '../statistics/errorByDays'
import { differenceP } from '../statistics/estimates'
import { type BlockChange, FALSE_DISCOVERY_RATE } from './comparison'
import { cellsOfBoth } from './standardised'
import { blockMoved, type TestingHabit } from './testingHabit'

/**
 * The change of the mean of each block of the day that both periods tested, held against chance over all of those that
 * were tested alike, by the days with readings in the block.
 */
export function blockChanges(
  first: CellTotals,
  second: CellTotals,
  [firstHabit, secondHabit]: readonly [TestingHabit, TestingHabit],
): readonly BlockChange[] {
  const changes = cellsOfBoth(first, second).map((block) => {
    const [a, b] = [daysOfCell(first, block), daysOfCell(second, block)]
    const before = weightedMean(a, WHOLE)
    const after = weightedMean(b, WHOLE)
    const enoughDays = Math.min(a.dayNumbers.length, b.dayNumbers.length) >= FEWEST_DAYS
    return {
      fromHour: block * BLOCK_HOURS,
      toHour: (block + 1) * BLOCK_HOURS,
      firstN: total(first.n[block]),
      secondN: total(second.n[block]),
      firstMeanMgDl: before.value,
      secondMeanMgDl: after.value,
      differenceMgDl: before.value - after.value,
      p: enoughDays ? differenceP(before, after) : null,
      moved: blockMoved(firstHabit.blocks[block], secondHabit.blocks[block]),
    }
  })
  const judged = changes.filter(({ p, moved }) => p !== null && !moved)
  const adjusted = benjaminiHochberg(judged.map(({ p }) => p ?? 1))
  return changes.map((change): BlockChange => {
    const { moved, ...told } = change
    const adjustedP = judged.includes(change) ? adjusted[judged.indexOf(change)] : null
    return {
      ...told,
      adjustedP,
      verdict: verdict(change.differenceMgDl, adjustedP),
      verdictReason: moved ? 'mix-moved' : change.p === null ? 'few-days' : null,
    }
  })
}

const WHOLE = [{ cell: 0, weight: 1 }]

function verdict(difference: number, adjustedP: number | null): BlockChange['verdict'] {
  if (adjustedP === null || adjustedP > FALSE_DISCOVERY_RATE || difference === 0) return 'unclear'
  return difference > 0 ? 'higher' : 'lower'
}
