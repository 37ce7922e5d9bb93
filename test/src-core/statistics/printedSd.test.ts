import { expect, it } from 'vitest'
import { printedSdInterval } from '../../../src-core/statistics/printedSd'

it('an SD from fewer than 60 days is printed with limits a fifth wider on the scale of ratios', () => {
  // Limits of 32 and 50 lie by a factor of 1.25 from 40; a fifth more of its logarithm is a factor of 1.3071.
  const [low, high] = printedSdInterval(40, [32, 50], 59)
  expect(low).toBeCloseTo(30.6033, 3)
  expect(high).toBeCloseTo(52.282, 3)
  expect(printedSdInterval(40, [32, 50], 60)).toEqual([32, 50])
  expect(printedSdInterval(0, [0, 0], 14)).toEqual([0, 0])
})
