import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { FLAG, type Readings } from '../../../src-core/log/readings'
import { contradictions } from '../../../src-core/technique/reasons/contradictedByRepeat'
import { at, readingsOf, row } from '../analysis/readingsOf'

const START = at('2026-03-01 07:00')

/** Limits of ISO 15197:2013 as a 95 % band of either reading, and 2 mg/dL a minute; binary fractions miss it by less than 1e-9. */
function beyondAllowed(readings: Readings, i: number, j: number): number {
  const [a, b] = [readings.mgDl[i], readings.mgDl[j]]
  const told = readings.flags[i] & readings.flags[j] & FLAG.offset
  const instant = (k: number) => readings.at[k] - (told ? readings.offsetMinutes[k] * 60 : 0)
  const minutes = Math.abs(instant(j) - instant(i)) / 60
  return Math.abs(a - b) - (0.15 * Math.hypot(Math.max(a, 100), Math.max(b, 100)) + 2 * minutes)
}

describe('members of a repeat set that contradict one another', () => {
  const sets = fc.array(
    fc.record({
      second: fc.oneof(fc.nat(20), fc.nat(3600)),
      value: fc.oneof(fc.integer({ min: 80, max: 130 }), fc.integer({ min: 20, max: 600 })),
      offset: fc.constantFrom(null, 0, 30),
    }),
    { minLength: 2, maxLength: 60 },
  )

  it.each([
    ['compared each with each', Infinity],
    ['looked up in time', 0],
  ])('are told by the one that each disagrees with most, %s', (_, few) => {
    fc.assert(
      fc.property(sets, (tests) => {
        const readings = readingsOf(
          tests.map(({ second, value, offset }) =>
            row(START + second, value, {
              flags: offset === null ? 0 : FLAG.offset,
              offsetMinutes: offset ?? 0,
            }),
          ),
        )
        const members = tests.map((_test, i) => i)
        const found = contradictions(readings, members, few)
        for (const i of members) {
          const over = members.map((j) => (i === j ? -Infinity : beyondAllowed(readings, i, j)))
          const most = Math.max(...over)
          const reason = found[i]
          if (most < -1e-6) expect(reason).toBeNull()
          if (most > 1e-6) expect(over[reason?.evidence.other ?? NaN]).toBeCloseTo(most, 6)
          // Of equal ones the earlier.
          if (reason) expect(over.findIndex((one) => Math.abs(one - most) < 1e-6)).toBe(reason.evidence.other)
        }
      }),
      { seed: 5, numRuns: 1000 },
    )
  })

  it.each<[string, (i: number, n: number) => { second: number; value: number }]>([
    ['all within a minute', (i) => ({ second: i % 60, value: 60 + ((i * 7919) % 300) })],
    ['all of one moment and all different', (i, n) => ({ second: 0, value: 60 + (300 * i) / n })],
    ['two values taken in turns', (i) => ({ second: i, value: i % 2 ? 100 : 300 })],
    ['all that agree', (i) => ({ second: i, value: 100 + (i % 10) })],
    ['steady but for the last', (i, n) => ({ second: i, value: i === n - 1 ? 600 : 100 })],
    ['a steep rise', (i) => ({ second: 20 * i, value: 60 + ((i * 0.8) % 500) })],
  ])('are found without comparing each with each: %s', (_, testOf) => {
    const lookedAt = (n: number): number => {
      const readings = readingsOf(
        Array.from({ length: n }, (_none, i) => testOf(i, n)).map(({ second, value }) =>
          row(START + second, value),
        ),
      )
      let count = 0
      const sqrt = Math.sqrt
      Math.sqrt = (value) => {
        count++
        return sqrt(value)
      }
      try {
        contradictions(
          readings,
          Array.from({ length: n }, (_none, i) => i),
        )
      } finally {
        Math.sqrt = sqrt
      }
      return count / n
    }
    const few = lookedAt(500)
    expect(few).toBeGreaterThan(0)
    expect(lookedAt(8000)).toBeLessThan(3 * few + 10)
  })
})
