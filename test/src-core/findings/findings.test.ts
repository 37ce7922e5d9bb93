import { describe, expect, it } from 'vitest'
import type { PeriodFigures } from '../../../src-core/analysis/analysis'
import { LIMITS } from '../../../src-core/reference/limits'
import { DEFAULT_SETTINGS, type Settings } from '../../../src-core/analysis/settings'
import { fromMgDl } from '../../../src-core/units/glucose'
import { findingText } from '../../../src-core/wording/findings'
import { analysisOf, fixedChance, type FixtureReading, inventedLog } from '../../helpers/analysisFixture'

const ORDER = [
  'lows-after-contradicted-highs',
  'lows-gather',
  'lows-in-runs',
  'highs-gather',
  'fasting-above-goal',
  'meal-rises-most',
  'trend',
  'weekends-differ',
  'round-values',
]

function findingsOf(rows: readonly FixtureReading[], settings: Partial<Settings> = {}) {
  return analysisOf(rows, { settings }).periods[0].findings
}

function textsOf({ findings }: Pick<PeriodFigures, 'findings'>, unit: Settings['unit'] = 'mg/dL') {
  return findings.map((finding) => findingText(finding, { ...DEFAULT_SETTINGS, unit }))
}

/** A log without any pattern, most of it in target. */
function quiet(seed: number, days = 60): readonly FixtureReading[] {
  return inventedLog({ days, seed, repeats: 0, centre: 118, spread: 0.28 })
}

const untagged = (rows: readonly FixtureReading[]) => rows.map((row) => ({ ...row, meal: '' }))
const dayOfRow = (row: FixtureReading) => row.at.slice(0, 10)

/** The log with each value changed where it is a number. */
function changed(
  rows: readonly FixtureReading[],
  change: (value: number, row: FixtureReading, i: number) => number,
): readonly FixtureReading[] {
  return rows.map((row, i) => ({
    ...row,
    value: typeof row.value === 'number' ? Math.round(change(row.value, row, i)) : row.value,
  }))
}

/** Without lows and highs, so that only what is planted can show. */
const calm = (seed: number, days = 60) =>
  changed(quiet(seed, days), (value) => Math.min(171, Math.max(81, value)))

