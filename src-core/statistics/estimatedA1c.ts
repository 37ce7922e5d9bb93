import { Z95_ROUNDED } from '../reference/meter'
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

/** Lowest and highest A1C, percent; a limit outside the published table is null. */
export type A1cRange = readonly [number | null, number | null]

/**
 * Lowest and highest A1C, percent, whose published 95 % range of average glucose holds a mean in mg/dL;
 * linear between the rows of the table, null where a limit falls outside it. `se`, mg/dL: the mean's own standard error,
 * which widens each row about its centre as independent errors add up.
 */
export function estimatedA1cRange(meanMgDl: number, se = 0): A1cRange {
  const rows = se === 0 ? ADAG_TABLE : ADAG_TABLE.map((row) => widened(row, se))
  return [a1cWhere(rows, 'highest', meanMgDl), a1cWhere(rows, 'lowest', meanMgDl)]
}

function widened(row: AverageGlucoseRow, se: number): AverageGlucoseRow {
  const half = (limit: number) => Math.hypot(limit - row.mgDl, Z95_ROUNDED * se)
  return { ...row, lowest: row.mgDl - half(row.lowest), highest: row.mgDl + half(row.highest) }
}

function a1cWhere(
  rows: readonly AverageGlucoseRow[],
  limit: 'lowest' | 'highest',
  mgDl: number,
): number | null {
  const above = rows.findIndex((row) => row[limit] >= mgDl)
  if (above === -1) return null
  const upper = rows[above]
  if (upper[limit] === mgDl) return upper.a1cPercent
  if (above === 0) return null
  return between(rows[above - 1], upper, limit, mgDl)
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
