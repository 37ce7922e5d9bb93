import { describe, expect, it } from 'vitest'
import type { Analysis } from '../../../src-core/analysis/analysis'
import { periodReadings } from '../../../src-core/analysis/periodReadings'
import type { Comparison, MeasureName } from '../../../src-core/compare/comparison'
import type { DayTable } from '../../../src-core/compare/dayTable'
import { standardisedMean } from '../../../src-core/compare/sameTimesOfDay'
import { hasClockTime, type Readings } from '../../../src-core/log/readings'
import { mean, sampleSd } from '../../../src-core/statistics/moments'
import { quantileR7 } from '../../../src-core/statistics/quantile'
import { newcombeInterval } from '../../../src-core/statistics/newcombe'
import { randomSource } from '../../../src-core/statistics/randomSource'
import { fromMgDl } from '../../../src-core/units/glucose'
import { dayOf, parseIsoDay, secondOfDay } from '../../../src-core/units/wallClock'
import { analysisOf, type FixtureReading, inventedLog } from '../../helpers/analysisFixture'

function span(from: string, to: string) {
  return { from: parseIsoDay(from) ?? NaN, to: parseIsoDay(to) ?? NaN }
}

const MARCH = span('2026-03-02', '2026-03-31')
const APRIL = span('2026-04-01', '2026-04-30')

/** March around 142 mg/dL, April around 120, with lows and highs in both. */
const LOG: readonly FixtureReading[] = [
  ...inventedLog({ days: 30, spread: 0.45, seed: 3 }),
  ...inventedLog({ days: 30, firstDay: '2026-04-01', centre: 120, spread: 0.4, seed: 4 }),
]

function compared(
  rows: readonly FixtureReading[],
  period = APRIL,
  versus = MARCH,
  options: Parameters<typeof analysisOf>[1] = {},
): Analysis & { comparison: Comparison } {
  const analysis = analysisOf(rows, { ...options, period, versus })
  if (analysis.comparison === null) throw new Error('nothing was compared')
  return { ...analysis, comparison: analysis.comparison }
}

function measure({ comparison }: { comparison: Comparison }, name: MeasureName) {
  const found = comparison.measures.find((one) => one.measure === name)
  if (!found) throw new Error(`no ${name}`)
  return found
}

/** `n` tests at 8:00 of consecutive days. */
function mornings(firstDay: string, values: readonly number[]): FixtureReading[] {
  const first = Date.parse(`${firstDay}T08:00Z`)
  return values.map((value, i) => ({
    at: new Date(first + i * 86_400_000).toISOString().slice(0, 16).replace('T', ' '),
    value,
  }))
}

/** Index lists of a period's readings, one for each day with readings. */
function readingsByDay(analysis: Analysis, which: 0 | 1): number[][] {
  const days = new Map<number, number[]>()
  for (const index of periodReadings(analysis, analysis.periods[which])) {
    const day = dayOf(analysis.readings.at[index])
    days.set(day, [...(days.get(day) ?? []), index])
  }
  return [...days.values()]
}

const SLOW: Readonly<Record<string, (readings: Readings, indexes: readonly number[]) => number>> = {
  meanMgDl: (readings, indexes) => mean(valuesOf(readings, indexes)) ?? NaN,
  medianMgDl: (readings, indexes) => quantileR7(valuesOf(readings, indexes).sort(), 0.5) ?? NaN,
  sdMgDl: (readings, indexes) => sampleSd(valuesOf(readings, indexes)) ?? NaN,
  cvPercent: (readings, indexes) => {
    const values = valuesOf(readings, indexes)
    return (100 * (sampleSd(values) ?? NaN)) / (mean(values) ?? NaN)
  },
  percentBelow70: (readings, indexes) => shareOf(readings, indexes, (mgDl) => mgDl < 70),
  percentInTarget: (readings, indexes) => shareOf(readings, indexes, (mgDl) => mgDl >= 70 && mgDl <= 180),
  percentAbove250: (readings, indexes) => shareOf(readings, indexes, (mgDl) => mgDl > 250),
}

function valuesOf(readings: Readings, indexes: readonly number[]): Float64Array {
  return Float64Array.from(indexes, (i) => readings.mgDl[i])
}

function shareOf(readings: Readings, indexes: readonly number[], holds: (mgDl: number) => boolean): number {
  return (100 * indexes.filter((i) => holds(readings.mgDl[i])).length) / indexes.length
}

