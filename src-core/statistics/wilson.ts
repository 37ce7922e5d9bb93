import { Z95 } from '../reference/meter'

/** Lower and upper limit. */
export type Interval = readonly [number, number]

/**
 * 95 % interval of a share from a count out of `n`, both limits 0 to 1; null for n = 0. Score interval of
 * Wilson, JASA 1927;22:209-212.
 */
export function wilsonInterval(count: number, n: number): Interval | null {
  return n === 0 ? null : wilsonLimits(count / n, n, Z95)
}

/** The same in percent, 0 to 100. */
export function wilsonPercent(count: number, n: number): Interval | null {
  const interval = wilsonInterval(count, n)
  return interval === null ? null : [100 * interval[0], 100 * interval[1]]
}

/** Wilson's limits of a share, 0 to 1, that rests on `n` independent readings, whole or not; `q` in the place of 1.96. */
export function wilsonLimits(share: number, n: number, q: number): Interval {
  const zz = (q * q) / n
  const centre = share + zz / 2
  const half = q * Math.sqrt((share * (1 - share)) / n + zz / (4 * n))
  // At the ends the formula gives 0 and 1 but for the last digit.
  const low = share === 0 ? 0 : (centre - half) / (1 + zz)
  const high = share === 1 ? 1 : (centre + half) / (1 + zz)
  return [Math.max(0, low), Math.min(1, high)]
}
