import { expect, it } from 'vitest'
import { likenessOfDays } from '../../../src-core/findings/likeness'
import { at, readingsOf, row } from '../analysis/readingsOf'

const DAYS = [
  [100, 150],
  [110, 160],
  [180, 220],
  [200, 160],
  [120, 130],
]
const logOf = (days: readonly (readonly number[])[]) =>
  readingsOf(
    days.flatMap((values, day) =>
      values.map((value, i) => row(at(`2026-03-0${day + 1} 08:00`) + 3_600 * i, value)),
    ),
  )
const likeness = (days: readonly (readonly number[])[]) => {
  const readings = logOf(days)
  return likenessOfDays(
    readings,
    Array.from({ length: readings.n }, (_, i) => i),
  )
}

it('tests of one day are alike by the intraclass correlation of their logarithms', () => {
  // R 4.2.2: anova(lm(log(x) ~ day)), and the products of neighbouring day means over the whole variance.
  expect(likeness(DAYS).sameDay).toBeCloseTo(0.4275423319, 9)
  expect(likeness(DAYS).nextDay).toBeCloseTo(0.0391136345, 9)
})

it('of one day, or of one test a day, nothing is known', () => {
  expect(likeness([[100, 120]])).toEqual({ sameDay: 0, nextDay: 0 })
  expect(likeness([[100], [120], [90]])).toEqual({ sameDay: 0, nextDay: 0 })
})

it('lows do not make days alike', () => {
  expect(
    likeness([
      [70, 72],
      [40, 45],
      [70, 70],
      [71, 70],
    ]).sameDay,
  ).toBeLessThan(
    likeness([
      [70, 72],
      [140, 145],
      [70, 70],
      [71, 70],
    ]).sameDay,
  )
})
