import { Z95 } from '../reference/meter'

/** Lower and upper limit. */
export type Interval = readonly [number, number]

/**
 * 95 % interval of a share from a count out of `n`, both limits 0 to 1; null for n = 0. Score interval of
 * Wilson, JASA 1927;22:209-212.
 */
export function wilsonInterval(count: number, n: number): Interval | null {
  if (n === 0) return null
  const share = count / n
  const zz = (Z95 * Z95) / n
  const centre = share + zz / 2
  const half = Z95 * Math.sqrt((share * (1 - share)) / n + zz / (4 * n))
  // At the ends the formula gives 0 and 1 but for the last digit.
  const low = count === 0 ? 0 : (centre - half) / (1 + zz)
  const high = count === n ? 1 : (centre + half) / (1 + zz)
  return [Math.max(0, low), Math.min(1, high)]
}

/** The same in percent, 0 to 100. */
export function wilsonPercent(count: number, n: number): Interval | null {
  const interval = wilsonInterval(count, n)
  return interval === null ? null : [100 * interval[0], 100 * interval[1]]
}
