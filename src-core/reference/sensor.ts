/**
 * An episode of lows of a sensor begins with so many consecutive minutes below the limit and ends with so many at 70 mg/dL
 * (3.9 mmol/L) or above. Danne et al., Diabetes Care 2017;40:1631-1640; Battelino et al., Lancet Diabetes Endocrinol
 * 2023;11:42-57 (the rule from memory).
 */
export const SENSOR_EPISODE_MINUTES = 15

/** Longer without a reading is a gap, minutes; where readings themselves come so seldom, from this many spacings on. A design choice. */
export const SENSOR_GAP = { minutes: 15, spacings: 1.5 } as const

/** Times are logged to the minute, so that what lasted fifteen may read as fourteen. */
export const SENSOR_MINUTES_ROUNDED = 1
