import { Z95 } from '../reference/meter'
import { tQuantile, twoSidedP } from './distributions'
import { type DayError } from './errorByDays'
import { newcombeInterval } from './newcombe'
import { type Interval, wilsonLimits } from './wilson'

// 95 % intervals from figures whose errors were taken by days. Nothing is drawn: the same days give the same limits.

/** A figure and how well it is known, both in the same unit. */
export interface Estimate {
  readonly value: number
  readonly error: DayError
}

/** A share, 0 to 1, of `n` readings. */
export interface ShareEstimate extends Estimate {
  readonly n: number
}

/** A median between two quantiles of its own readings. */
export interface MedianEstimate {
  readonly value: number
  readonly limits: Interval
  readonly error: DayError
}

/** Of a mean: as far to both sides. */
export function evenInterval({ value, error }: Estimate): Interval {
  const reach = error.q * error.se
  return [value - reach, value + reach]
}

/** Of what cannot be below 0 (SD, CV): by the same factor to both sides. */
export function ratioInterval({ value, error }: Estimate): Interval {
  if (value === 0) return [0, 0]
  const factor = Math.exp((error.q * error.se) / value)
  return [value / factor, value * factor]
}

/** Wilson's limits, 0 to 1, for as many independent readings as the days amount to. */
export function shareInterval(estimate: ShareEstimate): Interval {
  const { n, q } = independent(estimate)
  return wilsonLimits(estimate.value, n, q)
}

/** Of first - second: Welch, Biometrika 1947;34:28-35; Satterthwaite, Biometrics Bulletin 1946;2:110-114. */
export function differenceInterval(first: WithError, second: WithError): Interval {
  const difference = first.value - second.value
  const { se, df } = differenceError(first, second)
  const reach = se === 0 ? 0 : tQuantile(df) * se
  return [difference - reach, difference + reach]
}

/** Two-sided p of first - second by the same t. */
export function differenceP(first: WithError, second: WithError): number {
  const difference = first.value - second.value
  const { se, df } = differenceError(first, second)
  if (difference === 0) return 1
  if (se === 0) return 0
  return twoSidedP(difference / se, df)
}

/**
 * Two-sided p of first - second of two shares: one less the level at which the limits of `shareDifferenceInterval` reach 0,
 * within a thousandth of itself.
 */
export function shareDifferenceP(first: ShareEstimate, second: ShareEstimate): number {
  if (first.value === second.value) return 1
  const holdsNone = (p: number) => {
    const [low, high] = shareDifferenceInterval(first, second, p)
    return low <= 0 && high >= 0
  }
  let [low, high] = [Math.log(LEAST_P), 0]
  while (high - low > P_STEP) {
    const middle = (low + high) / 2
    if (holdsNone(Math.exp(middle))) low = middle
    else high = middle
  }
  return Math.exp((low + high) / 2)
}
/** Smaller ones are told as this. */
const LEAST_P = 1e-9
const P_STEP = 1e-3

interface WithError {
  readonly value: number
  readonly error: DayError
}

function differenceError(first: WithError, second: WithError): { readonly se: number; readonly df: number } {
  const a = first.error.se ** 2
  const b = second.error.se ** 2
  const df = (a + b) ** 2 / (a ** 2 / first.error.df + b ** 2 / second.error.df)
  return { se: Math.sqrt(a + b), df: Math.max(LEAST_DF, df) }
}
const LEAST_DF = 2

/** Of first - second, both limits -1 to 1: `newcombeInterval` of their Wilson limits. */
export function shareDifferenceInterval(
  first: ShareEstimate,
  second: ShareEstimate,
  error = ERROR,
): Interval {
  return newcombeInterval(
    { share: first.value, limits: limitsBeside(first, second, error) },
    { share: second.value, limits: limitsBeside(second, first, error) },
  )
}
/** What 95 % limits leave out on both sides together. */
const ERROR = 0.05

/** The quantile that leaves out `error` on both sides together. */
function quantileOf(df: number, error: number): number {
  return tQuantile(df, 1 - error / 2)
}

/** A share that the days cannot judge takes the likeness of its readings from the other period. */
function limitsBeside(own: ShareEstimate, other: ShareEstimate, error: number): Interval {
  const z = error === ERROR ? Z95 : quantileOf(Infinity, error)
  if (!isUnjudged(own)) {
    const q = error === ERROR ? own.error.q : quantileOf(own.error.df, error)
    return wilsonLimits(own.value, independent(own).n, q)
  }
  if (isUnjudged(other)) return wilsonLimits(own.value, independent(own).n, z)
  const timesTested = Math.max(READINGS_OF_ONE_LOW, other.n / independent(other).n)
  return wilsonLimits(own.value, own.n / timesTested, z)
}

/** A low is usually tested again: where days cannot judge, two readings count as one (design choice). */
const READINGS_OF_ONE_LOW = 2
/** Less than a reading in a thousand million is rounding. */
const NO_SPREAD = 1e-9

/** At an end, or the same on every day: then the days show no spread. */
function isUnjudged({ value, error }: ShareEstimate): boolean {
  return value === 0 || value === 1 || error.se < NO_SPREAD
}

/** As many independent readings as would be known as well, and the quantile to use with them. */
function independent(estimate: ShareEstimate): { readonly n: number; readonly q: number } {
  const { value, error, n } = estimate
  if (isUnjudged(estimate)) return { n: n / READINGS_OF_ONE_LOW, q: Z95 }
  return { n: Math.min(n, (value * (1 - value)) / error.se ** 2), q: error.q }
}
