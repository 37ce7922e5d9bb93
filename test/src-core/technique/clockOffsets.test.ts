import { describe, expect, it } from 'vitest'
import { isoMoment } from '../../../src-core/units/wallClock'
import { analysisOf, type FixtureReading } from '../../helpers/analysisFixture'
import { at } from '../analysis/readingsOf'

/** Tests with meter A, and of most of them one with meter B whose clock is so many minutes ahead. */
function log(minutesAhead: (i: number) => number, tests = 30): FixtureReading[] {
  return Array.from({ length: tests }, (_, i) => {
    const seconds = at('2026-03-01 07:00') + i * 5 * 3600
    const value = 100 + ((i * 29) % 90)
    const moment = (later: number) => isoMoment(seconds + later * 60).replace('T', ' ')
    const first = { at: moment(0), value, meter: 'meter A' }
    return i % 3 === 0
      ? [first]
      : [first, { at: moment(minutesAhead(i)), value: value + 2, meter: 'meter B' }]
  }).flat()
}

const offsets = (rows: FixtureReading[]) => analysisOf(rows).technique.clockOffsets

describe('clocks of two meters', () => {
  it('that differ by a constant are noticed, whichever is ahead', () => {
    expect(offsets(log((i) => 12 + (i % 2)))).toMatchObject([{ first: 0, second: 1, pairs: 20, justSo: 20 }])
    expect(Math.abs((offsets(log(() => 12))[0]?.minutes ?? 0) - 12)).toBeLessThanOrEqual(1)
    expect(offsets(log((i) => (i === 0 ? 0 : -17)))[0].minutes).toBe(-17)
  })

  it('are not suspected where tests follow one another within minutes, at no fixed distance, or are few', () => {
    expect(offsets(log(() => 2))).toEqual([])
    expect(offsets(log((i) => 5 + ((i * 7) % 40)))).toEqual([])
    expect(offsets(log(() => 12, 9))).toEqual([])
    expect(offsets([{ at: '2026-03-01 07:00', value: 100 }])).toEqual([])
  })
})
