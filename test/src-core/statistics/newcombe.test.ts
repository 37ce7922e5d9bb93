import { describe, expect, it } from 'vitest'
import { newcombeInterval } from '../../../src-core/statistics/newcombe'

describe('the interval of a difference of two shares', () => {
  // Cases (a) to (h) of Newcombe, Stat Med 1998;17:873-890, table II, method 10.
  it.each([
    { a: [56, 70], b: [48, 80], limits: [0.0524, 0.3339] },
    { a: [9, 10], b: [3, 10], limits: [0.1705, 0.809] },
    { a: [6, 7], b: [2, 7], limits: [0.0582, 0.8062] },
    { a: [5, 56], b: [0, 29], limits: [-0.0381, 0.1926] },
    { a: [0, 10], b: [0, 20], limits: [-0.1611, 0.2775] },
    { a: [10, 10], b: [0, 20], limits: [0.6791, 1] },
    { a: [10, 10], b: [0, 10], limits: [0.6075, 1] },
  ])('of $a against $b is the published one', ({ a, b, limits }) => {
    const interval = newcombeInterval({ count: a[0], n: a[1] }, { count: b[0], n: b[1] })
    expect(interval?.map((limit) => limit.toFixed(4))).toEqual(limits.map((limit) => limit.toFixed(4)))
  })

  it('is missing where one of them is a share of nothing', () => {
    expect(newcombeInterval({ count: 0, n: 0 }, { count: 1, n: 2 })).toBeNull()
    expect(newcombeInterval({ count: 1, n: 2 }, { count: 0, n: 0 })).toBeNull()
  })
})
