import { describe, expect, it } from 'vitest'
import { dayEstimates, medianEstimate, weightedMean } from '../../../src-core/statistics/dayEstimates'
import type { DayTotals } from '../../../src-core/statistics/dayTotals'
import { errorByDays } from '../../../src-core/statistics/errorByDays'
import {
  differenceInterval,
  evenInterval,
  ratioInterval,
  type ShareEstimate,
  shareDifferenceInterval,
  shareDifferenceP,
  shareInterval,
} from '../../../src-core/statistics/estimates'
import { wilsonLimits } from '../../../src-core/statistics/wilson'

// Expected values without a published source: R 4.2.2, the functions of test/reference/figures.R.

function expectClose(found: readonly number[], wanted: readonly number[]): void {
  expect(found).toHaveLength(wanted.length)
  // The library's quantiles of t are right to 1e-7.
  wanted.forEach((value, i) => expect(found[i]).toBeCloseTo(value, 4))
}

const VALUES = [
  112, 95, 187, 142, 68, 210, 155, 130, 99, 174, 256, 121, 144, 61, 90, 133, 171, 188, 202, 101, 118, 149, 66,
  139, 140, 140, 230, 84, 97, 103,
]
/** Three readings a day, of ten days. */
const DAY_OF = VALUES.map((_, i) => 1 + Math.floor(i / 3))
const DAYS = Array.from({ length: 10 }, (_, i) => 1 + i)

function totalsOf(centre: number): DayTotals {
  const perDay = (of: (value: number) => number) =>
    Float64Array.from(DAYS, (day) => VALUES.reduce((sum, v, i) => sum + (DAY_OF[i] === day ? of(v) : 0), 0))
  return {
    days: DAYS.length,
    dayNumbers: Float64Array.from(DAYS),
    centre,
    n: perDay(() => 1),
    sums: perDay((value) => value - centre),
    squares: perDay((value) => (value - centre) ** 2),
    counts: [],
  }
}

describe('intervals by days', () => {
  it.each([0, 136, 400])('of mean, SD and CV are R’s, summed from %d', (centre) => {
    const { mean, sd, cvPercent } = dayEstimates(totalsOf(centre))
    expect(mean.value).toBeCloseTo(136.833333333333, 10)
    expect(sd.value).toBeCloseTo(49.0306612960343, 10)
    expect(mean.error.se).toBeCloseTo(9.29572449178441, 10)
    expect(sd.error.se).toBeCloseTo(4.38674570883348, 9)
    expect(cvPercent.error.se).toBeCloseTo(2.94122264811805, 9)
    expectClose(evenInterval(mean), [115.804943590845, 157.861723075822])
    expectClose(ratioInterval(sd), [40.0469258684045, 60.0297200096226])
    expectClose(ratioInterval(cvPercent), [29.7600901719158, 43.1437057531317])
  })

  it('of a median are two quantiles, R’s', () => {
    const { value, limits } = medianEstimate(Float64Array.from(VALUES), DAY_OF)
    expect(value).toBe(136)
    expectClose(limits, [102.24656157121, 151.260315286369])
  })

  it('of equal readings have no width', () => {
    const { value, limits } = medianEstimate(new Float64Array(12).fill(104), DAY_OF.slice(0, 12))
    expect([value, ...limits]).toEqual([104, 104, 104])
    expect(ratioInterval({ value: 0, error: errorByDays(new Float64Array(9), DAYS) })).toEqual([0, 0])
  })

  it('of a difference are Welch’s', () => {
    const limits = differenceInterval(
      { value: 10, error: { se: 2, df: 9, q: NaN } },
      { value: 6, error: { se: 3, df: 14.5, q: NaN } },
    )
    expectClose(limits, [-3.45955879306781, 11.4595587930678])
  })

  // Direct standardisation (Kitagawa, JASA 1955;50:1168-1194); weights 1/4, 1/2, 1/4, worked by hand. Shares stand for means.
  it('rest on a weighted mean that turns a crude comparison round where the mix of the parts differs', () => {
    const cells = (counts: readonly number[], sums: readonly number[]) => ({
      dayNumbers: [1],
      n: counts.map((n) => Float64Array.of(n)),
      sums: sums.map((sum) => Float64Array.of(sum)),
    })
    const weights = [0.25, 0.5, 0.25].map((weight, cell) => ({ cell, weight }))
    expect(weightedMean(cells([10, 30, 20], [6, 24, 10]), weights).value).toBeCloseTo(0.675, 12)
    expect(weightedMean(cells([40, 10, 30], [26, 8, 16]), weights).value).toBeCloseTo(0.695833, 6)
    // Crude: 40 of 60 against 50 of 80, the other way round.
    expect(40 / 60).toBeGreaterThan(50 / 80)
  })
})

describe('intervals of shares by days', () => {
  /** A share of three readings a day; `held`: how many of each day's. */
  function shareOf(held: readonly number[], firstDay = 1): ShareEstimate {
    const n = 3 * held.length
    const value = held.reduce((sum, count) => sum + count, 0) / n
    const z = Float64Array.from(held, (count) => (count - 3 * value) / n)
    return {
      value,
      n,
      error: errorByDays(
        z,
        held.map((_, i) => firstDay + i),
      ),
    }
  }
  const LOWS = shareOf(Array.from({ length: 4 }, () => [1, 0, 2, 0, 0]).flat())
  const NONE = shareOf(Array<number>(15).fill(0), 31)
  const percent = (limits: readonly number[]) => limits.map((limit) => 100 * limit)

  it('are Wilson’s of as many independent readings as the days amount to, R’s', () => {
    expectClose(wilsonLimits(0.12, 41.7, 2.11), [0.0492767205821392, 0.264037299798299])
    expectClose(percent(shareInterval(LOWS)), [10.2787206930495, 35.2982112092808])
  })

  it('where the days show no spread take two readings as one', () => {
    expectClose(percent(shareInterval(NONE)), [0, 14.5833186332123])
    expectClose(
      percent(shareInterval(shareOf(Array<number>(20).fill(1)))),
      [19.2304979967264, 51.219948495322],
    )
    expect(shareInterval(shareOf(Array<number>(10).fill(3)))[1]).toBe(1)
  })

  it('of a difference are Newcombe’s, a share at an end as alike as the other period’s', () => {
    expectClose(percent(shareDifferenceInterval(LOWS, NONE)), [2.47354988249068, 35.2982112092808])
    expectClose(
      percent(shareDifferenceInterval(NONE, shareOf(Array<number>(10).fill(0)))),
      [-20.3883303596487, 14.5833186332123],
    )
  })
  it.each([
    // R 4.2.2: uniroot of the limits of method 10 with qt(1 - p / 2, df) in the place of 1.96.
    [[0.3, 50, 30], [0.5, 40, 20], 0.064309781],
    [[0.12, 80, 25], [0.05, 90, 28], 0.1161704932],
    [[0.5, 60, 12], [0.1, 60, 40], 0.0001006711],
  ] as const)('and their p is the level at which they reach 0: %j, %j', (first, second, wanted) => {
    const share = ([value, n, df]: readonly [number, number, number]): ShareEstimate => ({
      value,
      n: 1_000,
      error: { se: Math.sqrt((value * (1 - value)) / n), df, q: NaN },
    })
    expect(shareDifferenceP(share(first), share(second)) / wanted).toBeCloseTo(1, 2)
    expect(shareDifferenceP(share(second), share(first)) / wanted).toBeCloseTo(1, 2)
    expect(shareDifferenceP(share(first), share(first))).toBe(1)
  })
})
