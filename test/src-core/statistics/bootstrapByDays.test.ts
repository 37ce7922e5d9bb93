import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { DEFAULT_SETTINGS } from '../../../src-core/analysis/settings'
import { FLAG, isAbove, isBelow, type Readings } from '../../../src-core/log/readings'
import { LIMITS } from '../../../src-core/reference/limits'
import { bootstrapByDays, type Ci95, drawnDay } from '../../../src-core/statistics/bootstrapByDays'
import { dayTotals } from '../../../src-core/statistics/dayTotals'
import { randomSource } from '../../../src-core/statistics/randomSource'
import { dayOf } from '../../../src-core/units/wallClock'
import { readingsOf, row } from '../analysis/readingsOf'

/** The stream of the author's demonstration, which the draws of days use. */
const pcg32 = (seed: number, stream = 54) => randomSource(seed, stream).next

const SEED = 1

/** Readings with these values, a list for each day from 1 March 2026 on, three hours apart; mg/dL. */
function logOf(days: readonly (readonly number[])[], order = days.map((_, i) => i)): Readings {
  return readingsOf(
    order.flatMap((from, day) =>
      days[from].map((value, i) => row(`2026-03-${day + 1} 0${i % 10}:${10 + Math.floor(i / 10)}`, value)),
    ),
  )
}

function ci95Of(readings: Readings, seed = SEED, leaveOut = 0): Ci95 | null {
  const kept = Array.from({ length: readings.n }, (_, i) => i).filter((i) => !(readings.flags[i] & leaveOut))
  const mean = kept.reduce((sum, i) => sum + readings.mgDl[i], 0) / kept.length
  return bootstrapByDays(
    dayTotals(readings, { start: 0, end: readings.n }, leaveOut, DEFAULT_SETTINGS, mean),
    seed,
  )
}

/** Type 7 as its authors define it. */
function typeSeven(values: readonly number[], p: number): number {
  const sorted = [...values].sort((a, b) => a - b)
  const place = (sorted.length - 1) * p
  const below = Math.floor(place)
  return sorted[below] + (place - below) * ((sorted[below + 1] ?? 0) - sorted[below])
}

/** The slow, obvious way: every resample is a list of readings from which each figure is worked out anew. */
function twin(readings: Readings, seed: number): Record<string, [number, number]> {
  const byDay = new Map<number, number[]>()
  for (let i = 0; i < readings.n; i++) {
    byDay.set(dayOf(readings.at[i]), [...(byDay.get(dayOf(readings.at[i])) ?? []), i])
  }
  const totals = (day: readonly number[]) => {
    const count = (is: (i: number) => boolean) => day.filter(is).length
    const centre = readings.mgDl.length === 0 ? 0 : meanOf(readings)
    const excess = day.map((i) => readings.mgDl[i] - centre)
    return [
      day.length,
      excess.reduce((sum, x) => sum + x, 0),
      excess.reduce((sum, x) => sum + x * x, 0),
      count((i) => isBelow(readings, i, LIMITS.low)),
    ]
  }
  const days = [...byDay.values()].sort((a, b) => {
    const [left, right] = [totals(a), totals(b)]
    const place = left.findIndex((value, i) => value !== right[i])
    return place === -1 ? 0 : left[place] - right[place]
  })
  const next = pcg32(seed)
  const figures: Record<string, number[]> = {}
  const keep = (name: string, value: number) => (figures[name] ??= []).push(value)
  for (let resample = 0; resample < 2000; resample++) {
    const drawn = days.flatMap(() => days[drawnDay(next(), days.length)])
    const values = drawn.map((i) => readings.mgDl[i])
    const mean = values.reduce((sum, x) => sum + x, 0) / values.length
    const sd = Math.sqrt(values.reduce((sum, x) => sum + (x - mean) ** 2, 0) / (values.length - 1))
    const percent = (is: (i: number) => boolean) => (100 * drawn.filter(is).length) / drawn.length
    keep('mean', mean)
    keep('sd', sd)
    keep('cvPercent', (100 * sd) / mean)
    keep('estimatedA1cPercent', (mean + 46.7) / 28.7)
    keep(
      'percentBelow70',
      percent((i) => isBelow(readings, i, LIMITS.low)),
    )
    keep(
      'percentInTarget',
      percent((i) => !isBelow(readings, i, LIMITS.low) && !isAbove(readings, i, LIMITS.high)),
    )
    keep(
      'percentAbove180',
      percent((i) => isAbove(readings, i, LIMITS.high)),
    )
  }
  return Object.fromEntries(
    Object.entries(figures).map(([name, all]) => [name, [typeSeven(all, 0.025), typeSeven(all, 0.975)]]),
  )
}