describe('a finding speaks where its pattern was planted:', () => {
  it('lows that gather at hours', () => {
    const rows = changed(untagged(calm(1)), (value, { at }, i) =>
      at.slice(11, 13) === '12' && i % 3 === 0 ? 62 : value,
    )
    const [first] = findingsOf(rows)
    expect(first.code).toBe('lows-gather')
    expect(textsOf({ findings: [first] })[0]).toMatch(
      /^Lows gather between 12 and 15 \(on \d+ of \d+ occasions of testing; \d+ to \d+ %\); at other hours on 0 of \d+ \(0 to \d %\)\.$/,
    )
  })

  it('and says so where these hours were seldom tested', () => {
    const prompted = [2, 9, 15, 22, 30].map((day) => ({
      at: `2026-04-${String(day).padStart(2, '0')} 04:10`,
      value: 58,
    }))
    const text = textsOf({ findings: findingsOf([...untagged(calm(2)), ...prompted]) })[0]
    expect(text).toMatch(/between 3 and 6 \(on 5 of 5 occasions/)
    expect(text).toContain('some may have been made because a low was felt')
  })

  it('rechecks of one low are one occasion', () => {
    // Six tests below 70 within the hour of a single evening: one low, no pattern.
    const rechecks = [0, 8, 16, 24, 32, 40].map((minute) => ({
      at: `2026-04-02 16:${String(minute + 10)}`,
      value: 60,
    }))
    expect(findingsOf([...untagged(calm(2)), ...rechecks])).toEqual([])
  })

  it('lows that follow one another within a day', () => {
    const lowDays = new Set([
      '2026-03-10',
      '2026-03-11',
      '2026-03-12',
      '2026-03-23',
      '2026-03-24',
      '2026-04-02',
      '2026-04-03',
      '2026-04-04',
    ])
    const rows = changed(untagged(calm(3)), (value, row) =>
      lowDays.has(dayOfRow(row)) && ['12', '18'].includes(row.at.slice(11, 13)) ? 61 : value,
    )
    expect(findingsOf(rows).map(({ code }) => code)).toContain('lows-in-runs')
  })

  it('highs after a meal where the log tells meals, else by the hours', () => {
    const rows = changed(calm(4), (value, { meal }, i) =>
      meal === 'after breakfast' && i % 2 === 0 ? 215 : value,
    )
    const told = textsOf({ findings: findingsOf(rows) })
    expect(told[0]).toMatch(
      /^Readings above 180 gather after breakfast \(\d+ of \d+; \d+ to \d+ %\); at other times 0 of/,
    )
    const hours = textsOf({ findings: findingsOf(untagged(rows)) })
    expect(hours[0]).toMatch(/^Readings above 180 gather between 9 and 12 \(/)
    expect(hours.join(' ')).not.toMatch(/breakfast|dinner/)
  })

  it('mornings above the goal, not said again where highs before breakfast are told', () => {
    const morning = (to: number) =>
      changed(calm(5), (value, { meal }) => (meal === 'before breakfast' ? to : value))
    expect(textsOf({ findings: findingsOf(morning(152)) })[0]).toMatch(
      /^Most days start above 130, the goal before breakfast: (\d+) of \1 days/,
    )
    const codes = findingsOf(morning(205)).map(({ code }) => code)
    expect(codes).toContain('highs-gather')
    expect(codes).not.toContain('fasting-above-goal')
  })

  describe('mornings are held against the goal that fits the person:', () => {
    // American Diabetes Association, Standards of Care 2024, sections 13 and 15.
    const OLDER = { targetPreset: 'older-adult' } as const
    const PREGNANT = {
      targetPreset: 'pregnancy',
      targetLow: LIMITS.pregnancyLow,
      targetHigh: LIMITS.pregnancyHigh,
    } as const
    const mornings = (to: (i: number) => number) => {
      let i = 0
      return changed(calm(5), (value, { meal }) => (meal === 'before breakfast' ? to(i++) : value))
    }
    const fasting = (rows: readonly FixtureReading[], settings: Partial<Settings>) => {
      const found = findingsOf(rows, settings).find(({ code }) => code === 'fasting-above-goal')
      return found && findingText(found, { ...DEFAULT_SETTINGS, ...settings })
    }

    it('150 for older adults, 180 where health is very poor', () => {
      expect(
        fasting(
          mornings(() => 145),
          {},
        ),
      ).toContain('above 130, the goal')
      expect(
        fasting(
          mornings(() => 145),
          OLDER,
        ),
      ).toBeUndefined()
      expect(
        fasting(
          mornings(() => 155),
          OLDER,
        ),
      ).toContain('above 150, the goal')
      expect(
        fasting(
          mornings(() => 175),
          { targetPreset: 'frail' },
        ),
      ).toBeUndefined()
    })

    it('the person’s own, and none where only the target is the person’s own', () => {
      const ownGoal = { low: { mgDl: 100, mmol: 5.6 }, high: { mgDl: 140, mmol: 7.8 } }
      expect(
        fasting(
          mornings(() => 145),
          { ...OLDER, ownGoal },
        ),
      ).toMatch(/^Most days start above 140, the person’s own goal before breakfast/)
      const own = { targetLow: { mgDl: 100, mmol: 5.6 }, targetHigh: { mgDl: 200, mmol: 11.1 } }
      expect(
        fasting(
          mornings(() => 170),
          own,
        ),
      ).toBeUndefined()
    })

    it('in pregnancy every morning above 95 counts, also where they are few, and highs are told beside it', () => {
      expect(
        fasting(
          mornings((i) => (i % 5 === 0 ? 100 : 88)),
          PREGNANT,
        ),
      ).toMatch(/^Fasting was above 95, the goal in pregnancy, on 12 of 5\d days \(\d+ to \d+ %\)\.$/)
      expect(
        fasting(
          mornings((i) => (i < 2 ? 100 : 88)),
          PREGNANT,
        ),
      ).toBeUndefined()
      const high = findingsOf(
        mornings(() => 171),
        PREGNANT,
      ).map(({ code }) => code)
      expect(high).toContain('fasting-above-goal')
    })
  })

  it('a high morning together with the lows of its nights, which come first', () => {
    const nights = ['2026-03-05', '2026-03-12', '2026-03-20']
    const rows = [
      ...changed(calm(5), (value, { meal }) => (meal === 'before breakfast' ? 152 : value)),
      ...nights.map((day) => ({ at: `${day} 03:10`, value: 58 })),
    ].sort((a, b) => (a.at < b.at ? -1 : 1))
    const found = findingsOf(rows).find(({ code }) => code === 'fasting-above-goal')
    expect(found?.evidence).toMatchObject({
      readingsBelow70: 3,
      readingsBelow70AtNight: 3,
      nightsWithLows: 3,
    })
    expect(found && textsOf({ findings: [found] })[0]).toMatch(
      /; 3 readings below 70, 3 of them between 00 and 06, stand beside this and come first; after [23] of 3 nights with a low the morning was above the goal\.$/,
    )
  })

  it('no high without the lows beside it', () => {
    const rows = changed(calm(4), (value, { meal }, i) =>
      meal === 'after breakfast' && i % 2 === 0 ? 215 : meal === 'before dinner' && i % 90 === 3 ? 61 : value,
    )
    const text = textsOf({ findings: findingsOf(rows) }).find((told) => told.includes('above 180'))
    const lows = rows.filter(({ value }) => typeof value === 'number' && value < 70).length
    expect(lows).toBeGreaterThan(0)
    expect(text).toMatch(new RegExp(`; ${lows} readings? below 70 stands? beside this and comes? first\\.$`))
  })

  it('a meal over which glucose rises most', () => {
    const days = [...new Set(calm(6).map(dayOfRow))]
    const chance = fixedChance(6)
    const rows = days.flatMap((day): FixtureReading[] => {
      const before = 100 + 10 * chance()
      return [
        { at: `${day} 07:00`, value: Math.round(before), meal: 'before breakfast' },
        { at: `${day} 08:30`, value: Math.round(before + 45 + 20 * chance()), meal: 'after breakfast' },
        { at: `${day} 18:00`, value: Math.round(before), meal: 'before dinner' },
        { at: `${day} 19:30`, value: Math.round(before + 5 + 20 * chance()), meal: 'after dinner' },
      ]
    })
    const [text] = textsOf({ findings: findingsOf(rows) })
    expect(text).toMatch(
      /^Glucose rises most over breakfast: by 5\d mg\/dL in the median of 60 meals \(\d+ to \d+\); over other meals by 1\d, of 60\.$/,
    )
  })

  it('weekends that differ', () => {
    const weekend = (row: FixtureReading) => [0, 6].includes(new Date(dayOfRow(row)).getUTCDay())
    const rows = changed(calm(7), (value, row) => (weekend(row) ? Math.min(value, 135) + 35 : value))
    const texts = textsOf({ findings: findingsOf(rows) })
    expect(
      texts.some((text) =>
        /^Weekends run higher than weekdays: the daily median by \+\d+ mg\/dL \(.*\), over 8 weeks/.test(
          text,
        ),
      ),
    ).toBe(true)
  })

  it('a trend', () => {
    const rows = changed(
      calm(8),
      (value, row) => value * (1 - 0.005 * (Date.parse(dayOfRow(row)) / 864e5 - 20514)) + 30,
    )
    const texts = textsOf({ findings: findingsOf(rows) })
    expect(
      texts.some((text) =>
        /^Readings fall over the period: the weekly median by −3\d mg\/dL in all .*, over 8 weeks/.test(text),
      ),
    ).toBe(true)
  })

  it('values rounded to 0 and 5', () => {
    const rows = changed(calm(9), (value, _, i) => (i % 2 === 0 ? 5 * Math.round(value / 5) : value))
    expect(textsOf({ findings: findingsOf(rows) })).toEqual([
      expect.stringMatching(
        /^The last digit of \d+ of \d+ values \(\d+ to \d+ %\) is 0 or 5, where chance gives 20 %/,
      ),
    ])
  })

  it('a low within five hours after a contradicted high, and not where the low is the repeat itself', () => {
    const contradicted = (low: string) => [
      ...untagged(calm(10)),
      { at: '2026-03-12 15:00', value: 290 },
      { at: '2026-03-12 15:03', value: 118 },
      { at: '2026-03-12 15:06', value: 121 },
      { at: low, value: 60 },
    ]
    const analysis = analysisOf(contradicted('2026-03-12 17:10'))
    expect(analysis.technique.doubtful.map(({ index }) => analysis.readings.mgDl[index])).toContain(290)
    const [first] = analysis.periods[0].findings
    expect(first).toMatchObject({
      code: 'lows-after-contradicted-highs',
      evidence: { count: 1, n: 1 },
      adjustedP: null,
      withoutDoubtful: 'about-them',
    })
    expect(findingsOf(contradicted('2026-03-12 15:09')).map(({ code }) => code)).not.toContain(first.code)
    expect(findingsOf(contradicted('2026-03-12 21:10')).map(({ code }) => code)).not.toContain(first.code)
  })
})

describe('silence', () => {
  it('holds on nineteen of twenty logs without a pattern (200 with meals, 200 without)', () => {
    const alarms = (rowsOf: (seed: number) => readonly FixtureReading[]) => {
      let logs = 0
      for (let seed = 1; seed <= 200; seed++) if (findingsOf(rowsOf(seed)).length > 0) logs++
      return logs
    }
    // At 5 % more than 20 of 200 come once in 700 such tests.
    expect(alarms((seed) => quiet(seed))).toBeLessThanOrEqual(20)
    expect(alarms((seed) => untagged(quiet(seed + 1000)))).toBeLessThanOrEqual(20)
  })

  it('holds with too little to tell, and of a sensor', () => {
    expect(findingsOf([{ at: '2026-03-02 07:10', value: 104 }])).toEqual([])
    expect(findingsOf(quiet(1, 1))).toEqual([])
    const sensor = changed(quiet(2), (value, _, i) => (i % 5 === 0 ? 60 : value))
    expect(findingsOf(sensor.map((row) => ({ ...row, sensor: true })))).toEqual([])
  })
})

/** Much at once: lows at noon in runs, highs after breakfast, high mornings, a trend, rounded values. */
function eventful(): readonly FixtureReading[] {
  return changed(calm(11, 90), (value, row, i) => {
    const day = Date.parse(dayOfRow(row)) / 864e5 - 20514
    if (['before lunch', 'before dinner'].includes(row.meal ?? '') && day % 10 < 3) return 60
    if (row.meal === 'after breakfast' && day % 3 > 0) return 220
    if (row.meal === 'before breakfast') return 140 + 5 * (i % 3)
    return 5 * Math.round((value - 0.3 * day) / 5 + 3)
  })
}

describe('the findings of a log', () => {
  it('are at most five, in the order of what matters, lows first, each kind once', () => {
    const codes = findingsOf(eventful()).map(({ code }) => code)
    expect(codes).toHaveLength(5)
    expect(codes[0]).toBe('lows-gather')
    const places = codes.map((code) => ORDER.indexOf(code))
    expect(places).toEqual([...new Set(places)].sort((a, b) => a - b))
  })

  it('are the same at every run, and in the other unit but for the printed numbers', () => {
    const analysis = analysisOf(eventful())
    expect(findingsOf(eventful())).toEqual(analysis.periods[0].findings)
    expect(findingsOf(eventful(), { unit: 'mmol/L' })).toEqual(analysis.periods[0].findings)
    expect(textsOf(analysis.periods[0], 'mmol/L').join(' ')).toContain('above 10.0 gather')
  })

  it('are those of the same log written in mmol/L, rounded values apart', () => {
    const mmol = eventful().map((row) => ({
      ...row,
      value: typeof row.value === 'number' ? Math.round(10 * fromMgDl(row.value, 'mmol/L')) / 10 : row.value,
    }))
    const codes = analysisOf(mmol, { unit: 'mmol/L' }).periods[0].findings.map(({ code }) => code)
    expect(codes).toEqual(
      findingsOf(eventful())
        .map(({ code }) => code)
        .filter((code) => code !== 'round-values'),
    )
  })

  it('name a finding that rests on doubtful readings', () => {
    // Every evening's first test far too high, the repeat sound: without the doubtful ones no high is left.
    const evenings = [...new Set(calm(12, 40).map(dayOfRow))].filter((_, i) => i % 2 === 0)
    const rows = [
      ...untagged(calm(12, 40)),
      ...evenings.flatMap((day) => [
        { at: `${day} 15:00`, value: 560 },
        { at: `${day} 15:03`, value: 121 },
        { at: `${day} 15:06`, value: 119 },
      ]),
    ]
    const analysis = analysisOf(rows)
    expect(analysis.technique.doubtful).toHaveLength(evenings.length)
    expect(analysis.periods[0].findings).toMatchObject([
      { code: 'highs-gather', withoutDoubtful: 'disappears' },
    ])
  })
})