/** The resamples of the earlier and the later period, each a list of readings, drawn as the page on method says. */
function resamples(analysis: Analysis): readonly (readonly [number[], number[]])[] {
  const random = randomSource(analysis.settings.seed, 1)
  const drawFrom = (days: number[][]) => days.map(() => days[random.nextBelow(days.length)]).flat()
  const later = readingsByDay(analysis, 0)
  const earlier = readingsByDay(analysis, 1)
  return Array.from({ length: 2000 }, () => [drawFrom(earlier), drawFrom(later)] as const)
}

function limits(differences: readonly number[]): readonly number[] {
  const sorted = Float64Array.from(differences).sort()
  return [quantileR7(sorted, 0.025) ?? NaN, quantileR7(sorted, 0.975) ?? NaN]
}

function expectClose(found: readonly number[] | null, wanted: readonly number[]): void {
  expect(found).toHaveLength(wanted.length)
  wanted.forEach((value, i) => expect(found?.[i]).toBeCloseTo(value, 8))
}

describe('two periods', () => {
  const analysis = compared(LOG)

  it('are compared by the figures of each, the second taken from the first', () => {
    const [first, second] = analysis.periods
    const found = measure(analysis, 'meanMgDl')
    expect([found.first, found.second]).toEqual([first.asLogged.mean, second.asLogged.mean])
    expect(found.difference).toBe((first.asLogged.mean ?? NaN) - (second.asLogged.mean ?? NaN))
    expect(found.verdict).toBe('lower')
    expect(measure(analysis, 'percentInTarget').second).toBe(second.asLogged.percentInTarget)
    expect(analysis.comparison.measures.map((one) => one.measure)).toEqual([
      'meanMgDl',
      'medianMgDl',
      'sdMgDl',
      'cvPercent',
      'percentBelow54',
      'percentBelow70',
      'percentInTarget',
      'percentAbove180',
      'percentAbove250',
    ])
  })

  it('have the intervals of a slow resampling that copies every reading of every drawn day', () => {
    const drawn = resamples(analysis)
    for (const [name, slow] of Object.entries(SLOW)) {
      const differences = drawn.map(
        ([earlier, later]) => slow(analysis.readings, later) - slow(analysis.readings, earlier),
      )
      expectClose(measure(analysis, name as MeasureName).ci95, limits(differences))
    }
  })

  it('have intervals about as wide as the textbook’s for independent days', () => {
    // One reading a day: days are independent, so mean difference +- 1.96 standard errors must come out roughly.
    const rows = [
      ...mornings(
        '2026-03-02',
        Array.from({ length: 30 }, (_, i) => 120 + ((i * 37) % 60)),
      ),
      ...mornings(
        '2026-04-01',
        Array.from({ length: 30 }, (_, i) => 110 + ((i * 41) % 70)),
      ),
    ]
    const found = measure(compared(rows), 'meanMgDl')
    const variances = [rows.slice(30), rows.slice(0, 30)].map(
      (part) => (sampleSd(Float64Array.from(part, (row) => Number(row.value))) ?? NaN) ** 2 / part.length,
    )
    const half = 1.96 * Math.sqrt(variances[0] + variances[1])
    expect(Math.abs((found.ci95?.[0] ?? NaN) - ((found.difference ?? NaN) - half))).toBeLessThan(0.12 * half)
    expect(Math.abs((found.ci95?.[1] ?? NaN) - ((found.difference ?? NaN) + half))).toBeLessThan(0.12 * half)
  })

  it('give the same limits every time, others with another seed', () => {
    expect(compared(LOG).comparison).toEqual(analysis.comparison)
    const other = compared(LOG, APRIL, MARCH, { settings: { seed: 2 } })
    expect(measure(other, 'meanMgDl').ci95).not.toEqual(measure(analysis, 'meanMgDl').ci95)
    expect(measure(other, 'meanMgDl').difference).toBe(measure(analysis, 'meanMgDl').difference)
  })

  it('named the other way round turn every sign and verdict, to the last digit', () => {
    const turned = compared(LOG, MARCH, APRIL)
    const opposite = { higher: 'lower', lower: 'higher', unclear: 'unclear' } as const
    const pairs = [
      ...analysis.comparison.measures.map((change, i) => [change, turned.comparison.measures[i]] as const),
      [analysis.comparison.sameTimesOfDay, turned.comparison.sameTimesOfDay] as const,
    ]
    expect(pairs).toHaveLength(10)
    for (const [one, other] of pairs) {
      expect(other?.first).toBe(one?.second)
      expect(other?.difference).toBe(0 - (one?.difference ?? NaN))
      expect(other?.ci95).toEqual([0 - (one?.ci95?.[1] ?? NaN), 0 - (one?.ci95?.[0] ?? NaN)])
      expect(other?.verdict).toBe(opposite[one?.verdict ?? 'unclear'])
    }
    expect(turned.comparison.blocks.map(({ p, verdict }) => [p, opposite[verdict]])).toEqual(
      analysis.comparison.blocks.map(({ p, verdict }) => [p, verdict]),
    )
    expect(turned.comparison.blocks.length).toBeGreaterThan(3)
  })

  it('that are one and the same differ by 0, unclear everywhere, and say that they share their days', () => {
    const { comparison } = compared(LOG, MARCH, MARCH)
    for (const change of [...comparison.measures, comparison.sameTimesOfDay]) {
      expect(change?.difference).toBe(0)
      expect(change?.verdict).toBe('unclear')
      expect(change?.ci95?.[0]).toBeLessThanOrEqual(0)
      expect(change?.ci95?.[1]).toBeGreaterThanOrEqual(0)
    }
    expect(
      comparison.blocks.every(
        ({ difference, p, verdict }) => difference === 0 && p === 1 && verdict === 'unclear',
      ),
    ).toBe(true)
    expect(comparison.sharedDays).toEqual(MARCH)
  })

  it('have the same verdicts in the other unit', () => {
    const mmol = LOG.map((row) => ({ ...row, value: fromMgDl(Number(row.value), 'mmol/L') }))
    const other = compared(mmol, APRIL, MARCH, { unit: 'mmol/L' })
    // Unrounded: only a value between 70 and 3.9 mmol/L (70.26 mg/dL) could fall to another side.
    expect(other.comparison.measures.map(({ verdict }) => verdict)).toEqual(
      analysis.comparison.measures.map(({ verdict }) => verdict),
    )
    expect(measure(other, 'meanMgDl').difference).toBeCloseTo(
      measure(analysis, 'meanMgDl').difference ?? NaN,
      6,
    )
    expectClose(measure(other, 'sdMgDl').ci95, measure(analysis, 'sdMgDl').ci95 ?? [])
  })

  it('with seven days in one of them have no interval and no verdict, with eight they have', () => {
    const march = mornings(
      '2026-03-02',
      Array.from({ length: 30 }, (_, i) => 200 + i),
    )
    const april = (days: number) =>
      mornings(
        '2026-04-01',
        Array.from({ length: days }, (_, i) => 100 + i),
      )
    const seven = compared([...march, ...april(7)])
    expect(measure(seven, 'meanMgDl')).toMatchObject({ ci95: null, verdict: 'unclear' })
    expect(measure(seven, 'meanMgDl').difference).toBeCloseTo(103 - 214.5, 9)
    expect(measure(seven, 'percentAbove180')).toMatchObject({
      difference: -100,
      ci95: null,
      verdict: 'unclear',
    })
    const eight = compared([...march, ...april(8)])
    expect(measure(eight, 'meanMgDl').verdict).toBe('lower')
  })

  it('take Newcombe’s interval where a share is 0 or 100 % in either', () => {
    const march = mornings(
      '2026-03-02',
      Array.from({ length: 30 }, (_, i) => (i < 3 ? 60 : 120)),
    )
    const april = mornings(
      '2026-04-01',
      Array.from({ length: 20 }, () => 120),
    )
    const found = measure(compared([...march, ...april]), 'percentBelow70')
    const wanted = newcombeInterval({ count: 0, n: 20 }, { count: 3, n: 30 })
    expect(found.difference).toBeCloseTo(-10, 12)
    expectClose(
      found.ci95,
      (wanted ?? []).map((limit) => 100 * limit),
    )
    const inTarget = measure(compared([...march, ...april]), 'percentInTarget')
    expectClose(
      inTarget.ci95,
      (newcombeInterval({ count: 20, n: 20 }, { count: 27, n: 30 }) ?? []).map((x) => 100 * x),
    )
  })

  it('of which one holds a single reading have no SD, and nothing fails', () => {
    const one = compared([...mornings('2026-03-02', [120, 130, 140]), ...mornings('2026-04-01', [101])])
    expect(measure(one, 'sdMgDl')).toMatchObject({
      first: null,
      difference: null,
      ci95: null,
      verdict: 'unclear',
    })
    expect(measure(one, 'meanMgDl').difference).toBeCloseTo(-29, 12)
    expect(one.comparison.sameTimesOfDay).toBeNull()
    expect(one.comparison.blocks).toEqual([])
  })

  it('count every low, doubtful or not, and lows outside both are told', () => {
    const rows = [
      ...LOG,
      { at: '2026-05-05 08:00', value: 51 },
      { at: '2026-03-05 03:00', value: 'LO' as const },
    ]
    const found = compared(rows)
    const lows = readingsByDay(found, 1)
      .flat()
      .filter((i) => found.readings.mgDl[i] < 70).length
    expect(found.periods[1].lows.readingsBelow70).toBe(lows)
    expect(measure(found, 'percentBelow70').second).toBeCloseTo((100 * lows) / found.periods[1].asLogged.n, 9)
    expect(found.periods[0].lows.notCounted).toHaveLength(1)
  })

  it('leave a sensor’s readings out where there are finger-sticks', () => {
    const sensor = mornings(
      '2026-04-01',
      Array.from({ length: 20 }, () => 300),
    ).map((row) => ({
      ...row,
      at: row.at.replace('08:00', '08:05'),
      sensor: true,
    }))
    expect(compared([...LOG, ...sensor]).comparison.measures).toEqual(analysis.comparison.measures)
  })
})

