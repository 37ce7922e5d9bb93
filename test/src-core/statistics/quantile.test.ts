import fc from 'fast-check'
import { quantileSorted } from 'simple-statistics'
import { describe, expect, it } from 'vitest'
import { orderedAt, quantileR7 } from '../../../src-core/statistics/quantile'

const sorted = (values: readonly number[]) => Float64Array.from(values).sort()

// NIST/SEMATECH e-Handbook of Statistical Methods, section 7.2.6.2: gauge data.
const GAUGE = [
  95.1772, 95.1567, 95.1937, 95.1959, 95.1442, 95.061, 95.1591, 95.1195, 95.1065, 95.0925, 95.199, 95.1682,
]

describe('quantiles of type 7 (Hyndman and Fan, Am Stat 1996;50:361-365)', () => {
  it('give the 90th percentile of the NIST gauge data at position 9.9 of 0 to 11', () => {
    // 95.1937 + 0.9 x (95.1959 - 95.1937); the handbook's own type 6 prints 95.1981.
    expect(quantileR7(sorted(GAUGE), 0.9)).toBeCloseTo(95.19568, 5)
  })

  it('give the quartiles of 1 to 10 and of 1 to 5', () => {
    const ten = sorted([1, 2, 3, 4, 5, 6, 7, 8, 9, 10])
    expect(quantileR7(ten, 0.25)).toBe(3.25)
    expect(quantileR7(ten, 0.5)).toBe(5.5)
    expect(quantileR7(ten, 0.75)).toBe(7.75)
    expect(quantileR7(sorted([1, 2, 3, 4, 5]), 0.25)).toBe(2)
    expect(quantileR7(sorted([1, 2, 3, 4, 5]), 0.75)).toBe(4)
  })

  it('interpolate between unequal neighbours', () => {
    // Position (n - 1) p by hand: P10 at 0.8 between 84 and 97, P90 at 7.2 between 162 and 205.
    const nine = sorted([84, 97, 103, 110, 118, 131, 149, 162, 205])
    expect(quantileR7(nine, 0.1)).toBeCloseTo(94.4, 10)
    expect(quantileR7(nine, 0.25)).toBe(103)
    expect(quantileR7(nine, 0.5)).toBe(118)
    expect(quantileR7(nine, 0.75)).toBe(149)
    expect(quantileR7(nine, 0.9)).toBeCloseTo(170.6, 10)
    const five = sorted([10, 5, 5, 1, 20])
    expect([0.25, 0.5, 0.75].map((p) => quantileR7(five, p))).toEqual([5, 5, 10])
  })

  it('are the extremes at 0 and 1 and the value itself of a single one', () => {
    const two = sorted([80, 200])
    expect([0, 1].map((p) => quantileR7(two, p))).toEqual([80, 200])
    expect(quantileR7(sorted([120]), 0.9)).toBe(120)
  })

  it('do not exist without values', () => {
    expect(quantileR7(sorted([]), 0.5)).toBeNull()
  })
})

describe('simple-statistics', () => {
  it('still interpolates by type 7: an older release gave 3 here', () => {
    expect(quantileSorted([3, 6, 7, 8, 8, 10, 13, 15, 16, 20], 0.05)).toBeCloseTo(4.35, 10)
  })
})

describe('values put in order at some places', () => {
  it('stand there as in the whole order', () => {
    fc.assert(
      fc.property(
        fc.array(fc.integer({ min: 0, max: 40 }), { minLength: 1, maxLength: 2_000 }),
        fc.array(fc.nat(), { maxLength: 5 }),
        (values, chosen) => {
          const places = chosen.map((number) => number % values.length).sort((a, b) => a - b)
          const moved = Float64Array.from(values)
          orderedAt(moved, places)
          const sorted = [...values].sort((a, b) => a - b)
          expect(places.map((place) => moved[place])).toEqual(places.map((place) => sorted[place]))
          expect([...moved].sort((a, b) => a - b)).toEqual(sorted)
        },
      ),
    )
  })
})
