import { FLAG, hasFlag, type Readings, valueIn } from '../../log/readings'
import { limitIn, type LimitPair } from '../../reference/limits'
import { fromMgDl, glucoseDecimals, type GlucoseUnit } from '../../units/glucose'
import { fixed, roundHalfAway } from '../../units/rounding'

export { count, inWords, listed, thousandsText } from './counts'

/** Stands where there is no number. */
export const NO_NUMBER = '–'

const MINUS = '−'

/** A concentration in mg/dL as printed in `unit`, without the unit: '144', '8.0'. */
export function glucoseText(mgDl: number, unit: GlucoseUnit): string {
  return fixed(fromMgDl(mgDl, unit), glucoseDecimals(unit))
}

/** A reading as printed: its value in `unit`, or 'LO' or 'HI'. */
export function readingText(readings: Readings, index: number, unit: GlucoseUnit): string {
  if (hasFlag(readings, index, FLAG.belowRange)) return 'LO'
  if (hasFlag(readings, index, FLAG.aboveRange)) return 'HI'
  return fixed(valueIn(readings, index, unit), glucoseDecimals(unit))
}

/** A published limit as printed: '180', '10.0'. */
export function limitText(limit: LimitPair, unit: GlucoseUnit): string {
  return fixed(limitIn(limit, unit), glucoseDecimals(unit))
}

/** A percentage without decimals and without its sign. */
export function percentText(percent: number): string {
  return fixed(percent)
}

/** An A1C in percent with one decimal, without its sign. */
export function a1cText(percent: number): string {
  return fixed(percent, 1)
}

/** An A1C in mmol/mol, without decimals. */
export function a1cMmolMolText(mmolPerMol: number): string {
  return fixed(mmolPerMol)
}

/** The difference `second` - `first` of two printed numbers with its sign, so that a printed row adds up. */
export function differenceText(first: string, second: string): string {
  const decimals = first.split('.')[1]?.length ?? 0
  const difference = roundHalfAway(Number(second) - Number(first), decimals)
  if (difference === 0) return fixed(0, decimals)
  return (difference > 0 ? '+' : MINUS) + fixed(Math.abs(difference), decimals)
}

/** A difference in mg/dL with its sign, as printed in `unit`: '+8', '−0.4'. */
export function signedGlucoseText(mgDl: number, unit: GlucoseUnit): string {
  return differenceText(glucoseText(0, unit), glucoseText(mgDl, unit))
}

/** Two ends of a range: '119–161'. */
export function rangeText(low: string, high: string): string {
  return `${low}–${high}`
}
