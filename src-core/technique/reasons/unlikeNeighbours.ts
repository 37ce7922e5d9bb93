import type { Readings } from '../../log/readings'
import type { UnlikeNeighbours } from '../technique'
import type { ExpectedRange } from './evidence'

/** A reading outside the range that the model expects by the other readings; null within it, or where it is not known. */
export function unlikeNeighbours(
  readings: Readings,
  expected: ExpectedRange | null,
  index: number,
): UnlikeNeighbours | null {
  if (expected === null) return null
  const low = expected.low[index]
  const high = expected.high[index]
  const value = readings.mgDl[index]
  return value < low || value > high
    ? { code: 'unlike-neighbours', evidence: { expectedLowMgDl: low, expectedHighMgDl: high } }
    : null
}
