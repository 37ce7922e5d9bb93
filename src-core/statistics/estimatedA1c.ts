import { ADAG, ADAG_TABLE, type AverageGlucoseRow, GMI, NGSP_FROM_IFCC } from '../reference/averageGlucose'

/** A1C in percent estimated from a mean in mg/dL: the ADAG regression read the other way round. */
export function estimatedA1cPercent(meanMgDl: number): number {
  return (meanMgDl - ADAG.interceptMgDl) / ADAG.slopeMgDlPerPercent
}

/** A1C in percent (NGSP) as mmol/mol (IFCC). */
export function a1cPercentToMmolMol(percent: number): number {
  return (percent - NGSP_FROM_IFCC.intercept) / NGSP_FROM_IFCC.slope
}

/** A1C in mmol/mol (IFCC) as percent (NGSP). */
export function a1cMmolMolToPercent(mmolMol: number): number {
  return NGSP_FROM_IFCC.slope * mmolMol + NGSP_FROM_IFCC.intercept
}

/** Glucose management indicator in percent from the mean of a sensor's readings, mg/dL. */
export function glucoseManagementIndicator(meanMgDl: number): number {
  return GMI.intercept + GMI.slopePerMgDl * meanMgDl
}

/**
 * Lowest and highest A1C, percent, whose published 95 % range of average glucose holds a mean in mg/dL;
 * linear between the rows of the table, null where a limit falls outside it.
 */
export function estimatedA1cRange(meanMgDl: number): readonly [number | null, number | null] {
  return [a1cWhere('highest', meanMgDl), a1cWhere('lowest', meanMgDl)]
}

function a1cWhere(limit: 'lowest' | 'highest', mgDl: number): number | null {
  const above = ADAG_TABLE.findIndex((row) => row[limit] >= mgDl)
  if (above === -1) return null
  const upper = ADAG_TABLE[above]
  if (upper[limit] === mgDl) return upper.a1cPercent
  if (above === 0) return null
  return between(ADAG_TABLE[above - 1], upper, limit, mgDl)
}

function between(
  lower: AverageGlucoseRow,
  upper: AverageGlucoseRow,
  limit: 'lowest' | 'highest',
  mgDl: number,
): number {
  const share = (mgDl - lower[limit]) / (upper[limit] - lower[limit])
  return lower.a1cPercent + share * (upper.a1cPercent - lower.a1cPercent)
}
