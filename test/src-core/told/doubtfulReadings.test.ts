import { expect, it } from 'vitest'
import { doubtfulTold, moversTold } from '../../../src-core/told/doubtfulReadings'
import { analysisOf, type FixtureReading } from '../../helpers/analysisFixture'

/** A test at noon on so many days of March 2026, by its place. */
const noons = (n: number, of: (i: number) => Omit<FixtureReading, 'at'>): FixtureReading[] =>
  Array.from({ length: n }, (_, i) => ({ at: `2026-03-${String(i + 1).padStart(2, '0')} 12:00`, ...of(i) }))

it('shows six with a picture, the lows first, and gives each of the others a row', () => {
  const analysis = analysisOf(noons(20, (i) => ({ value: i >= 18 ? 60 : 120, note: 'control L1' })))
  const { n, shown, listed, unlisted } = doubtfulTold(analysis, analysis.periods[0])
  expect([n, shown.length, listed.length, unlisted]).toEqual([20, 6, 14, 0])
  expect(shown.slice(0, 2).map(({ index }) => index)).toEqual([18, 19])
  expect(new Set([...shown, ...listed].map(({ index }) => index)).size).toBe(20)
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

it('tells once what explains two or more of them and says nothing else of each', () => {
  const explains = (highs: number) => {
    const rows = noons(20, (i) => ({ value: i < highs ? 300 : 120 })).flatMap((row, i) =>
      i < highs ? [row, { at: row.at.replace('12:00', '12:03'), value: 120 }] : [row],
    )
    const analysis = analysisOf(rows)
    return doubtfulTold(analysis, analysis.periods[0]).explains
  }
  expect([explains(1), explains(2)]).toEqual([null, 'sugar-gone-later'])
})
