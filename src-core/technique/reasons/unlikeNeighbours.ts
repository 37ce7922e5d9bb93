import type { ReasonDefinition } from './definition'

/** A reading outside what the other readings let expect. */
export interface UnlikeNeighbours {
  readonly code: 'unlike-neighbours'
  readonly evidence: { readonly expectedLowMgDl: number; readonly expectedHighMgDl: number }
}

/** Outside the range that the model expects by the other readings. */
export const UNLIKE_NEIGHBOURS: ReasonDefinition<UnlikeNeighbours> = {
  code: 'unlike-neighbours',
  standsAlone: false,
  // No neighbour speaks against a low, whatever its doubt.
  mayFlagLow: false,
  finder:
    ({ readings, expected }) =>
    (index) => {
      if (expected === null) return null
      const low = expected.low[index]
      const high = expected.high[index]
      const value = readings.mgDl[index]
      return value < low || value > high
        ? { code: 'unlike-neighbours', evidence: { expectedLowMgDl: low, expectedHighMgDl: high } }
        : null
    },
}
