/** A unit in which glucose concentrations are logged and printed. */
export type GlucoseUnit = 'mg/dL' | 'mmol/L'

/**
 * mg/dL in one mmol/L: molar mass of glucose C6H12O6, 180.156 g/mol (IUPAC conventional atomic weights),
 * with 10 dL in a litre.
 */
export const MG_PER_DL_IN_ONE_MMOL_PER_L = 18.0156

/** Converts a concentration from mmol/L to mg/dL, unrounded. */
export function mmolToMgDl(mmolPerL: number): number {
  return mmolPerL * MG_PER_DL_IN_ONE_MMOL_PER_L
}

/** Converts a concentration from mg/dL to mmol/L, unrounded. */
export function mgDlToMmol(mgPerDl: number): number {
  return mgPerDl / MG_PER_DL_IN_ONE_MMOL_PER_L
}

/** A concentration logged in `unit`, in mg/dL. */
export function toMgDl(value: number, unit: GlucoseUnit): number {
  return unit === 'mg/dL' ? value : mmolToMgDl(value)
}

/** A concentration in mg/dL, in `unit`. */
export function fromMgDl(mgPerDl: number, unit: GlucoseUnit): number {
  return unit === 'mg/dL' ? mgPerDl : mgDlToMmol(mgPerDl)
}

export function otherUnit(unit: GlucoseUnit): GlucoseUnit {
  return unit === 'mg/dL' ? 'mmol/L' : 'mg/dL'
}

/** Decimals with which glucose is printed in a unit. */
export function glucoseDecimals(unit: GlucoseUnit): number {
  return unit === 'mg/dL' ? 0 : 1
}
