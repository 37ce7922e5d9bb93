import { describe, expect, it } from 'vitest'
import { analysisOf, inventedLog } from '../../helpers/analysisFixture'

const day = (i: number) => `2026-03-${String(1 + i).padStart(2, '0')}`

describe('the intervals of a period', () => {
  it('hold the figures that they belong to, for each of the seven keys', () => {
    const [{ asLogged, intervals }] = analysisOf(inventedLog({ days: 60 })).periods
    const ci95 = intervals.asLogged.ci95
    expect(Object.keys(ci95 ?? {})).toHaveLength(7)
    for (const [key, [low, high]] of Object.entries(ci95 ?? {})) {
      const figure = asLogged[key as keyof typeof asLogged] as number
      expect([key, low < figure && figure < high]).toEqual([key, true])
    }
  })

  it('of the share of lows are those of the log also where doubtful readings are left out', () => {
    const [{ intervals, checked, asLogged }] = analysisOf(inventedLog({ days: 60, centre: 110 })).periods
    expect(checked.n).toBeLessThan(asLogged.n)
    expect(intervals.checked.ci95?.percentBelow70).toEqual(intervals.asLogged.ci95?.percentBelow70)
    expect(intervals.checked.percentBelow54).toEqual(intervals.asLogged.percentBelow54)
    expect(intervals.checked.ci95?.mean).not.toEqual(intervals.asLogged.ci95?.mean)
  })

  it('are Wilson’s for very low and very high: 0 and 1 of 29', () => {
    // 1 of 29: Newcombe, Stat Med 1998;17:857-872, table I, method 3.
    const rows = Array.from({ length: 29 }, (_, i) => ({ at: `${day(i)} 08:00`, value: i === 3 ? 53 : 120 }))
    const { percentBelow54, percentAbove250 } = analysisOf(rows).periods[0].intervals.asLogged
    expect(percentBelow54?.[0]).toBeCloseTo(0.61, 2)
    expect(percentBelow54?.[1]).toBeCloseTo(17.18, 2)
    expect(percentAbove250?.[0]).toBe(0)
  })

  it('count the days with readings, not the days of the period', () => {
    const on = (days: readonly number[]) =>
      analysisOf(days.map((i) => ({ at: `${day(i)} 08:00`, value: 100 + i }))).periods[0].intervals.asLogged
        .ci95
    expect(on([0, 1, 2, 3, 4, 5, 30])).toBeNull()
    expect(on([0, 1, 2, 3, 4, 5, 6, 7])).not.toBeNull()
  })

  it('follow the target asked for and the seed of the settings', () => {
    const log = inventedLog({ days: 30 })
    const of = (settings: object) => analysisOf(log, { settings }).periods[0].intervals.asLogged.ci95
    const narrow = { targetLow: { mgDl: 80, mmol: 4.4 }, targetHigh: { mgDl: 130, mmol: 7.2 } }
    expect(of(narrow)?.percentInTarget[1]).toBeLessThan(of({})?.percentInTarget[0] ?? NaN)
    expect(of(narrow)?.percentAbove180).toEqual(of({})?.percentAbove180)
    expect(of({ seed: 2 })?.mean).not.toEqual(of({})?.mean)
  })

  it('of a sensor’s readings are drawn by days, and Wilson’s are left out', () => {
    const rows = Array.from({ length: 9 * 48 }, (_, i) => ({
      at: `${day(Math.floor(i / 48))} ${String(Math.floor((i % 48) / 2)).padStart(2, '0')}:${i % 2 ? '30' : '00'}`,
      value: 100 + ((i * 37) % 90),
      sensor: true,
    }))
    const { ci95, percentBelow54, percentAbove250 } = analysisOf(rows).periods[0].intervals.asLogged
    expect(ci95?.mean[0]).toBeLessThan(ci95?.mean[1] ?? NaN)
    expect([percentBelow54, percentAbove250]).toEqual([null, null])
  })
})
