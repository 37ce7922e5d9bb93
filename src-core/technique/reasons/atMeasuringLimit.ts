import { FLAG, hasFlag, loggedUnit } from '../../log/readings'
import { MEASURING_RANGE_MG_DL } from '../../reference/meter'
import type { GlucoseUnit } from '../../units/glucose'
import type { ReasonDefinition } from './definition'

/** HI, LO, or a value at the very limit of what meters show. */
export interface AtMeasuringLimit {
  readonly code: 'at-measuring-limit'
  readonly evidence: { readonly side: 'above' | 'below'; readonly limitMgDl: number }
}

/** Lowest and highest value that most meters show (common practice); in mmol/L 1.1 and 33.3. */
const LIMITS: Readonly<Record<GlucoseUnit, { readonly lowest: number; readonly highest: number }>> = {
  'mg/dL': MEASURING_RANGE_MG_DL,
  'mmol/L': { lowest: 1.1, highest: 33.3 },
}

/** A marker, or the very value at which meters stop. */
export const AT_MEASURING_LIMIT: ReasonDefinition<AtMeasuringLimit> = {
  code: 'at-measuring-limit',
  standsAlone: false,
  // No limit speaks against a low, whatever its doubt.
  mayFlagLow: false,
  finder:
    ({ readings }) =>
    (index) => {
      const { lowest, highest } = LIMITS[loggedUnit(readings, index)]
      const above = hasFlag(readings, index, FLAG.aboveRange) || readings.logged[index] === highest
      const below = hasFlag(readings, index, FLAG.belowRange) || readings.logged[index] === lowest
      if (!above && !below) return null
      return {
        code: 'at-measuring-limit',
        evidence: { side: above ? 'above' : 'below', limitMgDl: readings.mgDl[index] },
      }
    },
}
