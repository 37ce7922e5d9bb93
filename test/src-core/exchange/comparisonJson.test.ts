import { describe, expect, it } from 'vitest'
import { openVisit, type VisitOptions } from '../../../src-core/analysis/openVisit'
import { reportJson } from '../../../src-core/exchange/reportJson'
import { parseIsoDay } from '../../../src-core/units/wallClock'
import { CONTEXT, logOf } from '../../helpers/logs'
import { refusalLine } from '../../../src-core/wording/english/importMessages'
import { ENGLISH } from '../../../src-core/wording/english'

function span(from: string, to: string) {
  return { from: parseIsoDay(from) ?? NaN, to: parseIsoDay(to) ?? NaN }
}

/** Tests at five hours of `days` days, from the first of a month on. */
function month(name: string, days: number, level: number): string {
  return Array.from({ length: days }, (_, day) =>
    [1, 7, 12, 18, 22].map(
      (hour, i) =>
        `${name}-${String(day + 1).padStart(2, '0')} ${String(hour).padStart(2, '0')}:10,${level + ((day * 7 + i * 11) % 60)}\n`,
    ),
  )
    .flat()
    .join('')
}

const LOG = `time,glucose (mg/dL)\n${month('2026-04', 20, 120)}${month('2026-05', 20, 150)}`
const MAY = span('2026-05-01', '2026-05-31')
const APRIL = span('2026-04-01', '2026-04-30')

interface Told {
  readonly periods: readonly { from: string; asLogged: { meanMgDl: number } }[]
  readonly comparison: Readonly<Record<string, never>> & {
    readonly measures: readonly Readonly<Record<string, unknown>>[]
    readonly sameTimesOfDay: Readonly<Record<string, unknown>> | null
    readonly sameTimesOfDayReason?: string
    readonly sameMealsReason?: string
    readonly habitChanges: readonly string[]
    readonly blocks: readonly Readonly<Record<string, unknown>>[]
    readonly meters: readonly unknown[]
    readonly daysInBoth: number
  }
}

function jsonOf(log: string, options: VisitOptions): Told {
  const outcome = openVisit([logOf(log)], options, CONTEXT)
  if (outcome.kind !== 'analysed') throw new Error(outcome.kind)
  return JSON.parse(
    JSON.stringify(reportJson(ENGLISH, outcome.analysis, { name: 'x', version: '1' })),
  ) as Told
}

describe('the comparison in the JSON', () => {
  const json = jsonOf(LOG, { period: MAY, versus: APRIL })

  it('holds the keys of the contract, and what was added beside them', () => {
    expect(json.periods.map(({ from }) => from)).toEqual(['2026-05-01', '2026-04-01'])
    expect(Object.keys(json.comparison)).toEqual([
      'measures',
      'sameTimesOfDay',
      'sameMeals',
      'sameMealsReason',
      'allRows',
      'lows',
      'habitChanges',
      'afterMealOfTagged',
      'blocks',
      'meters',
      'daysInBoth',
    ])
    const keys = ['measure', 'first', 'second', 'difference', 'ci95', 'verdict']
    for (const measure of json.comparison.measures) expect(Object.keys(measure)).toEqual(keys)
    expect(json.comparison.measures.map(({ measure }) => measure)).toEqual([
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
    expect(Object.keys(json.comparison.sameTimesOfDay ?? {})).toEqual(
      expect.arrayContaining(['first', 'second', 'difference', 'ci95']),
    )
    expect(json.comparison.blocks).toHaveLength(5)
    expect(json.comparison.meters).toEqual([{ meter: 'meter A', firstPercent: 100, secondPercent: 100 }])
    expect(json.comparison.daysInBoth).toBe(0)
  })

  it('says why a verdict is withheld, and only there', () => {
    expect(json.comparison.sameTimesOfDay).not.toHaveProperty('verdictReason')
    expect(json.comparison.sameMealsReason).toMatch(/60 %/)
    const moved = LOG.replace(/(2026-05-\d\d \d\d):10/g, '$1:50')
    const { sameTimesOfDay, habitChanges } = jsonOf(moved, { period: MAY, versus: APRIL }).comparison
    expect(sameTimesOfDay).toMatchObject({ verdict: 'unclear', verdictReason: 'mix-moved' })
    expect(habitChanges).toContain('within-blocks')
  })

  it('holds the means at the same meals', () => {
    const tagged = LOG.replace('\n', ',meal\n')
      .replace(/( (?:07|18):10,\d+)/g, '$1,before meal')
      .replace(/( (?:12|22):10,\d+)/g, '$1,after meal')
    const { sameMeals } = jsonOf(tagged, { period: MAY, versus: APRIL }).comparison as unknown as {
      sameMeals: { first: number; second: number; difference: number; verdict: string; cells: unknown }
    }
    expect(sameMeals.difference).toBeCloseTo(30, 9)
    expect(sameMeals.verdict).toBe('higher')
    expect(sameMeals.cells).toContainEqual({ fromHour: 6, moment: 'before-meal' })
  })

  it('takes the second period from the first, as its means say', () => {
    const [mean] = json.comparison.measures
    expect(mean).toMatchObject({ measure: 'meanMgDl', verdict: 'higher' })
    expect(mean.difference).toBeCloseTo(30, 9)
    expect(mean.first).toBe(json.periods[0].asLogged.meanMgDl)
    expect(mean.second).toBe(json.periods[1].asLogged.meanMgDl)
    expect(JSON.stringify(json.comparison)).not.toContain('A1c')
  })

  it('gives null with a reason where days or blocks are too few', () => {
    const few = jsonOf(LOG, { period: span('2026-05-01', '2026-05-07'), versus: APRIL }).comparison
    for (const measure of few.measures) {
      expect(measure).toMatchObject({ ci95: null, verdict: 'unclear' })
      expect(measure.ci95Reason).toMatch(/fewer than 8 days/)
    }
    expect(few.sameTimesOfDay).toMatchObject({ ci95: null })
    const day = jsonOf(LOG, { period: span('2026-05-01', '2026-05-01'), versus: APRIL }).comparison
    expect(day.sameTimesOfDay).toBeNull()
    expect(day.sameTimesOfDayReason).toMatch(/fewer than 4 three-hour blocks/)
    const one = jsonOf('time,glucose (mg/dL)\n2026-05-01 07:00,120\n2026-04-01 07:00,130\n', {
      period: MAY,
      versus: APRIL,
    }).comparison
    const sd = one.measures.find(({ measure }) => measure === 'sdMgDl')
    expect(sd).toMatchObject({ first: null, second: null, difference: null })
    for (const key of ['firstReason', 'secondReason', 'differenceReason'])
      expect(sd?.[key]).toMatch(/two readings/)
  })

  it('counts the days that lie in both', () => {
    const shared = jsonOf(LOG, { period: span('2026-04-10', '2026-05-31'), versus: APRIL }).comparison
    expect(shared.daysInBoth).toBe(21)
  })

  it('is null without a second period', () => {
    expect(jsonOf(LOG, { period: MAY }).comparison).toBeNull()
  })

  it('needs a reading in the second period', () => {
    const outcome = openVisit(
      [logOf(LOG)],
      { period: MAY, versus: span('2025-01-01', '2025-02-01') },
      CONTEXT,
    )
    expect(outcome).toMatchObject({
      kind: 'stopped',
      refusals: [{ code: 'no-readings', reason: { key: 'empty-period', which: 'versus' } }],
    })
    expect(outcome.kind === 'stopped' && refusalLine(outcome.refusals[0])).toContain('--versus FROM..TO')
  })
})
