import { describe, expect, it } from 'vitest'
import { tQuantile } from '../../../src-core/statistics/distributions'
import { errorByDays } from '../../../src-core/statistics/errorByDays'

// Expected values: R 4.2.2, `error_of` of test/reference/figures.R.

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
