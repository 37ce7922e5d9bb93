/**
 * Average glucose and A1C. Regression and table: ADAG study, Nathan et al., Diabetes Care 2008;31:1473-1478
 * (507 people). It holds between people; one person's laboratory A1C may lie far from it.
 */
export const ADAG = { slopeMgDlPerPercent: 28.7, interceptMgDl: -46.7 } as const

/** One row of the study's table: average glucose at an A1C, with the 95 % range between people. mg/dL. */
export interface AverageGlucoseRow {
  readonly a1cPercent: number
  readonly mgDl: number
  readonly lowest: number
  readonly highest: number
}

/** The study's table for an A1C of 5 to 12 % (same paper). */
export const ADAG_TABLE: readonly AverageGlucoseRow[] = [
  { a1cPercent: 5, mgDl: 97, lowest: 76, highest: 120 },
  { a1cPercent: 6, mgDl: 126, lowest: 100, highest: 152 },
  { a1cPercent: 7, mgDl: 154, lowest: 123, highest: 185 },
  { a1cPercent: 8, mgDl: 183, lowest: 147, highest: 217 },
  { a1cPercent: 9, mgDl: 212, lowest: 170, highest: 249 },
  { a1cPercent: 10, mgDl: 240, lowest: 193, highest: 282 },
  { a1cPercent: 11, mgDl: 269, lowest: 217, highest: 314 },
  { a1cPercent: 12, mgDl: 298, lowest: 240, highest: 347 },
]

/**
 * Master equation between the two scales of A1C, percent (NGSP) = slope x mmol/mol (IFCC) + intercept:
 * Hoelzel et al., Clin Chem 2004;50:166-174; constants as the NGSP publishes them.
 */
export const NGSP_FROM_IFCC = { slope: 0.09148, intercept: 2.152 } as const

/**
 * Glucose management indicator, percent = intercept + slope x mean in mg/dL. For sensors only: Bergenstal et
 * al., Diabetes Care 2018;41:2275-2280.
 */
export const GMI = { intercept: 3.31, slopePerMgDl: 0.02392 } as const

/**
 * Average glucose as published for an A1C given to one decimal, whole mg/dL. Reckoned in tenths of a percent,
 * because 28.7 x 6 - 46.7 in binary numbers falls just short of the 125.5 that the table rounds to 126.
 */
export function publishedAverageGlucose(a1cPercent: number): number {
  const tenths = Math.round(a1cPercent * 10)
  const hundredths = ADAG.slopeMgDlPerPercent * 10 * tenths + ADAG.interceptMgDl * 100
  return Math.floor(Math.round(hundredths) / 100 + 0.5)
}
