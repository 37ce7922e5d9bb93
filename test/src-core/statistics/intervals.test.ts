import { describe, expect, it } from 'vitest'
import { medianInterval } from '../../../src-core/statistics/intervals'
import { analysisOf, inventedLog } from '../../helpers/analysisFixture'

const day = (i: number) => `2026-03-${String(1 + i).padStart(2, '0')}`

/** In percent: R 4.2.2. */
const SHARE_1_OF_29 = [0.5598634927, 18.4704870612] as const

const KEYS = [
  'meanMgDl',
  'sdMgDl',
  'cvPercent',
  'estimatedA1cPercent',
  'percentBelow54',
  'percentBelow70',
  'percentInTarget',
  'percentAbove180',
  'percentAbove250',
] as const

describe('the intervals of a period', () => {
  it('hold the figures that they belong to', () => {
    const [{ asLogged, intervals }] = analysisOf(inventedLog({ days: 60 })).periods
    for (const key of KEYS) {
      const [low, high] = intervals.asLogged.ci95?.[key] ?? [NaN, NaN]
      const figure = asLogged[key] ?? NaN
      expect([key, low <= figure && figure <= high && low < high]).toEqual([key, true])
    }
    const [low, high] = intervals.asLogged.balancedMeanCi95MgDl ?? [NaN, NaN]
    expect(low < (asLogged.balancedMeanMgDl ?? NaN) && (asLogged.balancedMeanMgDl ?? NaN) < high).toBe(true)
  })

  it('of the shares of lows are those of the log also where doubtful readings are left out', () => {
    const [{ intervals, checked, asLogged }] = analysisOf(inventedLog({ days: 60, centre: 110 })).periods
    expect(checked.n).toBeLessThan(asLogged.n)
    expect(intervals.checked.ci95?.percentBelow70).toEqual(intervals.asLogged.ci95?.percentBelow70)
    expect(intervals.checked.ci95?.percentBelow54).toEqual(intervals.asLogged.ci95?.percentBelow54)
    expect(intervals.checked.ci95?.meanMgDl).not.toEqual(intervals.asLogged.ci95?.meanMgDl)
  })

  it('of a share with one reading a day and one that is in it are Wilson’s with Student’s t', () => {
    // 1 of 29, one a day: R 4.2.2, share_limits of test/reference/figures.R. Of none, Wilson's of half as many.
    const rows = Array.from({ length: 29 }, (_, i) => ({ at: `${day(i)} 08:00`, value: i === 3 ? 53 : 120 }))
    const { ci95 } = analysisOf(rows).periods[0].intervals.asLogged
    expect(ci95?.percentBelow54[0]).toBeCloseTo(SHARE_1_OF_29[0], 4)
    expect(ci95?.percentBelow54[1]).toBeCloseTo(SHARE_1_OF_29[1], 4)
    expect(ci95?.percentAbove250[0]).toBe(0)
    // 3.841459 / (14.5 + 3.841459).
    expect(ci95?.percentAbove250[1]).toBeCloseTo(20.944, 3)
  })

  it('count the days with readings, not the days of the period', () => {
    const on = (days: readonly number[]) =>
      analysisOf(days.map((i) => ({ at: `${day(i)} 08:00`, value: 100 + i }))).periods[0].intervals.asLogged
    expect(on([0, 1, 2, 3, 4, 5, 30])).toEqual({ ci95: null, balancedMeanCi95MgDl: null })
    expect(on([0, 1, 2, 3, 4, 5, 6, 7]).ci95).not.toBeNull()
  })

  it.each([
    ['one day', [[100, 140, 60]]],
    ['two days', [[100, 140], [60]]],
  ])('are none on %s', (_, days) => {
    const rows = days.flatMap((values, i) =>
      values.map((value, test) => ({ at: `${day(i)} ${String(10 + test)}:00`, value })),
    )
    const [{ intervals, timeOfDay, week }] = analysisOf(rows).periods
    expect(intervals.asLogged.ci95).toBeNull()
    expect(
      timeOfDay.blocks.every(({ ci95 }) => ci95.medianMgDl === null && ci95.percentBelow70 === null),
    ).toBe(true)
    expect([week.weekdays.medianCi95MgDl, week.weekend.medianCi95MgDl]).toEqual([null, null])
  })

  it('of the same value always have no width, and shares those of half as many readings', () => {
    const rows = Array.from({ length: 20 }, (_, i) => ({ at: `${day(i)} 08:00`, value: 104 }))
    const [{ intervals, timeOfDay }] = analysisOf(rows).periods
    const { ci95, balancedMeanCi95MgDl: balancedMean } = intervals.asLogged
    expect([ci95?.meanMgDl, balancedMean, ci95?.sdMgDl, ci95?.cvPercent]).toEqual([
      [104, 104],
      [104, 104],
      [0, 0],
      [0, 0],
    ])
    expect(timeOfDay.blocks[2].ci95.medianMgDl).toEqual([104, 104])
    // 0 of 10: Newcombe, Stat Med 1998;17:857-872, method 3: upper limit 27.75 %.
    expect(ci95?.percentBelow70[0]).toBe(0)
    expect(ci95?.percentBelow70[1]).toBeCloseTo(27.753, 2)
    expect(ci95?.percentInTarget[1]).toBe(100)
  })

  it('of HI alone are those of equal values', () => {
    const rows = Array.from({ length: 9 }, (_, i) => ({ at: `${day(i)} 08:00`, value: 'HI' as const }))
    const { ci95 } = analysisOf(rows).periods[0].intervals.asLogged
    expect(ci95?.meanMgDl).toEqual([600, 600])
    expect(ci95?.percentAbove250[1]).toBe(100)
  })

  it('follow the target asked for, and no seed: nothing is drawn', () => {
    const log = inventedLog({ days: 30 })
    const of = (settings: object) => analysisOf(log, { settings }).periods[0].intervals.asLogged.ci95
    const narrow = { targetLow: { mgDl: 80, mmol: 4.4 }, targetHigh: { mgDl: 130, mmol: 7.2 } }
    expect(of(narrow)?.percentInTarget[1]).toBeLessThan(of({})?.percentInTarget[0] ?? NaN)
    expect(of(narrow)?.percentAbove180).toEqual(of({})?.percentAbove180)
    expect(of({ seed: 2 })).toEqual(of({}))
  })

  it('of a sensor’s readings rest on its days, however many readings a day has', () => {
    const rows = (perDay: number) =>
      Array.from({ length: 9 }, (_, i) =>
        Array.from({ length: perDay }, (_reading, test) => ({
          at: `${day(i)} ${String(test).padStart(2, '0')}:00`,
          value: 100 + 10 * ((i * 5) % 7),
          sensor: true,
        })),
      ).flat()
    const of = (perDay: number) => analysisOf(rows(perDay)).periods[0].intervals.asLogged.ci95
    expect(of(24)?.meanMgDl[0]).toBeCloseTo(of(1)?.meanMgDl[0] ?? NaN, 9)
    expect(of(24)?.percentInTarget).not.toBeNull()
  })
})

describe('the interval of a median', () => {
  it('is none below eight days, whatever the number of values', () => {
    const values = Array.from({ length: 70 }, (_, i) => i)
    expect(
      medianInterval(
        values,
        values.map((i) => i % 7),
      ),
    ).toBeNull()
    expect(
      medianInterval(
        values,
        values.map((i) => i % 8),
      ),
    ).not.toBeNull()
  })

  it('takes values of one day together: days tested ten times are known no better', () => {
    const once = Array.from({ length: 15 }, (_, i) => (7 * i) % 15)
    const days = once.map((_, i) => 2 * i)
    const tenTimes = once.flatMap((value) => Array<number>(10).fill(value))
    const [low, high] = medianInterval(once, days) ?? [NaN, NaN]
    const many = medianInterval(
      tenTimes,
      days.flatMap((of) => Array<number>(10).fill(of)),
    )
    expect(Math.abs((many?.[0] ?? NaN) - low)).toBeLessThanOrEqual(1)
    expect(Math.abs((many?.[1] ?? NaN) - high)).toBeLessThanOrEqual(1)
  })
})
