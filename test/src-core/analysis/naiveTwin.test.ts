import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { dayOf } from '../../../src-core/units/wallClock'
import { analysisOf, type FixtureReading } from '../../helpers/analysisFixture'
import { compareFigures, type Figure, figuresOf } from '../../reference/referenceFigures'
import { doubtfulLines, NaiveTwin } from './naiveTwin'

const MEALS = {
  'before breakfast': 'before-breakfast',
  'after breakfast': 'after-breakfast',
  'before lunch': 'before-lunch',
  'after lunch': 'after-lunch',
  bedtime: 'bedtime',
}

const unit = fc.constantFrom('mg/dL' as const, 'mmol/L' as const)
const number = fc.oneof(
  { weight: 8, arbitrary: fc.integer({ min: 40, max: 330 }) },
  // At and beside the limits.
  { weight: 3, arbitrary: fc.constantFrom(53, 54, 69, 70, 71, 79, 80, 130, 131, 179, 180, 181, 250, 251) },
  { weight: 1, arbitrary: fc.constantFrom('LO' as const, 'HI' as const) },
)
/** Minutes to the next reading: a repeat, an hour or two, half a day. */
const gap = fc.oneof(
  { weight: 2, arbitrary: fc.integer({ min: 1, max: 14 }) },
  { weight: 3, arbitrary: fc.integer({ min: 40, max: 160 }) },
  { weight: 4, arbitrary: fc.integer({ min: 161, max: 800 }) },
)
const someRows = fc.array(
  fc.record({
    gap,
    value: number,
    meter: fc.constantFrom('a', 'b'),
    meal: fc.constantFrom('', 'a snack', ...Object.keys(MEALS)),
    dayOnly: fc.nat(30).map((n) => n === 0),
  }),
  { minLength: 1, maxLength: 180, size: 'max' },
)
/** A log in one unit, from Friday, 27 February 2026 on. */
const someLog = fc.tuple(someRows, unit).map(([rows, logUnit]) => {
  let minutes = 0
  const log = rows.map(({ value, dayOnly, gap: step, ...rest }): FixtureReading => {
    minutes += step
    const at = new Date(Date.UTC(2026, 1, 27) + minutes * 60_000).toISOString()
    return {
      ...rest,
      at: dayOnly ? at.slice(0, 10) : `${at.slice(0, 10)} ${at.slice(11, 16)}`,
      value: logUnit === 'mg/dL' || typeof value === 'string' ? value : Math.round((value / 18) * 10) / 10,
    }
  })
  return { log, unit: logUnit }
})

type Log = typeof someLog extends fc.Arbitrary<infer T> ? T : never

function expectAlike(program: Figure | undefined, twin: Figure): void {
  expect(compareFigures(program, twin).apart).toEqual([])
}

/** Stops at the first failure: making a log of 180 rows smaller takes hours. */
function check(holds: (log: Log) => void, numRuns = 60): void {
  fc.assert(fc.property(someLog, holds), { numRuns, seed: 20260227, endOnFailure: true })
}

describe('on any log, the slow and obvious way gives the same', () => {
  it('summary, hours, blocks, days of the week, trend and lows', () => {
    check(({ log, unit: logUnit }) => {
      const analysis = analysisOf(log, { unit: logUnit })
      const twin = new NaiveTwin(log, logUnit)
      expectAlike(figuresOf(analysis), {
        periods: [
          {
            asLogged: twin.summary(),
            timeOfDay: twin.timeOfDay(),
            week: twin.week(),
            lows: twin.lows(doubtfulLines(analysis)),
          },
        ],
      })
    })
  })

  it('repeat sets, whether they agree, and figures without the doubtful readings', () => {
    let sets = 0
    let doubtful = 0
    check(({ log, unit: logUnit }) => {
      const analysis = analysisOf(log, { unit: logUnit })
      const twin = new NaiveTwin(log, logUnit)
      sets += analysis.technique.repeatSets.length
      doubtful += analysis.technique.doubtful.length
      expectAlike(figuresOf(analysis), {
        periods: [{ checked: twin.checked(doubtfulLines(analysis)) }],
        technique: { repeatSets: twin.repeatSets() },
      })
    })
    expect(sets).toBeGreaterThan(400)
    expect(doubtful).toBeGreaterThan(20)
  })

  it('table and pairs by meal', () => {
    let pairs = 0
    check(({ log, unit: logUnit }) => {
      const analysis = analysisOf(log, { unit: logUnit })
      pairs += analysis.periods[0].byMeal.pairs.length
      expectAlike(figuresOf(analysis), { periods: [{ byMeal: new NaiveTwin(log, logUnit).byMeal(MEALS) }] })
    })
    expect(pairs).toBeGreaterThan(20)
  })

  it('differences of two periods, also at the same times of day', () => {
    let compared = 0
    check(({ log, unit: logUnit }) => {
      const { readings } = analysisOf(log, { unit: logUnit })
      const [from, to] = [dayOf(readings.at[0]), dayOf(readings.at[readings.n - 1])]
      if (from === to) return
      // A period needs a reading: the second begins on the last day that has one, or on the middle one.
      const days = Array.from({ length: readings.n }, (_, i) => dayOf(readings.at[i]))
      const middle = days.find((day) => day > from && day >= (from + to) / 2) ?? to
      const analysis = analysisOf(log, {
        unit: logUnit,
        period: { from, to: middle - 1 },
        versus: { from: middle, to },
      })
      compared++
      expectAlike(figuresOf(analysis), { comparison: new NaiveTwin(log, logUnit).comparison(middle) })
    }, 25)
    expect(compared).toBeGreaterThan(15)
  })
})
