import { describe, expect, it } from 'vitest'
import { fastingSpread } from '../../../src-core/day/fasting'
import { type Week, weekFigures } from '../../../src-core/day/week'
import { weekTold } from '../../../src-core/told/week'
import { neverTestedSentence, trendSentence, weekendSentence } from '../../../src-core/wording/english/week'
import { sampleSd } from '../../../src-core/statistics/moments'
import { fixed } from '../../../src-core/units/rounding'
import { analysisOf, type FixtureReading } from '../../helpers/analysisFixture'
import { documentOf } from '../../helpers/pages'
import { at, readingsOf, row } from '../analysis/readingsOf'

/** A test on each of `days` from Monday, 2 March 2026, at 07:00. */
function mornings(days: number, value: (day: number) => number) {
  const first = at('2026-03-02 07:00')
  return Array.from({ length: days }, (_, day) => row(first + day * 86_400, value(day)))
}
const weekOf = (rows: Parameters<typeof readingsOf>[0]) => {
  const readings = readingsOf(rows)
  return weekFigures(readings, 0, readings.n)
}

/** Of a period that holds this week. */
const told = (week: Week) =>
  weekTold({ ...analysisOf([{ at: '2026-03-02 07:00', value: 120 }]).periods[0], week }, 'mg/dL')

describe('the days against one another', () => {
  it('part weekdays from Saturday and Sunday', () => {
    const week = weekOf(mornings(14, (day) => (day % 7 >= 5 ? 160 : 120)))
    expect([week.weekdays, week.weekend]).toEqual([
      { n: 10, belowRange: 0, aboveRange: 0, medianMgDl: 120, medianCi95MgDl: [120, 120] },
      { n: 4, belowRange: 0, aboveRange: 0, medianMgDl: 160, medianCi95MgDl: null },
    ])
    expect(told(week).weekend).toBeNull()
    const { weekend } = told({ ...week, weekend: { ...week.weekend, n: 10 } })
    expect(weekend && weekendSentence(weekend, 'mg/dL')).toBe(
      'Weekdays: median 120 (10 readings, could be 120–120); weekends: 160 (10 readings).',
    )
  })

  it('give the change of the weekly median in all, from six weeks with three days on', () => {
    expect(weekOf(mornings(37, (day) => 100 + day)).trend).toBeNull()
    const week = weekOf(mornings(42, (day) => 100 + 2 * day))
    // Every week 14 more than the one before: 70 from the first to the sixth.
    expect(week.trend).toMatchObject({ mgDlPerWeek: 14, weeks: 5 })
    const sentence = (of: Week) => {
      const { trend } = told(of)
      return trend && trendSentence(trend, 'mg/dL')
    }
    expect(sentence(week)).toMatch(
      /^The weekly median went from about 106 to about 176 over 5 weeks; the change could be \+70 to \+70 mg\/dL in all\./,
    )
    const level = weekOf(mornings(42, (day) => 100 + ((day * 3) % 7)))
    expect(sentence(level)).toMatch(/^No clear change/)
  })

  it('count a week with two days as none, and go on over a year’s hole', () => {
    const two = weekOf(mornings(42, (day) => 100 + day).filter((_, day) => day < 28 || day % 7 < 2))
    expect(two.trend).toBeNull()
    const hole = weekOf(
      mornings(412, (day) => (day < 21 ? 150 : 120)).filter((_, day) => day < 21 || day >= 391),
    )
    expect(hole.trend?.weeks).toBe(58)
  })

  it('count days with three or more readings, and tell the hours never tested', () => {
    const week = weekOf([
      ...mornings(3, () => 120),
      row('2026-03-02 12:00', 130),
      row('2026-03-02 23:59', 140),
      row('2026-03-03 12:30', 140),
    ])
    expect(week.daysWithEnough).toBe(1)
    expect(week.hoursNeverTested).toHaveLength(21)
    expect(neverTestedSentence(told(week).neverTested)).toBe('Never tested: 00–07, 08–12 and 13–23.')
  })
})

describe('what next month could answer', () => {
  it('rests on the readings that are not doubtful, and on every low', () => {
    // 250 is contradicted by 121 two minutes later: then that is the morning's first.
    const value = (day: number) => (day === 5 ? 66 : day % 2 ? 118 : 122)
    const rows: FixtureReading[] = Array.from({ length: 20 }, (_, day) => ({
      at: `2026-03-${String(day + 2).padStart(2, '0')} 07:00`,
      value: day === 0 ? 250 : value(day),
    }))
    const analysis = analysisOf([...rows, { at: '2026-03-02 07:02', value: 121 }])
    expect(analysis.technique.doubtful.map(({ index }) => analysis.readings.mgDl[index])).toEqual([250])
    const firsts = Float64Array.from([121, ...Array.from({ length: 19 }, (_, i) => value(i + 1))])
    const text = JSON.stringify(documentOf(analysis).content)
    expect(text).toContain(`With a fasting SD of ${fixed(sampleSd(firsts) ?? NaN)} `)
  })
})

describe('the spread of fasting readings', () => {
  it('comes from the first tagged reading of each day', () => {
    const rows = mornings(20, (day) => (day % 2 ? 110 : 130)).map((one) => ({ ...one, meal: 'fasting' }))
    const repeated = rows.map((one) => ({ ...one, at: one.at + 120, logged: 400 }))
    const readings = readingsOf([...rows, ...repeated])
    const spread = fastingSpread(
      readings,
      Array.from({ length: readings.n }, (_, i) => i),
    )
    expect(spread).toMatchObject({ mornings: 20, basis: 'tags' })
    // Ten each of 110 and 130: the root of 20 x 100 / 19.
    expect(spread?.sdMgDl).toBeCloseTo(Math.sqrt(2000 / 19), 12)
  })

  it('falls back on the morning’s first test, and needs 15 mornings', () => {
    const readings = readingsOf(mornings(15, (day) => 100 + day))
    const all = Array.from({ length: 15 }, (_, i) => i)
    expect(fastingSpread(readings, all)).toMatchObject({ mornings: 15, basis: 'hours' })
    expect(fastingSpread(readings, all.slice(1))).toBeNull()
  })
})
