import { describe, expect, it } from 'vitest'
import { BANDWIDTH_MINUTES, dayCurve, type CurvePoint } from '../../../src-core/day/curve'
import { FLAG, type Readings } from '../../../src-core/log/readings'
import { fixedChance } from '../../helpers/analysisFixture'
import { at, readingsOf, row } from '../analysis/readingsOf'

const MIDNIGHT = at('2026-03-01 00:00')

/** A reading on day `day` at a minute of it. */
function reading(day: number, minute: number, value: number) {
  return row(MIDNIGHT + day * 86_400 + minute * 60, value)
}

const curveOf = (readings: Readings) => dayCurve(readings, 0, readings.n, 0)

/** `n` readings at hours that people test at, with a spread of three quarters of an hour. */
function invented(n: number, seed: number) {
  const chance = fixedChance(seed)
  const hours = [7, 9.5, 12.5, 18.5, 23.8]
  return Array.from({ length: n }, (_, i) => {
    const minute = hours[i % 5] * 60 + Math.round(90 * (chance() + chance() - 1))
    return reading(Math.floor(i / 5), (minute + 1440) % 1440, Math.round(60 + 200 * chance()))
  })
}

/** The definition written out without any short cut, as an integral of the weighted step function. */
function naive(points: readonly { minute: number; value: number }[], minute: number) {
  const distances = points.map((point) => {
    const apart = Math.abs(point.minute - minute)
    return Math.min(apart, 1440 - apart)
  })
  const k = Math.round(2 * Math.sqrt(points.length))
  const kth = [...distances].sort((a, b) => a - b)[k - 1] ?? Infinity
  const bandwidth = Math.min(90, Math.max(30, kth))
  const weighted = points
    .map(({ value }, i) => ({ value, weight: Math.max(0, 1 - (distances[i] / bandwidth) ** 2) }))
    .filter(({ weight }) => weight > 0)
    .sort((a, b) => a.value - b.value)
  const sum = weighted.reduce((total, { weight }) => total + weight, 0)
  const effectiveN = sum === 0 ? 0 : sum ** 2 / weighted.reduce((total, { weight }) => total + weight ** 2, 0)
  const quantile = (p: number) => {
    const [low, high] = [((effectiveN - 1) * p) / effectiveN, ((effectiveN - 1) * p + 1) / effectiveN]
    let left = 0
    let total = 0
    for (const { value, weight } of weighted) {
      const right = left + weight / sum
      total += value * Math.max(0, Math.min(right, high) - Math.max(left, low))
      left = right
    }
    return total * effectiveN
  }
  return { effectiveN, quantiles: [0.1, 0.25, 0.5, 0.75, 0.9].map(quantile) }
}

const quantilesOf = ({ p10, q1, median, q3, p90 }: CurvePoint) => [p10, q1, median, q3, p90]

describe('the curve of the day', () => {
  it('has a point every 15 minutes of the clock', () => {
    expect(curveOf(readingsOf([])).map(({ minute }) => minute)).toEqual(
      Array.from({ length: 96 }, (_, i) => 15 * i),
    )
  })

  it.each([
    [40, 1],
    [200, 2],
    [900, 3],
  ])('of %i readings is what its definition gives', (n, seed) => {
    const rows = invented(n, seed)
    const curve = curveOf(readingsOf(rows))
    const points = rows.map((one) => ({ minute: ((one.at - MIDNIGHT) / 60) % 1440, value: one.logged }))
    let told = 0
    for (const point of curve) {
      const twin = naive(points, point.minute)
      expect(point.effectiveN).toBeCloseTo(twin.effectiveN, 8)
      if (twin.effectiveN < 5) {
        expect(quantilesOf(point)).toEqual([null, null, null, null, null])
        continue
      }
      told++
      quantilesOf(point).forEach((value, i) => expect(value).toBeCloseTo(twin.quantiles[i], 6))
    }
    expect(told).toBeGreaterThan(5)
  })

  it('gives readings of one minute their type-7 quantiles', () => {
    // Position (n - 1) p by hand: 94.4, 103, 118, 149, 170.6.
    const nine = [84, 97, 103, 110, 118, 131, 149, 162, 205]
    const curve = curveOf(readingsOf(nine.map((value, day) => reading(day, 420, value))))
    const expected = [94.4, 103, 118, 149, 170.6]
    quantilesOf(curve[28]).forEach((value, i) => expect(value).toBeCloseTo(expected[i], 9))
    expect(curve[28].effectiveN).toBeCloseTo(9, 9)
    // Half an hour on, the narrowest bandwidth no longer reaches them.
    expect(curve[30].effectiveN).toBe(0)
  })

  it('is null below five effective readings, and told from five on', () => {
    const four = curveOf(readingsOf([90, 100, 110, 120].map((value, day) => reading(day, 420, value))))
    expect(four[28]).toMatchObject({ effectiveN: 4, median: null, p90: null })
    const five = curveOf(readingsOf([90, 100, 110, 120, 130].map((value, day) => reading(day, 420, value))))
    expect(five[28].median).toBeCloseTo(110, 9)
  })

  it('knows no seam at midnight: the same day turned by half is the same curve turned', () => {
    const rows = invented(300, 5)
    const turned = rows.map((one) => ({ ...one, at: one.at + 43_200 }))
    const first = curveOf(readingsOf(rows))
    const second = curveOf(readingsOf(turned))
    first.forEach((point, i) => {
      const same = second[(i + 48) % 96]
      expect(same.effectiveN).toBeCloseTo(point.effectiveN, 8)
      if (point.median !== null) expect(same.median).toBeCloseTo(point.median, 8)
    })
    expect(first[0].median).not.toBeNull()
  })

  it('borrows nothing from further than an hour and a half', () => {
    const noon = Array.from({ length: 30 }, (_, day) => reading(day, 720, 100 + day))
    const reach = curveOf(readingsOf(noon)).filter(({ effectiveN }) => effectiveN > 0)
    expect(Math.min(...reach.map(({ minute }) => minute))).toBeGreaterThan(720 - BANDWIDTH_MINUTES.most)
  })

  it('leaves out readings without a clock time and kinds not asked for', () => {
    const rows = [90, 100, 110, 120, 130].map((value, day) => reading(day, 0, value))
    const more = [row(MIDNIGHT, 400, { flags: FLAG.dayOnly }), row(MIDNIGHT, 400, { flags: FLAG.sensor })]
    const readings = readingsOf([...rows, ...more])
    const [point] = dayCurve(readings, 0, readings.n, FLAG.sensor)
    expect(point.effectiveN).toBeCloseTo(5, 9)
  })
})
