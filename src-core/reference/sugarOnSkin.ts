/**
 * What sugar too little to be seen makes of a reading: 1 mg/dL is 0.01 microgram in a microlitre. Test strips of today take
 * 0.3 to 1.0 microlitres of blood.
 */
export const SUGAR_ON_SKIN = { tooMuchMgDl: 107, dropMicrolitres: 0.5, micrograms: 0.535 } as const
