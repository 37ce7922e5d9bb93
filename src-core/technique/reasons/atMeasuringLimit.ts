import { FLAG, hasFlag, loggedUnit, type Readings } from '../../log/readings'
import { MEASURING_RANGE_MG_DL } from '../../reference/meter'
import type { GlucoseUnit } from '../../units/glucose'
import type { AtMeasuringLimit } from '../technique'

/** Lowest and highest value that most meters show (common practice); in mmol/L 1.1 and 33.3. */
const LIMITS: Readonly<Record<GlucoseUnit, { readonly lowest: number; readonly highest: number }>> = {
  'mg/dL': MEASURING_RANGE_MG_DL,
  'mmol/L': { lowest: 1.1, highest: 33.3 },
}

/** A marker, or the very value at which meters stop. */
export function atMeasuringLimit(readings: Readings, index: number): AtMeasuringLimit | null {
  const { lowest, highest } = LIMITS[loggedUnit(readings, index)]
  const above = hasFlag(readings, index, FLAG.aboveRange) || readings.logged[index] === highest
  const below = hasFlag(readings, index, FLAG.belowRange) || readings.logged[index] === lowest
  if (!above && !below) return null
  return {
    code: 'at-measuring-limit',
    evidence: { side: above ? 'above' : 'below', limitMgDl: readings.mgDl[index] },
  }
}
