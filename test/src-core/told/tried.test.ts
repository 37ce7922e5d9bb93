import { describe, expect, it } from 'vitest'
import { isMostlyTrials, triedLately } from '../../../src-core/told/tried'
import { analysisOf, type FixtureReading } from '../../helpers/analysisFixture'

const trial = (date: string): readonly FixtureReading[] => [
  { at: `${date} 10:00`, value: 119, note: 'washed hands' },
  { at: `${date} 10:05`, value: 113, note: 'trial: wet finger' },
  { at: `${date} 10:10`, value: 180, note: 'trial: juice on finger' },
  { at: `${date} 10:15`, value: 120, note: 'washed again' },
]
const others = (n: number, date = '2026-03-08'): readonly FixtureReading[] =>
  Array.from({ length: n }, (_, i) => ({ at: `${date} ${13 + i}:00`, value: 120 + i }))

describe('what was tried', () => {
  it('are the changed conditions alone, each with its difference from washed hands', () => {
    const tried = triedLately(analysisOf(trial('2026-03-08')), 3)
    // 113 and 180 beside a baseline that moves from 119 to 120 within a quarter of an hour.
    expect(
      tried.map(({ label, differencePercent, effect }) => [label, Math.round(differencePercent), effect]),
    ).toEqual([
      [expect.stringContaining('wet finger'), -5, false],
      [expect.stringContaining('juice on finger'), 50, true],
    ])
    for (const { smallestVisiblePercent } of tried) expect(smallestVisiblePercent).toBeGreaterThan(5)
  })

  it('are the latest of many', () => {
    const analysis = analysisOf([...trial('2026-03-08'), ...trial('2026-03-09')])
    expect(triedLately(analysis, 9)).toHaveLength(4)
    expect(triedLately(analysis, 1).map(({ label }) => label)).toEqual([
      expect.stringContaining('juice on finger'),
    ])
    expect(triedLately(analysisOf(others(3)), 3)).toEqual([])
  })
})

describe('a log that is mostly trials', () => {
  it('has them for at least half of the tests of a day or two', () => {
    expect(isMostlyTrials(analysisOf(trial('2026-03-08')))).toBe(true)
    expect(isMostlyTrials(analysisOf([...trial('2026-03-08'), ...others(4)]))).toBe(true)
    expect(isMostlyTrials(analysisOf([...trial('2026-03-08'), ...others(5)]))).toBe(false)
    expect(isMostlyTrials(analysisOf([...trial('2026-03-08'), ...others(1, '2026-03-09')]))).toBe(true)
    expect(
      isMostlyTrials(
        analysisOf([...trial('2026-03-08'), ...others(1, '2026-03-09'), ...others(1, '2026-03-10')]),
      ),
    ).toBe(false)
    expect(isMostlyTrials(analysisOf(others(3)))).toBe(false)
  })
})