function meanOf(readings: Readings): number {
  let sum = 0
  for (let i = 0; i < readings.n; i++) sum += readings.mgDl[i]
  return sum / readings.n
}

/** Eight to fifteen days of one to six readings; whole numbers from 30 to 400. */
const someDays = fc.array(fc.array(fc.integer({ min: 30, max: 400 }), { minLength: 1, maxLength: 6 }), {
  minLength: 8,
  maxLength: 15,
})

/** Twelve days whose readings lie below, in and above the target. */
const DAYS = [
  [112, 95, 187],
  [142, 68],
  [210, 155, 130, 99],
  [174],
  [256, 121, 144],
  [61, 90, 133, 171],
  [188, 202],
  [101, 118, 149],
  [66],
  [139, 140, 141],
  [230, 84],
  [97, 103, 205],
]

describe('intervals by resampling whole days', () => {
  it('are those of the slow, obvious way on any log, from the same draws', () => {
    fc.assert(
      fc.property(someDays, fc.integer({ min: 0, max: 2 ** 32 }), (days, seed) => {
        const readings = logOf(days)
        const found = ci95Of(readings, seed)
        for (const [name, [low, high]] of Object.entries(twin(readings, seed))) {
          if (name.startsWith('percent') && isWholeOrNone(readings, name)) continue
          const limits = found?.[name as keyof Ci95]
          expect(limits?.[0]).toBeCloseTo(low, 5)
          expect(limits?.[1]).toBeCloseTo(high, 5)
        }
      }),
      { numRuns: 12, seed: 20260301 },
    )
  }, 60_000)

  it('hold the figure itself, and keep all readings of a drawn day together', () => {
    const found = ci95Of(logOf(DAYS))
    expect(found?.mean[0]).toBeLessThan(meanOf(logOf(DAYS)))
    expect(found?.mean[1]).toBeGreaterThan(meanOf(logOf(DAYS)))
    // Days that are all alike in themselves: each counts as one value, however often it was tested.
    const once = ci95Of(logOf(Array.from({ length: 10 }, (_, i) => [100 + 10 * i])))
    const tenTimes = ci95Of(logOf(Array.from({ length: 10 }, (_, i) => Array<number>(10).fill(100 + 10 * i))))
    expect(tenTimes?.mean[0]).toBeCloseTo(once?.mean[0] ?? NaN, 9)
    expect(tenTimes?.mean[1]).toBeCloseTo(once?.mean[1] ?? NaN, 9)
  })

  it('lie about 1.96 standard errors to each side where every day has one reading', () => {
    // The ideal standard error of a bootstrapped mean is sqrt(sum of squares / n) / sqrt(n): Efron and Tibshirani,
    // An Introduction to the Bootstrap, 1993, chapter 6. Thirty values, 101 to 130: sqrt(899 / 12 / 30) = 1.580.
    const found = ci95Of(logOf(Array.from({ length: 30 }, (_, i) => [101 + i])))
    const expected = 1.96 * Math.sqrt(899 / 12 / 30)
    expect(115.5 - (found?.mean[0] ?? NaN)).toBeGreaterThan(0.9 * expected)
    expect(115.5 - (found?.mean[0] ?? NaN)).toBeLessThan(1.1 * expected)
    expect((found?.mean[1] ?? NaN) - 115.5).toBeGreaterThan(0.9 * expected)
    expect((found?.mean[1] ?? NaN) - 115.5).toBeLessThan(1.1 * expected)
  })

  it('are the same limits at every run and on every platform', () => {
    expect(ci95Of(logOf(DAYS))).toEqual(ci95Of(logOf(DAYS)))
    expect(ci95Of(logOf(DAYS), 2)).not.toEqual(ci95Of(logOf(DAYS), 1))
  })

  it('do not depend on the order of the rows, nor on which day was which', () => {
    const rows = DAYS.flatMap((values, day) =>
      values.map((value, i) => ({ ...row(`2026-03-${day + 1} 0${i}:10`, value), line: 100 * day + i })),
    )
    expect(ci95Of(readingsOf([...rows].reverse()))).toEqual(ci95Of(readingsOf(rows)))
    const turned = DAYS.map((_, i) => (i * 5) % DAYS.length)
    const asWritten = ci95Of(logOf(DAYS))
    const reordered = ci95Of(logOf(DAYS, turned))
    expect(reordered?.percentInTarget).toEqual(asWritten?.percentInTarget)
    expect(reordered?.mean[0]).toBeCloseTo(asWritten?.mean[0] ?? NaN, 9)
    expect(reordered?.sd[1]).toBeCloseTo(asWritten?.sd[1] ?? NaN, 9)
  })

  it('leave out what the figure leaves out', () => {
    const rows = DAYS.flatMap((values, day) =>
      values.map((value, i) => row(`2026-03-${day + 1} 0${i}:10`, value)),
    )
    const more = [
      ...rows,
      row('2026-03-04 23:00', 400, { flags: FLAG.sensor }),
      row('2026-04-20 12:00', 30, { flags: FLAG.sensor }),
    ]
    expect(ci95Of(readingsOf(more), SEED, FLAG.sensor)).toEqual(ci95Of(readingsOf(rows)))
  })
})

