import type { LimitPair } from './limits'

/**
 * Highest reading that a meter within ISO 15197:2013 (15 mg/dL, 0.83 mmol/L below 100 mg/dL) may show with a
 * true value below 70 mg/dL (3.9 mmol/L), at the resolution of meters.
 */
export const NEAR_LOW_UP_TO: LimitPair = { mgDl: 84, mmol: 4.7 }
