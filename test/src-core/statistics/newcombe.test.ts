import { describe, expect, it } from 'vitest'
import { newcombeInterval } from '../../../src-core/statistics/newcombe'
import { wilsonInterval } from '../../../src-core/statistics/wilson'

function within([count, n]: readonly number[]) {
  return { share: count / n, limits: wilsonInterval(count, n) ?? [NaN, NaN] } as const
}

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
    const interval = newcombeInterval(within(a), within(b))
    expect(interval.map((limit) => limit.toFixed(4))).toEqual(limits.map((limit) => limit.toFixed(4)))
  })
})
