import { describe, expect, it } from 'vitest'
import { wilsonInterval } from '../../../src-core/statistics/wilson'

describe('Wilson interval', () => {
  // Newcombe, Stat Med 1998;17:857-872, table I, method 3.
  it.each([
    [81, 263, 0.2553, 0.3662],
    [15, 148, 0.0624, 0.1605],
    [0, 20, 0, 0.1611],
    [1, 29, 0.0061, 0.1718],
    [29, 29, 0.883, 1],
  ])('of %d in %d is the published %d to %d', (count, n, low, high) => {
    const interval = wilsonInterval(count, n)
    expect(interval?.[0]).toBeCloseTo(low, 4)
    expect(interval?.[1]).toBeCloseTo(high, 4)
  })

  it('stays within 0 and 1 and mirrors itself', () => {
    expect(wilsonInterval(0, 10)?.[0]).toBe(0)
    expect(wilsonInterval(10, 10)?.[1]).toBeLessThanOrEqual(1)
    expect(wilsonInterval(10, 10)?.[1]).toBeCloseTo(1, 12)
    expect(wilsonInterval(10, 10)?.[0]).toBeCloseTo(1 - 0.2775, 4)
  })

  it('does not exist for no readings', () => {
    expect(wilsonInterval(0, 0)).toBeNull()
  })
})
