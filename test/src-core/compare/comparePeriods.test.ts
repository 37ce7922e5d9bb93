import { describe, expect, it } from 'vitest'
import type { Analysis } from '../../../src-core/analysis/analysis'
import { periodReadings } from '../../../src-core/analysis/periodReadings'
import type { Comparison, MeasureName } from '../../../src-core/compare/comparison'
import { hasClockTime } from '../../../src-core/log/readings'
import { newcombeInterval } from '../../../src-core/statistics/newcombe'
import { wilsonLimits } from '../../../src-core/statistics/wilson'
import { fromMgDl } from '../../../src-core/units/glucose'
import { parseIsoDay } from '../../../src-core/units/wallClock'
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

function expectClose(found: readonly number[] | null, wanted: readonly number[]): void {
  expect(found).toHaveLength(wanted.length)
  wanted.forEach((value, i) => expect(found?.[i]).toBeCloseTo(value, 8))
}

describe('two periods', () => {
  const analysis = compared(LOG)

  it('are compared by the figures of each, the second taken from the first', () => {
    const [first, second] = analysis.periods
    const found = measure(analysis, 'meanMgDl')
    expect([found.first, found.second]).toEqual([first.asLogged.meanMgDl, second.asLogged.meanMgDl])
    expect(found.difference).toBe((first.asLogged.meanMgDl ?? NaN) - (second.asLogged.meanMgDl ?? NaN))
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

  it('give the same limits every time, whatever the seed', () => {
    expect(compared(LOG).comparison).toEqual(analysis.comparison)
    expect(compared(LOG, APRIL, MARCH, { settings: { seed: 2 } }).comparison).toEqual(analysis.comparison)
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
        ({ differenceMgDl: difference, p, verdict }) => difference === 0 && p === 1 && verdict === 'unclear',
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

  it('are called clear only together: not one row that looks so by itself', () => {
    // Two months of 100, 120, 140 again and again; in April one day in ten has 250 in the place of 140.
    const month = (firstDay: string, highEvery: number) =>
      mornings(
        firstDay,
        Array.from({ length: 30 }, (_, i) => (i % highEvery === 9 ? 250 : 100 + 20 * (i % 3))),
      )
    const alike = compared([...month('2026-03-02', 99), ...month('2026-04-01', 99)]).comparison
    expect(alike.together).toMatchObject({ clear: false, rows: 9 })
    expect(alike.together?.p).toBe(1)
    const other = compared([
      ...mornings(
        '2026-03-02',
        Array.from({ length: 30 }, (_, i) => 100 + (i % 7)),
      ),
      ...mornings(
        '2026-04-01',
        Array.from({ length: 30 }, (_, i) => 140 + (i % 7)),
      ),
    ])
    expect(other.comparison.together?.clear).toBe(true)
    expect(other.comparison.together?.p).toBeLessThan(0.001)
    // Simes: so many times the smallest p over its place among all of them.
    const some = compared([...month('2026-03-02', 99), ...month('2026-04-01', 10)])
    const ps = some.comparison.measures.map(({ p }) => p ?? NaN).sort((a, b) => a - b)
    expect(some.comparison.together?.p).toBeCloseTo(Math.min(...ps.map((p, i) => (9 * p) / (i + 1))), 12)
  })

  it('take two readings as one in a share that is 0 or 100 % in either', () => {
    const march = mornings(
      '2026-03-02',
      Array.from({ length: 30 }, (_, i) => (i < 3 ? 60 : 120)),
    )
    const april = mornings(
      '2026-04-01',
      Array.from({ length: 20 }, () => 120),
    )
    const found = measure(compared([...march, ...april], APRIL, APRIL), 'percentBelow70')
    const none = { share: 0, limits: wilsonLimits(0, 10, 1.959964) }
    expectClose(
      found.ci95,
      newcombeInterval(none, none).map((limit) => 100 * limit),
    )
    expect(measure(compared([...march, ...april]), 'percentBelow70').difference).toBeCloseTo(-10, 12)
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
    const lows = periodReadings(found, found.periods[1]).filter((i) => found.readings.mgDl[i] < 70).length
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

  /** Tests at these minutes past the hour of 7, 10, 13 and 19. */
  function atMinute(firstDay: string, minutes: readonly number[], meals: readonly string[] = []) {
    return mornings(firstDay, new Array<number>(20).fill(0)).flatMap(({ at }, day) =>
      [7, 10, 13, 19].map((hour, i) => ({
        at: `${at.slice(0, 10)} ${String(hour).padStart(2, '0')}:${String(minutes[i]).padStart(2, '0')}`,
        value: 150 + (day % 5) - (firstDay.includes('-04-') ? 30 : 0),
        meal: meals[i] ?? '',
      })),
    )
  }
  const sameTimes = (first: readonly FixtureReading[], second: readonly FixtureReading[]) =>
    compared([...first, ...second]).comparison.sameTimesOfDay

  it('have no verdict where in blocks that carry half of the weight the median minute moved by more than 30', () => {
    const march = atMinute('2026-03-02', [5, 5, 5, 5])
    expect(sameTimes(march, atMinute('2026-04-01', [5, 5, 36, 36]))).toMatchObject({
      verdict: 'unclear',
      verdictReason: 'mix-moved',
    })
    expect(sameTimes(march, atMinute('2026-04-01', [5, 5, 5, 36]))).toMatchObject({
      verdict: 'lower',
      verdictReason: null,
    })
    expect(sameTimes(march, atMinute('2026-04-01', [35, 35, 35, 35]))?.verdict).toBe('lower')
  })

  it('nor where the tests after meals moved by more than 15 points there, of those with a tag', () => {
    const tags = (firstDay: string, after: number) =>
      atMinute(firstDay, [5, 5, 5, 5]).map((row, i) => ({
        ...row,
        // Of the twenty tests of each block so many come after a meal.
        meal: Math.floor(i / 4) < after ? 'after lunch' : 'before lunch',
      }))
    const march = tags('2026-03-02', 8)
    expect(sameTimes(march, tags('2026-04-01', 11))).toMatchObject({ verdict: 'lower', verdictReason: null })
    expect(sameTimes(march, tags('2026-04-01', 12))?.verdictReason).toBe('mix-moved')
    // Where one period has no tags nobody can tell.
    expect(sameTimes(march, atMinute('2026-04-01', [5, 5, 5, 5]))?.verdictReason).toBeNull()
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

describe('the same meals', () => {
  /** Lunch at noon and dinner at six: `before` and `after` of the twenty days hold such a test, at 80 and 150 mg/dL more. */
  function meals(firstDay: string, before: number, after: number, level = 100): FixtureReading[] {
    return mornings(firstDay, new Array<number>(20).fill(0)).flatMap(({ at }, day) => {
      const test = (hour: number, meal: string, value: number) => ({
        at: `${at.slice(0, 10)} ${String(hour)}:30`,
        value: value + (day % 3),
        meal,
      })
      return [
        ...(day < before ? [test(12, 'before lunch', level), test(18, 'before dinner', level + 10)] : []),
        ...(day >= 20 - after
          ? [test(14, 'after lunch', level + 50), test(20, 'after dinner', level + 70)]
          : []),
      ]
    })
  }
  const sameMeals = (first: readonly FixtureReading[], second: readonly FixtureReading[]) =>
    compared([...first, ...second]).comparison.sameMeals

  it('show no change where only the meals tested changed', () => {
    const found = compared([...meals('2026-03-02', 20, 8), ...meals('2026-04-01', 8, 20)])
    expect(measure(found, 'meanMgDl').difference).toBeGreaterThan(20)
    const { sameMeals: same, sameTimesOfDay } = found.comparison
    expect(sameTimesOfDay).toBeNull()
    if (typeof same === 'string') throw new Error(same)
    expect(Math.abs(same.difference ?? NaN)).toBeLessThan(1)
    expect(same.verdict).toBe('unclear')
    expect(same.cells).toEqual([
      { fromHour: 12, moment: 'before-meal' },
      { fromHour: 12, moment: 'after-meal' },
      { fromHour: 18, moment: 'before-meal' },
      { fromHour: 18, moment: 'after-meal' },
    ])
    // 28 readings of each cell in both periods together.
    const means = (level: number) => (4 * level + 50 + 10 + 70) / 4
    expect(same.second).toBeGreaterThan(means(100))
    expect(same.second).toBeLessThan(means(102))
  })

  it('show a change that is one', () => {
    const same = sameMeals(meals('2026-03-02', 20, 8), meals('2026-04-01', 8, 20, 80))
    expect(same).toMatchObject({ verdict: 'lower' })
  })

  it('need a tag on six in ten readings of both periods', () => {
    const untagged = (n: number) =>
      mornings('2026-04-01', new Array<number>(n).fill(120)).map((row) => ({ ...row, meal: 'snack' }))
    const march = meals('2026-03-02', 10, 10)
    const april = meals('2026-04-01', 9, 6)
    expect(sameMeals(march, [...april, ...untagged(20)])).not.toBe('few-tags')
    expect(sameMeals(march, [...april, ...untagged(21)])).toBe('few-tags')
    expect(
      sameMeals(
        mornings(
          '2026-03-02',
          [1, 2, 3].map((i) => 100 + i),
        ),
        april,
      ),
    ).toBe('few-tags')
  })

  it('need four cells of five readings in both', () => {
    const march = meals('2026-03-02', 10, 10)
    expect(typeof sameMeals(march, meals('2026-04-01', 10, 5))).toBe('object')
    expect(sameMeals(march, meals('2026-04-01', 10, 4))).toBe('few-cells')
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
    for (const { p, adjustedP } of blocks) expect(adjustedP).toBeGreaterThanOrEqual(p ?? NaN)
  })

  it('of readings of one day alone is never called clear, however many they are', () => {
    const one = (day: string, value: number) =>
      Array.from({ length: 40 }, (_, i) => ({ at: `${day} 08:${String(i + 10)}`, value: value + (i % 3) }))
    const { blocks } = compared([...one('2026-03-05', 200), ...one('2026-04-05', 100)]).comparison
    expect(blocks).toHaveLength(1)
    expect(blocks[0]).toMatchObject({ p: null, verdict: 'unclear', verdictReason: 'few-days', firstN: 40 })
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
