import { expect, it } from 'vitest'
import { higherP } from '../../../src-core/statistics/pooledDifference'

// Student's data on sleep, Biometrika 1908;6:1-25 (R's `sleep`).
const FIRST = [0.7, -1.6, -0.2, -1.2, -0.1, 3.4, 3.7, 0.8, 0, 2]
const SECOND = [1.9, 0.8, 1.1, 0.1, -0.1, 4.4, 5.5, 1.6, 4.6, 3.4]

it('values are higher than others by Student’s t, one-sided', () => {
  // R 4.2.2: t.test(x, y, var.equal = TRUE, alternative = "greater")$p.value.
  expect(higherP(FIRST, SECOND)).toBeCloseTo(0.9604066429, 8)
  expect(higherP(SECOND, FIRST.slice(0, 6))).toBeCloseTo(0.02370061197, 8)
})

it('nothing is told by fewer than four of either kind, and equal values differ for sure or not at all', () => {
  expect(higherP(FIRST.slice(0, 3), SECOND)).toBeNull()
  expect(higherP(FIRST, SECOND.slice(0, 3))).toBeNull()
  expect(higherP([2, 2, 2, 2], [1, 1, 1, 1])).toBe(0)
  expect(higherP([1, 1, 1, 1], [1, 1, 1, 1])).toBe(1)
})
