import { describe, expect, it } from 'vitest'
import { timeOfDay } from '../../../src-core/day/timeOfDay'
import { FLAG } from '../../../src-core/log/readings'
import { readingsOf, row } from '../analysis/readingsOf'

// Nine values whose type-7 quantiles are 94.4, 103, 118, 149 and 170.6 (position (n - 1) p by hand).
const NINE = [84, 97, 103, 110, 118, 131, 149, 162, 205]

describe('figures by hour', () => {
  const readings = readingsOf([
    ...NINE.map((value, i) => row(`2026-03-0${i + 1} 07:${10 + i}`, value)),
    row('2026-03-01 08:00', 300),
    row('2026-03-02 23:59:59', 61),
    row('2026-03-03 00:00', 90),
  ])
  const { hours } = timeOfDay(readings, 0, readings.n)

  it('hold the quantiles of the readings from the full hour to before the next', () => {
    expect(hours).toHaveLength(24)
    const seven = hours[7]
    expect(seven.n).toBe(9)
    expect(seven.p10).toBeCloseTo(94.4, 10)
    expect([seven.q1, seven.median, seven.q3]).toEqual([103, 118, 149])
    expect(seven.p90).toBeCloseTo(170.6, 10)
    expect(hours[8].n).toBe(1)
    expect(hours[23].median).toBe(61)
    expect(hours[0].median).toBe(90)
  })

  it('are null in an hour without readings', () => {
    expect(hours[3]).toEqual({ hour: 3, n: 0, p10: null, q1: null, median: null, q3: null, p90: null })
  })
})

describe('figures by block of three hours', () => {
  const readings = readingsOf([
    row('2026-03-01 06:00', 100),
    row('2026-03-01 08:59:59', 104),
    row('2026-03-01 09:00', 181),
    row('2026-03-02 10:00', 69),
    row('2026-03-02 11:00', 180),
    row('2026-03-02 11:30', 70),
  ])
  const { blocks } = timeOfDay(readings, 0, readings.n)

  it('hold mean, spread and the shares below 70 and above 180', () => {
    expect(blocks).toHaveLength(8)
    expect(blocks[2]).toMatchObject({ fromHour: 6, toHour: 9, n: 2, meanMgDl: 102, percentBelow70: 0 })
    expect(blocks[2].sdMgDl).toBeCloseTo(2 * Math.SQRT2, 12)
    expect(blocks[3]).toMatchObject({
      fromHour: 9,
      n: 4,
      meanMgDl: 125,
      percentBelow70: 25,
      percentAbove180: 25,
    })
  })

  it('are null in a block without readings', () => {
    expect(blocks[7]).toMatchObject({
      fromHour: 21,
      toHour: 24,
      n: 0,
      meanMgDl: null,
      sdMgDl: null,
      percentBelow70: null,
    })
  })
})

describe('readings without a time of day, and kinds left out', () => {
  it('stay out of hours and blocks', () => {
    const readings = readingsOf([
      row('2026-03-01 00:00', 50, { flags: FLAG.dayOnly }),
      row('2026-03-01 00:10', 120, { flags: FLAG.sensor }),
      row('2026-03-01 00:20', 140),
    ])
    const { hours, blocks } = timeOfDay(readings, 0, readings.n, FLAG.sensor)
    expect(hours[0]).toMatchObject({ n: 1, median: 140 })
    expect(blocks[0]).toMatchObject({ n: 1, meanMgDl: 140, percentBelow70: 0 })
  })
})
