import { describe, expect, it } from 'vitest'
import { errorByDays, tQuantile, twoSidedP } from '../../../src-core/statistics/errorByDays'

// Expected values: R 4.2.2, `qt`, `pt`, and `error_of` of test/reference/figures.R.

describe('Student’s t', () => {
  it.each([
    [2, 4.30265272974946],
    [2.1, 4.11215275817388],
    [2.5, 3.57465484200369],
    [3, 3.18244630528371],
    [3.3, 3.02487446184081],
    [4, 2.77644510519779],
    [5.7, 2.47847130870061],
    [7, 2.36462425159278],
    [8.25, 2.29389720837558],
    [12.5, 2.16918594271254],
    [20, 2.08596344726586],
    [30.3, 2.04142487269985],
    [77.7, 1.99096814897374],
    [89, 1.98697869950628],
    [150.5, 1.97585194920089],
    [364, 1.96650256879936],
    [999.9, 1.96233931864261],
    [2500.5, 1.96091315487113],
    [5000, 1.96043855170651],
    [9999.5, 1.9602012517554],
    [10000, 1.96020123989063],
  ])('with %d degrees of freedom has R’s quantile, to 1e-7 of it', (df, q) => {
    expect(Math.abs(tQuantile(df) / q - 1)).toBeLessThan(1e-7)
  })

  it.each([
    [0.5, 2, 0.666666666666667],
    [2.3, 2.5, 0.122479664424155],
    [4.1, 7, 0.00457304017713994],
    [2.3, 30.3, 0.0285080380024669],
    [3, 364, 0.00288570981003138],
    [6, 10000, 2.04161847292262e-9],
  ])('%d with %d degrees of freedom has R’s p, of either sign', (t, df, p) => {
    expect(twoSidedP(t, df)).toBeCloseTo(p, 8)
    expect(twoSidedP(-t, df)).toBe(twoSidedP(t, df))
  })
})

describe('the error of a figure by days', () => {
  const Z = [3, 1, -2, 4, 0, -1, -3, 2, 5, -4]
  it.each([
    ['days with gaps', Z, [1, 2, 3, 4, 6, 7, 8, 12, 13, 14], 9.57427107756338, 9],
    [
      'two pairs of neighbours alone',
      Z,
      [1, 2, 4, 6, 8, 10, 12, 14, 16, 17],
      10.5847549351431,
      7.18181818181818,
    ],
    [
      'a trend, whose likeness is capped',
      [5, 4, 4, 3, 2, 1, -1, -2, -4, -5, -4, -3],
      null,
      37.338744196636,
      3,
    ],
    ['days that turn about', [1, -1, 1, -1, 1, -1, 1, -1], null, 3.02371578407382, 7],
    ['days all alike', Array<number>(9).fill(2), null, 0, 6.2],
  ])('of %s is R’s', (_, z, days, se, df) => {
    const error = errorByDays(Float64Array.from(z), days ?? z.map((_value, i) => 20_000 + i))
    expect(error.se).toBeCloseTo(se, 10)
    expect(error.df).toBeCloseTo(df, 10)
    expect(error.q).toBe(tQuantile(error.df))
  })
})
