import { describe, expect, it } from 'vitest'
import type { Readings } from '../../../src-core/log/readings'
import { daysWithoutReadings, gapsTold } from '../../../src-core/told/gaps'
import { isoDay, parseIsoDay } from '../../../src-core/units/wallClock'
import { readingsOf, row } from '../analysis/readingsOf'

function gapsOf(
  readings: Readings,
  fewest: number,
  indexes = Array.from({ length: readings.n }, (_, i) => i),
) {
  return daysWithoutReadings(readings, indexes, fewest).map(
    ({ from, to }) => `${isoDay(from)}..${isoDay(to)}`,
  )
}

describe('days without readings', () => {
  // No reading on 2 March (one day), nor from 5 to 8 March (four days).
  const readings = readingsOf(
    ['2026-03-01 07:00', '2026-03-03 23:59', '2026-03-04 00:00', '2026-03-09 07:00'].map((at) =>
      row(at, 104),
    ),
  )

  it('run from the day after one reading to the day before the next, both included', () => {
    expect(gapsOf(readings, 1)).toEqual(['2026-03-02..2026-03-02', '2026-03-05..2026-03-08'])
  })

  it('are told from the length asked for on, that length included', () => {
    expect(gapsOf(readings, 4)).toEqual(['2026-03-05..2026-03-08'])
    expect(gapsOf(readings, 5)).toEqual([])
  })

  it('look only at the readings given', () => {
    expect(gapsOf(readings, 4, [0, 3])).toEqual(['2026-03-02..2026-03-08'])
  })

  it('span months and years', () => {
    const winter = readingsOf([row('2025-12-30 07:00', 104), row('2026-01-10 07:00', 104)])
    expect(gapsOf(winter, 5)).toEqual(['2025-12-31..2026-01-09'])
  })

  it('are none for one reading and for none', () => {
    expect(gapsOf(readings, 1, [0])).toEqual([])
    expect(gapsOf(readings, 1, [])).toEqual([])
  })
})

describe('what is missing of a log', () => {
  const days = [1, 7, 20, 27, 40, 60].map((day) =>
    new Date(Date.UTC(2026, 2, day)).toISOString().slice(0, 10),
  )
  const readings = readingsOf(days.map((day) => row(`${day} 07:00`, 104)))
  const last = parseIsoDay('2026-04-29') ?? NaN
  const told = (madeAt: number) => gapsTold(readings, [0, 1, 2, 3, 4, 5], 'finger-stick', madeAt)

  it('is told by its longest stretches, in order of time, with how many more there are', () => {
    expect(told(last)?.longest.map(({ from, to }) => to - from + 1)).toEqual([12, 12, 19])
    expect(told(last)).toMatchObject({ ended: null, further: 2 })
  })

  it('is its age in days, and in years where days say nothing', () => {
    expect(told(last + 14)?.ended).toEqual({ days: 14 })
    expect(told(last + 730)?.ended).toEqual({ days: 730 })
    expect(told(last + 731)?.ended).toEqual({ moreThanYears: 2 })
  })

  it('is nothing where the log is whole', () => {
    expect(gapsTold(readings, [0, 1].slice(0, 1), 'finger-stick', last)).toBeNull()
  })
})
