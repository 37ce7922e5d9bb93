/**
 * Risk function of glucose in mg/dL, f = scale x ((ln g)^power - centre), risk = weight x f^2. The constants
 * belong to mg/dL; those for mmol/L are a fit of their own. Kovatchev et al., Diabetes Care
 * 1997;20:1655-1658.
 */
export const RISK_FUNCTION = { scale: 1.509, power: 1.084, centre: 5.381, weight: 10 } as const
