import { normalQuantile } from './distributions'

/** Steps of Simpson's rule; 1e-9 up to a correlation of 0.9. */
const STEPS = 128

/**
 * Chance that two values of a normal law, alike by `correlation` (0 to below 1), are both among its lowest `share` (between
 * 0 and 1): Plackett, Biometrika 1954;41:351-360.
 */
export function bothBelow(share: number, correlation: number): number {
  const z = normalQuantile(share)
  const density = (r: number) => Math.exp((-z * z) / (1 + r)) / (2 * Math.PI * Math.sqrt(1 - r * r))
  const step = correlation / STEPS
  let sum = density(0) + density(correlation)
  for (let i = 1; i < STEPS; i++) sum += (i % 2 === 1 ? 4 : 2) * density(i * step)
  return share * share + (sum * step) / 3
}
