import { describe, expect, it } from 'vitest'
import { fixed, roundHalfAway } from '../../../src-core/units/rounding'

describe('rounding', () => {
  it('rounds halves away from zero', () => {
    expect(roundHalfAway(0.5)).toBe(1)
    expect(roundHalfAway(2.5)).toBe(3)
    expect(roundHalfAway(-2.5)).toBe(-3)
    expect(roundHalfAway(125.5)).toBe(126)
  })

  it('rounds a half as written though its binary number falls just short', () => {
    // 1.005 is stored as 1.00499999999999989..., 8.345 as 8.3450000000000006...
    expect(roundHalfAway(1.005, 2)).toBe(1.01)
    expect(roundHalfAway(8.345, 2)).toBe(8.35)
    expect(roundHalfAway(7.25, 1)).toBe(7.3)
  })

  it('leaves what is clearly below a half', () => {
    expect(roundHalfAway(0.4999)).toBe(0)
    expect(roundHalfAway(69.96, 0)).toBe(70)
    expect(roundHalfAway(7.249, 1)).toBe(7.2)
  })

  it('never gives a negative zero', () => {
    expect(Object.is(roundHalfAway(-0.2), 0)).toBe(true)
    expect(fixed(-0.04, 1)).toBe('0.0')
  })

  it('prints exactly the decimals asked for', () => {
    expect(fixed(7, 1)).toBe('7.0')
    expect(fixed(144.4)).toBe('144')
  })
})
