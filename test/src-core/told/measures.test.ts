import { describe, expect, it } from 'vitest'
import { toldA1c } from '../../../src-core/told/estimatedA1c'
import { markersTold, nightsHardlyTested } from '../../../src-core/told/markers'
import { balancedBeside, blockMeasure, measureOf, periodMeasure } from '../../../src-core/told/measures'
import { analysisOf, type FixtureReading } from '../../helpers/analysisFixture'

const of = (n: number, belowRange = 0, aboveRange = 0) => ({
  ...{ n, belowRange, aboveRange, mean: 150, sd: 40, cvPercent: 26.7 },
  percentInTarget: 75,
  percentBelow70: 25,
})
const why = (key: Parameters<typeof measureOf>[0], ...counts: Parameters<typeof of>) =>
  measureOf(key, of(...counts)).heldBack?.why ?? null

describe('a figure', () => {
  it('of spread is held back below 15 readings, a mean is not', () => {
    expect([why('sdMgDl', 14), why('cvPercent', 14), why('meanMgDl', 14)]).toEqual([
      'few-readings',
      'few-readings',
      null,
    ])
    expect(why('sdMgDl', 15)).toBeNull()
  })

  it('that takes HI and LO for values is held back where these are more than a tenth', () => {
    expect([why('meanMgDl', 30, 1, 2), why('sdMgDl', 30, 1, 2)]).toEqual([null, null])
    expect([why('meanMgDl', 29, 1, 2), why('sdMgDl', 29, 1, 2)]).toEqual(['markers', 'markers'])
    // Of those that are left none is a marker: what is held back of all is held back of them.
    expect(measureOf('meanMgDl', of(26), { base: of(29, 0, 3) }).heldBack?.why).toBe('markers')
  })

  it('that is a share of few readings is told as a count, and never held back', () => {
    expect(measureOf('percentInTarget', of(12)).counted).toEqual({ count: 9, n: 12 })
    expect(measureOf('percentBelow70', of(12))).toMatchObject({
      heldBack: null,
      counted: { count: 3, n: 12 },
    })
    expect(measureOf('percentInTarget', of(15)).counted).toBeNull()
  })

  it('of a block of hours needs ten readings of three days, its lows none', () => {
    const median = (n: number, days: number) =>
      blockMeasure('medianMgDl', { ...of(n), days, medianMgDl: 140 }).heldBack
    expect(median(9, 9)?.why).toBe('few-readings')
    expect(median(11, 2)).toEqual({ why: 'few-block-days', fewest: 3 })
    expect(median(10, 3)).toBeNull()
    expect(blockMeasure('readingsBelow70', { ...of(2), days: 1, readingsBelow70: 1 })).toMatchObject({
      heldBack: null,
      points: [1],
    })
  })

  it('of a period has its interval, of an SD on fewer than 60 days a wider one', () => {
    const rows = Array.from({ length: 40 }, (_, i) => ({
      at: `2026-0${3 + Math.floor(i / 20)}-${String(1 + (i % 20)).padStart(2, '0')} 08:00`,
      value: 100 + ((i * 37) % 90),
    }))
    const [period] = analysisOf(rows).periods
    const { ci95 } = period.intervals.asLogged
    expect(periodMeasure('meanMgDl', period).interval).toEqual(ci95?.meanMgDl)
    const [low, high] = periodMeasure('sdMgDl', period).interval ?? [NaN, NaN]
    expect(low).toBeLessThan(ci95?.sdMgDl[0] ?? NaN)
    expect(high).toBeGreaterThan(ci95?.sdMgDl[1] ?? NaN)
  })
})

describe('the mean balanced over the day', () => {
  const beside = (mean: number, balancedMean: number | null, balancedBlocks: number) =>
    balancedBeside({ meanMgDl: mean, balancedMeanMgDl: balancedMean, balancedBlocks })

  it('stands beside the mean where the hours of testing moved that by more than 5 %', () => {
    expect(beside(160, 151.9, 6)).toBe(151.9)
    expect(beside(160, 168.1, 6)).toBe(168.1)
    expect(beside(160, 152, 6)).toBeNull()
    expect(beside(160, 168, 6)).toBeNull()
  })

  it('stands for no day of which less than half was tested', () => {
    expect(beside(160, 120, 4)).toBe(120)
    expect(beside(160, 120, 3)).toBeNull()
    expect(beside(160, null, 0)).toBeNull()
  })
})

describe('HI and LO', () => {
  const some = (n: number, value: FixtureReading['value'], month: string): readonly FixtureReading[] =>
    Array.from({ length: n }, (_, i) => ({
      at: `2026-${month}-${String(i + 1).padStart(2, '0')} 08:00`,
      value,
    }))
  const told = (numbers: number, markers: number) => {
    const analysis = analysisOf([...some(numbers, 150, '03'), ...some(markers, 'HI', '04')])
    return markersTold(analysis, analysis.periods[0])
  }

  it('are many above a tenth; then no A1C of the rest is estimated', () => {
    expect(told(27, 3)).toMatchObject({ many: false, without: { sd: { heldBack: null } } })
    expect(told(26, 3)).toMatchObject({ many: true, aboveRange: 3, without: { a1c: null } })
    expect(told(0, 3)?.without).toBeNull()
    expect(told(3, 0)).toBeNull()
  })
})

describe('what stands with the estimated A1C', () => {
  it('is that nights were hardly tested, below one reading in twenty', () => {
    const nights = (atNight: number) => {
      const rows = Array.from({ length: 20 }, (_, i) => ({
        at: `2026-03-${String(i + 1).padStart(2, '0')} ${i < atNight ? '02' : '12'}:00`,
        value: 120 + i,
      }))
      const analysis = analysisOf(rows)
      return nightsHardlyTested(analysis, analysis.periods[0])
    }
    expect(nights(0)).toEqual({ atNight: 0, n: 20 })
    expect(nights(1)).toBeNull()
  })

  it('is why there is none', () => {
    const latest = {
      ...{ from: 1, to: 90, n: 20, belowRange: 0, aboveRange: 0, daysWithReadings: 9, meanMgDl: 150 },
      estimate: null,
      heldBack: 'few-days',
    } as const
    expect(toldA1c(latest).heldBack).toEqual({ why: 'few-days', fewest: 14, within: 90 })
  })
})
