import { BALANCED_MIN_READINGS } from '../reference/dayParts'
import { type CellTotals, type CellWeight, weightedMean } from '../statistics/dayEstimates'
import { total } from '../statistics/dayTotals'
import { differenceInterval, differenceP } from '../statistics/estimates'
import { type Change, changeOf, FEWEST_BLOCKS } from './comparison'

/** Cells with five readings or more in both periods. */
export function cellsOfBoth(first: CellTotals, second: CellTotals): readonly number[] {
  return first.n
    .map((_, cell) => cell)
    .filter(
      (cell) =>
        total(first.n[cell]) >= BALANCED_MIN_READINGS && total(second.n[cell]) >= BALANCED_MIN_READINGS,
    )
}

/**
 * The mix to which both means are standardised: each cell that both periods tested counts by its readings in both
 * together. Null below four such cells. Direct standardisation: Kitagawa, JASA 1955;50:1168-1194.
 */
export function commonWeights(first: CellTotals, second: CellTotals): readonly CellWeight[] | null {
  const cells = cellsOfBoth(first, second)
  if (cells.length < FEWEST_BLOCKS) return null
  const counts = cells.map((cell) => total(first.n[cell]) + total(second.n[cell]))
  const all = counts.reduce((sum, count) => sum + count, 0)
  return cells.map((cell, i) => ({ cell, weight: counts[i] / all }))
}

/** Both means at the mix, and their difference; without its interval where there are not `enoughDays`. */
export function standardisedChange(
  first: CellTotals,
  second: CellTotals,
  weights: readonly CellWeight[],
  enoughDays: boolean,
): Change {
  const a = weightedMean(first, weights)
  const b = weightedMean(second, weights)
  if (!enoughDays) return changeOf(a.value, b.value, null, null)
  return changeOf(a.value, b.value, differenceInterval(a, b), differenceP(a, b))
}
