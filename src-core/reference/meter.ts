/**
 * What a 'LO' or 'HI' without a printed limit stands for, mg/dL: the measuring range that most meters share
 * (common practice; the leaflet of each meter tells its own).
 */
export const MEASURING_RANGE_MG_DL = { lowest: 20, highest: 600 } as const

/** A number outside these limits is no glucose reading of any meter: 1 to 1,000 mg/dL. */
export const POSSIBLE_MG_DL = { least: 1, most: 1000 } as const

/**
 * ISO 15197:2013, clause 6.3.3: 95 % of a meter's readings within 15 mg/dL of the laboratory's below
 * 100 mg/dL, within 15 % from there on.
 */
export const METER_STANDARD = { share: 0.15, proportionalFromMgDl: 100, belowMgDl: 15 } as const

/** Highest value that a meter in mmol/L shows, and the lowest that one in mg/dL shows (same range). */
export const UNIT_TELLTALE = { highestMmol: 33.4, lowestMgDl: 20 } as const

/** Two-sided 95 % point of the normal distribution as rounded in the meter agreement rule. */
export const Z95_ROUNDED = 1.96

/** Two-sided 95 % point of the normal distribution. */
export const Z95 = 1.959964

/** Honest change of blood glucose allowed for between two tests minutes apart, mg/dL per minute. */
export const HONEST_CHANGE_MG_DL_PER_MINUTE = 2
