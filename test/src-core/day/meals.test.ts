import { describe, expect, it } from 'vitest'
import { DEFAULT_SETTINGS } from '../../../src-core/model/settings'
import { byMeal } from '../../../src-core/day/meals'
import { LIMITS } from '../../../src-core/reference/limits'
import type { GoalsFor } from '../../../src-core/reference/mealGoals'
import { FLAG, type Readings } from '../../../src-core/log/readings'
import { readingsOf, row, type RowParts } from '../analysis/readingsOf'

const tagged = (moment: string, value: number, meal: string, parts: RowParts = {}) =>
  row(moment, value, { meal, ...parts })
const figuresOf = (readings: Readings, goals: Partial<GoalsFor> = {}) =>
  byMeal(readings, 0, readings.n, { ...DEFAULT_SETTINGS, ...goals })

describe('the table by meal', () => {
  const readings = readingsOf([
    tagged('2026-03-01 07:00', 79, 'before breakfast'),
    tagged('2026-03-02 07:00', 80, 'nüchtern'),
    tagged('2026-03-03 07:00', 130, 'before breakfast'),
    tagged('2026-03-04 07:00', 131, 'before breakfast'),
    tagged('2026-03-05 07:00', 66, 'before breakfast'),
    tagged('2026-03-01 09:00', 180, 'after breakfast'),
    tagged('2026-03-02 09:00', 179, 'after breakfast'),
    tagged('2026-03-03 09:00', 61, 'after breakfast'),
    tagged('2026-03-01 22:00', 150, 'bedtime'),
    tagged('2026-03-02 12:00', 150, 'snack'),
    row('2026-03-03 12:00', 150),
  ])
  const { moments, tagged: told, n } = figuresOf(readings)

  it('holds each moment with readings, in the order of the day, and counts what is tagged', () => {
    expect(moments.map(({ moment }) => moment)).toEqual(['before-breakfast', 'after-breakfast', 'bedtime'])
    expect([told, n]).toEqual([9, 11])
    expect(moments[0]).toMatchObject({ n: 5, medianMgDl: 80, q1MgDl: 79, q3MgDl: 130, readingsBelow70: 1 })
    expect([readings.mgDl[moments[0].lowest], readings.mgDl[moments[0].highest]]).toEqual([66, 131])
  })

  it('is closed by all that has no tag, or one that names no moment, so that every low stands in a row', () => {
    const { untagged, moments: told } = figuresOf(
      readingsOf([
        tagged('2026-03-01 07:00', 66, 'before breakfast'),
        row('2026-03-01 15:00', 58),
        tagged('2026-03-02 15:00', 61, 'snack'),
        row('2026-03-03 15:00', 150),
      ]),
    )
    expect(untagged).toMatchObject({ n: 3, medianMgDl: 61, readingsBelow70: 2 })
    expect(
      told.reduce((sum, { readingsBelow70: below70 }) => sum + below70, untagged?.readingsBelow70 ?? 0),
    ).toBe(3)
    expect(figuresOf(readingsOf([tagged('2026-03-01 07:00', 66, 'fasting')])).untagged).toBeNull()
  })

  it('holds readings against the goals: 80 to 130 before, below 180 after; a low meets none', () => {
    // American Diabetes Association, Standards of Care 2024, section 6.
    expect(moments.map(({ withinGoal }) => withinGoal)).toEqual([2, 1, null])
  })

  it('uses the goals of pregnancy where asked: fasting 70 to 95, up to 140 after meals', () => {
    // The same, section 15.
    const pregnant = figuresOf(readings, { targetPreset: 'pregnancy' }).moments
    expect(pregnant.map(({ withinGoal }) => withinGoal)).toEqual([2, 0, null])
  })

  const goalsOf = (goals: Partial<GoalsFor>) =>
    figuresOf(readings, goals).moments.map(({ goal }) => goal && [goal.low?.mgDl ?? null, goal.high.mgDl])

  it('uses the goals of older adults where asked, and none after meals, where none is published', () => {
    // The same, section 13, table 13.1: several illnesses 90 to 150, at bedtime 100 to 180; very poor health 100 to 180,
    // at bedtime 110 to 200.
    expect(goalsOf({ targetPreset: 'older-adult' })).toEqual([[90, 150], null, [100, 180]])
    expect(goalsOf({ targetPreset: 'frail' })).toEqual([[100, 180], null, [110, 200]])
    expect(
      figuresOf(readings, { targetPreset: 'frail' }).moments.map(({ withinGoal }) => withinGoal),
    ).toEqual([2, null, 1])
  })

  it('holds readings before meals against the person’s own goal; the others stay with the preset', () => {
    const ownGoal = { low: { mgDl: 79, mmol: 4.4 }, high: { mgDl: 120, mmol: 6.7 } }
    expect(goalsOf({ ownGoal })).toEqual([[79, 120], [null, 180], null])
    expect(goalsOf({ ownGoal, targetPreset: 'older-adult' })).toEqual([[79, 120], null, [100, 180]])
    expect(figuresOf(readings, { ownGoal }).moments[0].withinGoal).toBe(2)
  })

  it('knows no published goal for a target of the person’s own', () => {
    const target = { targetLow: { mgDl: 100, mmol: 5.6 }, targetHigh: { mgDl: 200, mmol: 11.1 } }
    expect(goalsOf(target)).toEqual([null, null, null])
    expect(goalsOf({ targetLow: LIMITS.low, targetHigh: LIMITS.high })).toEqual([
      [80, 130],
      [null, 180],
      null,
    ])
  })

  it('holds a value in mmol/L against the limits in mmol/L', () => {
    const mmol = (value: number, meal: string, minute: number) =>
      tagged(`2026-03-01 07:0${minute}`, value, meal, { unit: 'mmol/L' })
    const both = figuresOf(
      readingsOf([
        mmol(7.2, 'before lunch', 0),
        mmol(4.4, 'before lunch', 1),
        mmol(10, 'after lunch', 2),
        mmol(9.9, 'after lunch', 3),
      ]),
    )
    expect(both.moments.map(({ withinGoal }) => withinGoal)).toEqual([2, 1])
  })

  it('has days beside its readings: two tests of one morning are one', () => {
    const twice = figuresOf(
      readingsOf([
        tagged('2026-03-01 07:00', 90, 'before breakfast'),
        tagged('2026-03-01 07:05', 95, 'before breakfast'),
        tagged('2026-03-02 07:00', 99, 'before breakfast'),
      ]),
    )
    expect(twice.moments[0]).toMatchObject({ n: 3, days: 2 })
  })

  it('holds all meals as one in the short table: as many readings, lows and goals met, a low in every sum', () => {
    const { kinds, moments: each } = figuresOf(
      readingsOf([
        tagged('2026-03-01 07:00', 66, 'before breakfast'),
        tagged('2026-03-01 09:00', 170, 'after breakfast'),
        tagged('2026-03-01 12:00', 100, 'before lunch'),
        tagged('2026-03-01 18:00', 131, 'before dinner'),
        tagged('2026-03-01 22:00', 150, 'bedtime'),
        tagged('2026-03-02 03:00', 58, 'night'),
      ]),
    )
    expect(
      kinds.map(({ kind, n, days, medianMgDl, readingsBelow70: below70, withinGoal }) => [
        kind,
        n,
        days,
        medianMgDl,
        below70,
        withinGoal,
      ]),
    ).toEqual([
      ['before', 3, 1, 100, 1, 1],
      ['after', 1, 1, 170, 0, 1],
      ['bedtime', 1, 1, 150, 0, null],
      ['night', 1, 1, 58, 1, null],
    ])
    const lowsIn = (rows: readonly { readonly readingsBelow70: number }[]) =>
      rows.reduce((sum, { readingsBelow70: below70 }) => sum + below70, 0)
    expect(lowsIn(kinds)).toBe(lowsIn(each))
    expect(kinds.map(({ goal }) => goal?.high.mgDl ?? null)).toEqual([130, 180, null, null])
  })

  it('is empty where the log tells no meals', () => {
    const plain = figuresOf(readingsOf([row('2026-03-01 07:00', 100)]))
    expect(plain).toEqual({
      tagged: 0,
      n: 1,
      moments: [],
      kinds: [],
      pairs: [],
      rises: [],
      untagged: expect.objectContaining({ n: 1, medianMgDl: 100 }) as unknown,
    })
  })
})