describe('the same times of day', () => {
  // Direct standardisation (Kitagawa, JASA 1955;50:1168-1194); weights 1/4, 1/2, 1/4, worked by hand. Shares stand for means.
  it('turn a crude comparison round where the mix of the parts differs', () => {
    const table = (counts: readonly number[], sums: readonly number[]) =>
      ({
        days: 1,
        blockN: counts.map((n) => Float64Array.of(n)),
        blockSums: sums.map((sum) => Float64Array.of(sum)),
      }) as unknown as DayTable
    const weights = [0.25, 0.5, 0.25].map((weight, block) => ({ block, weight }))
    const first = table([10, 30, 20], [6, 24, 10])
    const second = table([40, 10, 30], [26, 8, 16])
    expect(standardisedMean(first, weights)).toBeCloseTo(0.675, 12)
    expect(standardisedMean(second, weights)).toBeCloseTo(0.695833, 6)
    // Crude: 40 of 60 against 50 of 80, the other way round.
    expect(40 / 60).toBeGreaterThan(50 / 80)
  })

  /** At each hour the same values in both periods, but tested at other hours: 20 days of five tests. */
  function mixed(firstDay: string, hours: readonly number[]): FixtureReading[] {
    return mornings(firstDay, new Array<number>(20).fill(0)).flatMap(({ at }, day) =>
      hours.map((hour, i) => ({
        at: `${at.slice(0, 10)} ${String(hour).padStart(2, '0')}:${String(i).padStart(2, '0')}`,
        value: 100 + 5 * hour + (day % 4),
      })),
    )
  }

  it('show no change where only the hours of testing changed', () => {
    const found = compared([
      ...mixed('2026-03-02', [7, 7, 10, 13, 19]),
      ...mixed('2026-04-01', [7, 10, 13, 19, 19]),
    ])
    expect(measure(found, 'meanMgDl').difference).toBeCloseTo(12, 9)
    expect(found.comparison.sameTimesOfDay?.difference).toBeCloseTo(0, 9)
    expect(found.comparison.sameTimesOfDay?.fromHours).toEqual([6, 9, 12, 18])
    // 40 + 20 readings of 60 each, weights 60, 40, 40, 60 of 200.
    const wanted = (60 * 136.5 + 40 * 151.5 + 40 * 166.5 + 60 * 196.5) / 200
    expect(found.comparison.sameTimesOfDay?.first).toBeCloseTo(wanted, 9)
  })

  it('are not given below four blocks of both, and five readings in both make a block', () => {
    const three = compared([...mixed('2026-03-02', [7, 10, 13]), ...mixed('2026-04-01', [7, 10, 13, 19])])
    expect(three.comparison.sameTimesOfDay).toBeNull()
    const night = (day: string, n: number) =>
      mornings(day, new Array<number>(n).fill(120)).map((row) => ({
        ...row,
        at: row.at.replace('08:00', '01:00'),
      }))
    const base = [...mixed('2026-03-02', [7, 10, 13]), ...mixed('2026-04-01', [7, 10, 13])]
    expect(
      compared([...base, ...night('2026-03-02', 5), ...night('2026-04-01', 4)]).comparison.sameTimesOfDay,
    ).toBeNull()
    expect(
      compared([...base, ...night('2026-03-02', 5), ...night('2026-04-01', 5)]).comparison.sameTimesOfDay
        ?.fromHours,
    ).toEqual([0, 6, 9, 12])
  })

  it('have the interval of a slow resampling that skips a resample without readings in a block used', () => {
    const night = (day: string) =>
      mornings(day, [150, 160, 170, 150, 160]).map((row) => ({
        ...row,
        at: row.at.replace('08:00', '01:00'),
      }))
    const base = [...mixed('2026-03-02', [7, 10, 13]), ...mixed('2026-04-01', [7, 10, 13])]
    const analysis = compared([...base, ...night('2026-03-02'), ...night('2026-04-03')])
    const { readings } = analysis
    const blockOf = (i: number) => Math.floor(secondOfDay(readings.at[i]) / 10_800)
    const all = [0, 1].flatMap((which) => readingsByDay(analysis, which as 0 | 1).flat())
    const used = [0, 2, 3, 4]
    const inUsed = all.filter((i) => used.includes(blockOf(i))).length
    const standardised = (indexes: readonly number[]) =>
      used.reduce((sum, block) => {
        const values = indexes.filter((i) => blockOf(i) === block)
        const weight = all.filter((i) => blockOf(i) === block).length / inUsed
        return sum + (weight * values.reduce((so, i) => so + readings.mgDl[i], 0)) / values.length
      }, 0)
    const differences = resamples(analysis).map(
      ([earlier, later]) => standardised(later) - standardised(earlier),
    )
    const kept = differences.filter((difference) => !Number.isNaN(difference))
    expect(kept.length).toBeLessThan(2000)
    expectClose(analysis.comparison.sameTimesOfDay?.ci95 ?? null, limits(kept))
  })

  it('leave readings without a time of day out, and tell of too few blocks', () => {
    const dated = LOG.map((row) => ({ ...row, at: row.at.slice(0, 10) }))
    const found = compared(dated)
    expect(found.readings.n).toBe(LOG.length)
    expect(hasClockTime(found.readings, 0)).toBe(false)
    expect(found.comparison.sameTimesOfDay).toBeNull()
    expect(measure(found, 'meanMgDl').ci95).not.toBeNull()
  })
})

