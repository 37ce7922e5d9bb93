import { expect, it } from 'vitest'
import { bothBelow } from '../../../src-core/statistics/bothBelow'

it.each([
  // R 4.2.2: integrate(function(x) dnorm(x) * pnorm((z - r * x) / sqrt(1 - r^2)), -Inf, z).
  [0.05, 0.3, 0.007134628808],
  [0.1, 0.5, 0.032401523218],
  [0.2, 0.8, 0.129033979763],
  [0.02, 0.1, 0.000687983994],
  [0.1, 0, 0.01],
])('two values among the lowest %d with a correlation of %d', (share, correlation, wanted) => {
  expect(bothBelow(share, correlation)).toBeCloseTo(wanted, 8)
})
