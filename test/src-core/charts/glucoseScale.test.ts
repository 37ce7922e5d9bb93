import { describe, expect, it } from 'vitest'
import { glucoseScale, glucoseTicks, type GlucoseScale } from '../../../src-core/charts/glucoseScale'
import type { GlucoseUnit } from '../../../src-core/units/glucose'

const TOP = 20
const BOTTOM = 220

function scaleOf(values: readonly number[] = []): GlucoseScale {
  return glucoseScale(values, TOP, BOTTOM)
}

describe('the scale of glucose', () => {
  it('runs from 40 to 400 mg/dL where the readings lie within', () => {
    const scale = scaleOf([70, 180, 250])
    expect(scale.y(40)).toBeCloseTo(BOTTOM, 9)
    expect(scale.y(400)).toBeCloseTo(TOP, 9)
  })

  it('draws equal ratios at equal distances', () => {
    const scale = scaleOf()
    for (const ratio of [1.1, 1.5, 2]) {
      const distances = [50, 70, 100, 130, 190].map((value) => scale.y(value) - scale.y(ratio * value))
      for (const distance of distances) expect(distance).toBeCloseTo(distances[0], 9)
      expect(distances[0]).toBeGreaterThan(0)
    }
    // 70 lies as far below 100 as 142.857 lies above it.
    expect(scale.y(70) - scale.y(100)).toBeCloseTo(scale.y(100) - scale.y(100 / 0.7), 9)
  })

  it('gives the band from 40 to 80 three tenths of the height, where an even scale gives a ninth', () => {
    // log 2 / log 10 = 0.301
    const scale = scaleOf()
    expect((scale.y(40) - scale.y(80)) / (BOTTOM - TOP)).toBeCloseTo(0.301, 3)
  })

  it('grows to hold every reading, with room beyond it', () => {
    const scale = scaleOf([31, 596])
    expect(scale.y(31)).toBeLessThan(BOTTOM - 2)
    expect(scale.y(596)).toBeGreaterThan(TOP + 2)
    expect(scale.low).toBeLessThan(31)
    expect(scale.high).toBeGreaterThan(596)
  })

  it('stays a ratio scale when it grows on one side', () => {
    const scale = scaleOf([950])
    expect(scale.low).toBe(40)
    expect(scale.y(50) - scale.y(100)).toBeCloseTo(scale.y(400) - scale.y(800), 9)
  })
})

describe('ticks', () => {
  const ROUND: Readonly<Record<GlucoseUnit, (value: number) => boolean>> = {
    // One digit that is not zero, or 15 and its tenfolds.
    'mg/dL': (value) => /^([1-9]0*|150*)$/.test(String(value)),
    'mmol/L': (value) => /^([1-9]0*|15|0\.[1-9])$/.test(String(value)),
  }

  it.each([
    { unit: 'mg/dL', perUnit: 1 },
    { unit: 'mmol/L', perUnit: 18.0156 },
  ] as const)('are round numbers of $unit and stand where the scale has them', ({ unit, perUnit }) => {
    for (const values of [[], [31, 596], [12, 1000]]) {
      const scale = scaleOf(values)
      const ticks = glucoseTicks(scale, unit, 11)
      expect(ticks.length).toBeGreaterThanOrEqual(4)
      for (const { value, y } of ticks) {
        expect(ROUND[unit](value), String(value)).toBe(true)
        expect(y).toBeCloseTo(scale.y(value * perUnit), 9)
        expect(y).toBeGreaterThanOrEqual(TOP - 1e-9)
        expect(y).toBeLessThanOrEqual(BOTTOM + 1e-9)
      }
    }
  })

  it('are round in the printed unit, not converted from the other', () => {
    const ofMmol = glucoseTicks(scaleOf(), 'mmol/L', 11).map(({ value }) => value)
    expect(ofMmol).toContain(5)
    expect(ofMmol).toContain(10)
    expect(glucoseTicks(scaleOf(), 'mg/dL', 11).map(({ value }) => value)).toContain(100)
  })

  it('keep their distance and rise from low to high', () => {
    for (const gap of [8, 11, 30]) {
      const ticks = glucoseTicks(scaleOf([12, 1000]), 'mg/dL', gap)
      for (let i = 1; i < ticks.length; i++) {
        expect(ticks[i].value).toBeGreaterThan(ticks[i - 1].value)
        expect(ticks[i - 1].y - ticks[i].y).toBeGreaterThanOrEqual(gap)
      }
    }
  })
})
