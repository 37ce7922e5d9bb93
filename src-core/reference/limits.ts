import type { GlucoseUnit } from '../units/glucose'

/** One published limit as it stands in both units. The pair is a consensus: never compute one from the other. */
export interface LimitPair {
  readonly mgDl: number
  readonly mmol: number
}

/**
 * Limits of glucose in their consensus pairs. Source: Battelino et al., Diabetes Care 2019;42:1593-1603;
 * American Diabetes Association, Standards of Care 2024, sections 6 (levels of hypoglycaemia, goals before
 * and after meals) and 15 (pregnancy).
 */
export const LIMITS = {
  veryLow: { mgDl: 54, mmol: 3.0 },
  pregnancyLow: { mgDl: 63, mmol: 3.5 },
  low: { mgDl: 70, mmol: 3.9 },
  beforeMealLow: { mgDl: 80, mmol: 4.4 },
  beforeMealHigh: { mgDl: 130, mmol: 7.2 },
  pregnancyHigh: { mgDl: 140, mmol: 7.8 },
  high: { mgDl: 180, mmol: 10.0 },
  veryHigh: { mgDl: 250, mmol: 13.9 },
} as const satisfies Record<string, LimitPair>

/** The limit in `unit`. */
export function limitIn(pair: LimitPair, unit: GlucoseUnit): number {
  return unit === 'mg/dL' ? pair.mgDl : pair.mmol
}
