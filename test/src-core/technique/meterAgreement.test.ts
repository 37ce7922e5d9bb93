import { describe, expect, it } from 'vitest'
import { allowedDifference, readingsAgree } from '../../../src-core/technique/meterAgreement'

// ISO 15197:2013 asks for 95 % of readings within 15 mg/dL below 100 mg/dL and within 15 % from there on.

describe('the difference that two readings may have', () => {
  it('below 100 mg/dL is 15 mg/dL times the square root of two', () => {
    expect(allowedDifference(60, 80, 0)).toBeCloseTo(21.2132, 4)
    expect(allowedDifference(99, 40, 0)).toBeCloseTo(21.2132, 4)
    expect(allowedDifference(100, 100, 0)).toBeCloseTo(21.2132, 4)
  })

  it('from 100 mg/dL on grows with the values', () => {
    // 0.15 x sqrt(300^2 + 400^2) = 75; and 0.15 x sqrt(288^2 + 142^2) + 2 x 2 = 52.1657.
    expect(allowedDifference(300, 400, 0)).toBeCloseTo(75, 10)
    expect(allowedDifference(288, 142, 2)).toBeCloseTo(52.1657, 4)
  })

  it('is the band of the two error terms as the rule states it', () => {
    const s = (value: number) => (0.15 * Math.max(value, 100)) / 1.96
    for (const [first, second, minutes] of [
      [52, 90, 9],
      [100, 116, 0],
      [250, 173, 4.5],
    ]) {
      const rule = 1.96 * Math.sqrt(s(first) ** 2 + s(second) ** 2) + 2 * minutes
      expect(allowedDifference(first, second, minutes)).toBeCloseTo(rule, 10)
    }
  })

  it('grows by 2 mg/dL for each minute, whichever reading came first', () => {
    expect(allowedDifference(120, 140, 10) - allowedDifference(120, 140, 0)).toBeCloseTo(20, 10)
    expect(allowedDifference(120, 140, -10)).toBe(allowedDifference(140, 120, 10))
  })
})

describe('two readings agree', () => {
  it('up to the limit itself', () => {
    // 0.15 x sqrt(120^2 + 160^2) + 2 x 5 = 30 + 10 = 40 exactly.
    expect(readingsAgree(120, 160, 5)).toBe(true)
    expect(readingsAgree(160, 120, -5)).toBe(true)
    expect(readingsAgree(120, 160, 4.9)).toBe(false)
    expect(readingsAgree(120, 161, 5)).toBe(false)
  })

  // Pairs of a low band and a proportional one on either side of the limit (0.15 times the hypotenuse).
  it.each([
    [50, 71, true],
    [50, 72, false],
    [99, 120, true],
    [99, 122, true],
    [99, 123, false],
    [100, 123, true],
    [100, 124, false],
    [200, 160, false],
    [200, 163, true],
    [300, 372, false],
    [300, 371, true],
  ])('%d and %d in the same minute: %s', (first, second, agree) => {
    expect(readingsAgree(first, second, 0)).toBe(agree)
  })

  it('52 and 90 nine minutes later do, which is why a set with a low is never averaged', () => {
    expect(readingsAgree(52, 90, 9)).toBe(true)
  })
})
