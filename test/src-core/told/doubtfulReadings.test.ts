import { expect, it } from 'vitest'
import { doubtfulTold, moversTold } from '../../../src-core/told/doubtfulReadings'
import { analysisOf, type FixtureReading } from '../../helpers/analysisFixture'

/** A test at noon on so many days of March 2026, by its place. */
const noons = (n: number, of: (i: number) => Omit<FixtureReading, 'at'>): FixtureReading[] =>
  Array.from({ length: n }, (_, i) => ({ at: `2026-03-${String(i + 1).padStart(2, '0')} 12:00`, ...of(i) }))

it('shows ten with a picture, the lows first, and counts the reasons of those that get a line', () => {
  const analysis = analysisOf(noons(20, (i) => ({ value: i >= 18 ? 60 : 120, note: 'control L1' })))
  const { n, shown, listed, unlisted, reasons } = doubtfulTold(analysis, analysis.periods[0])
  expect([n, shown.length, listed.length, unlisted]).toEqual([20, 10, 10, 0])
  expect(shown.slice(0, 2).map(({ index }) => index)).toEqual([18, 19])
  expect(reasons).toContainEqual({ code: 'looks-like-control-solution', n: 10 })
})

it('tells three readings of one fault together, two of it one by one', () => {
  const cold = (n: number) => {
    const analysis = analysisOf(noons(20, (i) => ({ value: 120, note: i < n ? 'meter at 2 °C' : '' })))
    const { together, shown } = doubtfulTold(analysis, analysis.periods[0])
    return [together.map(({ indexes }) => indexes.length), shown.length]
  }
  expect(cold(2)).toEqual([[], 2])
  expect(cold(3)).toEqual([[3], 0])
})

it('names as movers three at most that move mean or SD as printed', () => {
  const movers = (value: number) => {
    const analysis = analysisOf(
      noons(20, (i) => ({ value: i < 5 ? value : 120, note: i < 5 ? 'control L1' : '' })),
    )
    return moversTold(analysis, analysis.periods[0]).length
  }
  expect([movers(300), movers(120)]).toEqual([3, 0])
})