describe('the change of a block of the day', () => {
  it('is found in the block that changed and in no other', () => {
    const day = (firstDay: string, evening: number) =>
      mornings(firstDay, new Array<number>(30).fill(0)).flatMap(({ at }, i) =>
        [7, 10, 13, 19].map((hour, k) => ({
          at: `${at.slice(0, 10)} ${String(hour).padStart(2, '0')}:10`,
          value: 140 + ((i * 13 + k * 7) % 30) + (hour === 19 ? evening : 0),
        })),
      )
    const { blocks } = compared([...day('2026-03-02', 0), ...day('2026-04-01', -30)]).comparison
    expect(blocks.map(({ fromHour, verdict }) => [fromHour, verdict])).toEqual([
      [6, 'unclear'],
      [9, 'unclear'],
      [12, 'unclear'],
      [18, 'lower'],
    ])
    for (const { p, adjustedP } of blocks) expect(adjustedP).toBeGreaterThanOrEqual(p)
  })

  it('of readings of one day alone is never called clear, however many they are', () => {
    const one = (day: string, value: number) =>
      Array.from({ length: 40 }, (_, i) => ({ at: `${day} 08:${String(i + 10)}`, value: value + (i % 3) }))
    const { blocks } = compared([...one('2026-03-05', 200), ...one('2026-04-05', 100)]).comparison
    expect(blocks).toHaveLength(1)
    expect(blocks[0]).toMatchObject({ p: 1, verdict: 'unclear', firstN: 40 })
  })
})

describe('the meters', () => {
  it('have their part of each period told in percent', () => {
    const rows = LOG.map((row, i) => ({ ...row, meter: row.at < '2026-04' || i % 2 ? 'x-17' : 'y-18' }))
    const { meters } = compared(rows).comparison
    expect(meters.map(({ meter }) => meter)).toEqual([0, 1])
    expect(meters[0].secondPercent).toBe(100)
    expect(meters[0].firstPercent + meters[1].firstPercent).toBeCloseTo(100, 9)
    expect(meters[1].firstPercent).toBeGreaterThan(40)
  })
})
