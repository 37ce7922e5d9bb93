import { HONEST_CHANGE_MG_DL_PER_MINUTE, METER_STANDARD } from '../reference/meter'

/** A difference this close to the limit, mg/dL, counts as at the limit: binary fractions miss it by less. */
const AT_LIMIT = 1e-9

/**
 * The largest difference, mg/dL, at which two readings in mg/dL some minutes apart still agree. The limits of
 * ISO 15197:2013 (15 mg/dL, 15 % from 100 mg/dL on) are read as the 95 % band of either reading,
 * s = 0.15 max(value, 100) / 1.96, so that 1.96 sqrt(s1^2 + s2^2) is 0.15 times the hypotenuse; to this
 * comes 2 mg/dL of honest change for each minute between them.
 */
export function allowedDifference(first: number, second: number, minutes: number): number {
  const { share, proportionalFromMgDl } = METER_STANDARD
  const a = Math.max(first, proportionalFromMgDl)
  const b = Math.max(second, proportionalFromMgDl)
  return share * Math.sqrt(a * a + b * b) + HONEST_CHANGE_MG_DL_PER_MINUTE * Math.abs(minutes)
}

/** By how much, mg/dL, two readings in mg/dL, some minutes apart, are farther apart than allowed; 0 or less: they agree. */
export function disagreement(first: number, second: number, minutes: number): number {
  return Math.abs(first - second) - (allowedDifference(first, second, minutes) + AT_LIMIT)
}

/** Whether two readings in mg/dL, some minutes apart, agree. */
export function readingsAgree(first: number, second: number, minutes: number): boolean {
  return disagreement(first, second, minutes) <= 0
}
