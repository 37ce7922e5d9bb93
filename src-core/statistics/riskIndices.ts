import { RISK_FUNCTION } from '../reference/riskFunction'

/** The symmetrised scale of glucose: negative below about 112.5 mg/dL, positive above. `mgDl` at least 1. */
export function symmetrisedGlucose(mgDl: number): number {
  return RISK_FUNCTION.scale * (Math.log(mgDl) ** RISK_FUNCTION.power - RISK_FUNCTION.centre)
}

/**
 * Low and high blood glucose index of values in mg/dL: the mean over all of them of the risk below, and of
 * the risk above, the zero of the scale. Null without values. Kovatchev et al., Diabetes Care
 * 1997;20:1655-1658.
 */
export function riskIndices(values: Float64Array): { lbgi: number; hbgi: number } | null {
  if (values.length === 0) return null
  let low = 0
  let high = 0
  for (const value of values) {
    const f = symmetrisedGlucose(value)
    const risk = RISK_FUNCTION.weight * f * f
    if (f < 0) low += risk
    else high += risk
  }
  return { lbgi: low / values.length, hbgi: high / values.length }
}