describe('at the edges', () => {
  it.each([0, 1, 2, 7])('there is no interval of %d days with readings', (days) => {
    expect(ci95Of(logOf(DAYS.slice(0, days)))).toBeNull()
  })

  it('there is none where two readings, or many, fall on too few days', () => {
    expect(ci95Of(logOf([[100, 120]]))).toBeNull()
    expect(ci95Of(logOf(Array.from({ length: 7 }, () => Array<number>(60).fill(110))))).toBeNull()
  })

  it('there is one of eight days', () => {
    const found = ci95Of(logOf(DAYS.slice(0, 8)))
    expect(
      Object.values(found ?? {})
        .flat()
        .every(Number.isFinite),
    ).toBe(true)
    expect(found?.sd[0]).toBeLessThan(found?.sd[1] ?? NaN)
  })

  it('equal readings have no spread, and shares of 0 and 100 % Wilson’s limits', () => {
    const found = ci95Of(logOf(Array.from({ length: 10 }, () => [104, 104])))
    expect(found?.mean).toEqual([104, 104])
    expect(found?.sd).toEqual([0, 0])
    expect(found?.cvPercent).toEqual([0, 0])
    // 0 of 20: Newcombe, Stat Med 1998;17:857-872, table I, method 3.
    expect(found?.percentBelow70[0]).toBe(0)
    expect(found?.percentBelow70[1]).toBeCloseTo(16.11, 2)
    expect(found?.percentAbove180).toEqual(found?.percentBelow70)
    expect(found?.percentInTarget[0]).toBeCloseTo(100 - 16.11, 2)
    expect(found?.percentInTarget[1]).toBe(100)
  })
})

describe('a drawn day', () => {
  it('is each of the days equally often over all numbers of 32 bits', () => {
    expect(drawnDay(0, 365)).toBe(0)
    expect(drawnDay(2 ** 32 - 1, 365)).toBe(364)
    // The numbers that draw a day span 2^32 / days, to within one.
    expect(drawnDay(Math.ceil(2 ** 32 / 365) - 1, 365)).toBe(0)
    expect(drawnDay(Math.ceil(2 ** 32 / 365), 365)).toBe(1)
  })
})

function isWholeOrNone(readings: Readings, name: string): boolean {
  const is = {
    percentBelow70: (i: number) => isBelow(readings, i, LIMITS.low),
    percentAbove180: (i: number) => isAbove(readings, i, LIMITS.high),
    percentInTarget: (i: number) => !isBelow(readings, i, LIMITS.low) && !isAbove(readings, i, LIMITS.high),
  }[name]
  if (is === undefined) throw new Error(name)
  const found = Array.from({ length: readings.n }, (_, i) => is(i))
  return found.every(Boolean) || !found.some(Boolean)
}
