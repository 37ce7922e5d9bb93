import { describe, expect, it } from 'vitest'
import { isoDay, isoMoment } from '../../../src-core/units/wallClock'
import { estimatedA1cRange } from '../../../src-core/statistics/estimatedA1c'
import { analysisOf, type FixtureReading } from '../../helpers/analysisFixture'
import { at } from '../analysis/readingsOf'

/** Readings at noon of the days given, from 1 January 2025 on. */
function noons(values: ReadonlyMap<number, FixtureReading['value']>): readonly FixtureReading[] {
  return [...values].map(([day, value]) => ({
    at: isoMoment(at('2025-01-01 12:00') + day * 86_400).replace('T', ' '),
    value,
  }))
}

function days(count: number, value: (day: number) => FixtureReading['value'], from = 0) {
  return new Map(Array.from({ length: count }, (_, i) => [from + i, value(from + i)]))
}

const latestOf = (rows: readonly FixtureReading[], settings = {}) =>
  analysisOf(rows, { settings }).periods[0].latestA1c.asLogged

describe('the A1C estimated from the latest 90 days', () => {
  it('does not speak of the months before: 640 days at 230, then 90 at 140', () => {
    const found = latestOf(noons(days(730, (day) => (day < 640 ? 230 : 140))))
    expect([isoDay(found.from), isoDay(found.to), found.n]).toEqual(['2026-10-03', '2026-12-31', 90])
    // ADAG, Diabetes Care 2008;31:1473: (140 + 46.7) / 28.7; its table between 120 and 152, and between 123 and 147.
    expect(found.estimate?.percent).toBeCloseTo(6.50523, 5)
    expect(found.estimate?.rangePercent[0]).toBeCloseTo(5 + 20 / 32, 10)
    expect(found.estimate?.rangePercent[1]).toBeCloseTo(7 + 17 / 24, 10)
  })

  it('has the range of the table and the error of the mean together', () => {
    // At 6 %: 126 mg/dL, 100 to 152. With a standard error of 10: 126 + sqrt(26^2 + 19.6^2) = 158.560, worked by hand.
    const [lowest] = estimatedA1cRange(126 + Math.sqrt(26 ** 2 + 19.6 ** 2), 10)
    expect(lowest).toBeCloseTo(6, 10)
    const [, highest] = estimatedA1cRange(126 - Math.sqrt(26 ** 2 + 19.6 ** 2), 10)
    expect(highest).toBeCloseTo(6, 10)
    const scattered = latestOf(noons(days(20, (day) => (day % 2 === 0 ? 90 : 190))))
    const [low, high] = estimatedA1cRange(140)
    expect(scattered.meanMgDl).toBe(140)
    expect(scattered.estimate?.rangePercent[0]).toBeLessThan(low ?? NaN)
    expect(scattered.estimate?.rangePercent[1]).toBeGreaterThan(high ?? NaN)
  })

  it.each<[string, readonly FixtureReading[], string | null, object?]>([
    [
      '13 days',
      noons(days(13, () => 140)).flatMap((row) => [row, { ...row, at: row.at.replace('12:', '18:') }]),
      'few-days',
    ],
    ['14 readings', noons(days(14, () => 140)), 'few-readings'],
    ['15 days', noons(days(15, () => 140)), null],
    ['days long ago', noons(new Map([...days(30, () => 140), ...days(2, () => 140, 300)])), 'few-readings'],
    ['HI alone', noons(days(30, () => 'HI')), 'markers'],
    ['a tenth HI', noons(days(30, (day) => (day % 10 === 0 ? 'HI' : 140))), null],
    ['pregnancy', noons(days(30, () => 140)), 'pregnancy', { targetPreset: 'pregnancy' }],
  ])('of %s is held back where it would say too much', (_, rows, why, settings) => {
    const found = latestOf(rows, settings)
    expect(found.heldBack).toBe(why)
    expect(found.estimate === null).toBe(why !== null)
  })

  it('of a log with a year without readings rests on the days behind it', () => {
    const rows = noons(new Map([...days(60, () => 260), ...days(40, () => 140, 425)]))
    const found = latestOf(rows)
    expect([found.n, found.daysWithReadings, found.meanMgDl]).toEqual([40, 40, 140])
  })
})
