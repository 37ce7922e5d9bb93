import { describe, expect, it } from 'vitest'
import { createDoubtModel, personalRange } from '../../../src-core/technique/doubtModel'

/** A person whose readings lie around 140 mg/dL. */
const doubtsOf = createDoubtModel({ centre: Math.log(140), spread: 0.3 })

/** Doubts of tests given as value and minutes since the one before. */
function doubts(...tests: readonly (readonly [mgDl: number, gapMinutes: number])[]): number[] {
  return [...doubtsOf(tests.map(([mgDl, gapMinutes]) => ({ mgDl, gapMinutes, low: mgDl < 70 })))]
}

// What must hold for any sound model of this kind; the numbers themselves are design choices.
describe('the doubt of repeat readings', () => {
  it('is a probability for every member, also of absurd sets', () => {
    for (const set of [
      doubts([288, 0], [142, 2]),
      doubts([20, 0], [600, 1]),
      doubts([1000, 0], [1, 0]),
      doubts([600, 0], [600, 10], [20, 10]),
    ]) {
      for (const doubt of set) {
        expect(doubt).toBeGreaterThanOrEqual(0)
        expect(doubt).toBeLessThanOrEqual(1)
      }
    }
  })

  it('is small where all agree', () => {
    for (const doubt of doubts([100, 0], [105, 3], [98, 2])) expect(doubt).toBeLessThan(0.05)
    for (const doubt of doubts([250, 0], [262, 2])) expect(doubt).toBeLessThan(0.1)
    for (const doubt of doubts([45, 0], [48, 3])) expect(doubt).toBeLessThan(0.5)
  })

  it('falls on the first of two that contradict each other, not on the second', () => {
    const [first, second] = doubts([288, 0], [142, 2])
    expect(first).toBeGreaterThan(0.9)
    expect(second).toBeLessThan(0.1)
  })

  it('falls on the first that is too low as well', () => {
    const [first, second, third] = doubts([90, 0], [150, 3], [146, 2])
    expect(first).toBeGreaterThan(0.9)
    expect(second).toBeLessThan(0.1)
    expect(third).toBeLessThan(0.1)
  })

  it('falls on the odd one out among later tests', () => {
    const [first, second, third] = doubts([140, 0], [290, 2], [138, 2])
    expect(second).toBeGreaterThan(0.9)
    expect(first).toBeLessThan(0.1)
    expect(third).toBeLessThan(0.1)
  })

  it('after a low falls on the recheck, which may carry sugar', () => {
    const [low, recheck] = doubts([62, 0], [109, 3])
    expect(recheck).toBeGreaterThan(0.5)
    expect(low).toBeLessThan(0.5)
  })

  it('spares a low that a test before it contradicts', () => {
    const [before, low] = doubts([150, 0], [62, 3])
    expect(before).toBeGreaterThan(0.5)
    expect(low).toBeLessThan(0.2)
  })

  it('grows with every test that speaks against a reading', () => {
    const [once] = doubts([62, 0], [140, 2])
    const [twice] = doubts([62, 0], [140, 2], [138, 2])
    const [often] = doubts([62, 0], [140, 2], [138, 2], [141, 2])
    expect(twice).toBeGreaterThan(once)
    expect(often).toBeGreaterThan(twice)
  })

  it('shrinks with the time in which glucose may have changed', () => {
    const [soon] = doubts([190, 0], [140, 1])
    const [later] = doubts([190, 0], [140, 10])
    expect(soon).toBeGreaterThan(later)
  })

  it('depends on what is usual for the person', () => {
    const usuallyHigh = createDoubtModel({ centre: Math.log(280), spread: 0.3 })
    const tests = [
      { mgDl: 288, gapMinutes: 0, low: false },
      { mgDl: 190, gapMinutes: 2, low: false },
    ]
    expect(usuallyHigh(tests)[0]).toBeLessThan(doubtsOf(tests)[0])
  })

  it('is found for a chain of any length', () => {
    const chain = Array.from({ length: 1200 }, (_, i) => [140 + (i % 3), 5] as const)
    const all = doubts(...chain)
    expect(all).toHaveLength(1200)
    expect(Math.max(...all)).toBeLessThan(0.05)
  })
})

describe('the range of a person’s readings', () => {
  it('is centred on the median with a spread that outliers do not move', () => {
    const usual = [90, 105, 120, 140, 165, 190, 220]
    const range = personalRange(Float64Array.from(usual))
    const withOutlier = personalRange(Float64Array.from([...usual, 600]).sort())
    expect(range?.centre).toBeCloseTo(Math.log(140), 12)
    // Absolute deviations of ln from ln 140: the fourth smallest is that of 105, ln(140/105).
    expect(range?.spread).toBeCloseTo(1.4826 * Math.log(140 / 105), 12)
    expect(withOutlier?.spread as number).toBeLessThan(1.5 * (range?.spread as number))
  })

  it('has a floor, for few or equal readings tell little', () => {
    expect(personalRange(Float64Array.of(120, 120, 120))?.spread).toBe(0.3)
    expect(personalRange(new Float64Array(0))).toBeNull()
  })
})
