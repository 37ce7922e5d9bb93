import { Z95 } from '../reference/meter'

/**
 * 95 % interval of a share from a count out of `n`, both limits 0 to 1; null for n = 0. Score interval of
 * Wilson, JASA 1927;22:209-212.
 */
export function wilsonInterval(count: number, n: number): readonly [number, number] | null {
  if (n === 0) return null
  const share = count / n
  const zz = (Z95 * Z95) / n
  const centre = share + zz / 2
  const half = Z95 * Math.sqrt((share * (1 - share)) / n + zz / (4 * n))
  return [Math.max(0, (centre - half) / (1 + zz)), Math.min(1, (centre + half) / (1 + zz))]
}