describe('pairs of a test before a meal and one after it', () => {
  const pairs = (rows: Parameters<typeof readingsOf>[0]) =>
    figuresOf(readingsOf(rows)).pairs.map(({ meal, riseMgDl: rise }) => [meal, rise])
  const before = (time: string, value: number, parts: RowParts = {}) =>
    tagged(`2026-03-01 ${time}`, value, 'before lunch', parts)
  const after = (time: string, value: number, parts: RowParts = {}) =>
    tagged(`2026-03-01 ${time}`, value, 'after lunch', parts)

  it('lie 60 to 150 minutes apart, both ends included', () => {
    expect(pairs([before('12:00', 100), after('13:00', 140)])).toEqual([['lunch', 40]])
    expect(pairs([before('12:00', 100), after('14:30', 90)])).toEqual([['lunch', -10]])
    expect(pairs([before('12:00', 100), after('12:59', 140)])).toEqual([])
    expect(pairs([before('12:00', 100), after('14:31', 140)])).toEqual([])
  })

  it('use each reading once, the latest before the meal', () => {
    expect(
      pairs([before('12:00', 100), before('12:04', 110), after('13:30', 150), after('13:34', 160)]),
    ).toEqual([['lunch', 40]])
  })

  it('are of one meal', () => {
    expect(pairs([before('12:00', 100), tagged('2026-03-01 13:30', 150, 'after dinner')])).toEqual([])
  })

  it('hold no HI or LO and nothing without a time of day', () => {
    expect(pairs([before('12:00', 100), after('13:30', 600, { flags: FLAG.aboveRange })])).toEqual([])
    expect(pairs([before('00:00', 100, { flags: FLAG.dayOnly }), after('01:30', 150)])).toEqual([])
  })

  it('are summed up by meal', () => {
    const readings = readingsOf(
      [20, 30, 70].flatMap((rise, i) => [
        tagged(`2026-03-0${i + 1} 12:00`, 100, 'before lunch'),
        tagged(`2026-03-0${i + 1} 13:30`, 100 + rise, 'after lunch'),
      ]),
    )
    expect(figuresOf(readings).rises).toEqual([
      { meal: 'lunch', n: 3, medianMgDl: 30, q1MgDl: 25, q3MgDl: 50, medianCi95MgDl: null },
    ])
  })
})
