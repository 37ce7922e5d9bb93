import { describe, expect, it } from 'vitest'
import {
  type LowsChange,
  lowsChange as lowsChangeBeside,
  type LowsOfPeriod,
} from '../../../src-core/compare/lowsOfTwo'
import type {
  Caution,
  ChangeTold,
  ClearChange,
  ClearTold,
  LaterChange,
} from '../../../src-core/told/twoPeriods'
import {
  cautionSentence,
  changeText,
  clearSentence,
  lowsChangeSentence,
  lowsChangeText,
} from '../../../src-core/wording/english/comparison'
import { ENGLISH } from '../../../src-core/wording/english'
import { terminalSummary } from '../../../src-core/report/terminalSummary'
import { LIMITS } from '../../../src-core/reference/limits'
import type { Naming } from '../../../src-core/told/measures'
import { parseIsoDay } from '../../../src-core/units/wallClock'
import { analysisOf, inventedLog } from '../../helpers/analysisFixture'

/** A change as printed. */
const text = (
  change: Partial<LaterChange>,
  unit: 'mg/dL' | 'mmol/L' = 'mg/dL',
  quantity: 'glucose' | 'share' = 'glucose',
) =>
  changeText(
    { earlier: 165, later: 139, ci95: [-33, -19], said: 'unclear', moreDecimals: 0, ...change, quantity },
    unit,
  )

describe('a change in words', () => {
  it('is told with its size and its limits', () => {
    expect(text({ earlier: 140, later: 148, ci95: [-5, 21] })).toBe('No clear change: +8, could be −5 to +21')
    expect(text({ earlier: 75.3, later: 86, ci95: [3, 18.4], said: 'higher' }, 'mg/dL', 'share')).toBe(
      'Higher: +11 points, could be +3 to +18',
    )
    expect(text({ earlier: 160, later: 142, ci95: [-30, -6], said: 'lower' }, 'mmol/L')).toBe(
      'Lower: −1.0, could be −1.7 to −0.3',
    )
    expect(text({ earlier: 140, later: 140.6, ci95: [0.04, 1.2], said: 'higher', moreDecimals: 2 })).toBe(
      'Higher: +0.60, could be +0.04 to +1.20',
    )
  })

  it('of which no verdict may be given says so first', () => {
    expect(text({ said: 'withheld' })).toBe('No verdict: −26, could be −33 to −19')
    expect(text({ said: 'not-with-all-rows' })).toBe('Not clear among all rows: −26, could be −33 to −19')
  })

  it('adds up with the numbers printed beside it', () => {
    // Printed 143 and 137; the difference unrounded is -5.5.
    expect(text({ earlier: 142.5, later: 137, ci95: [-16, 3] })).toContain(': −6,')
  })

  it('without an interval says why there is no verdict', () => {
    expect(text({ earlier: 140, later: 120, ci95: null })).toBe('−20; too few days to rule out chance')
    expect(text({ earlier: null, later: 120, ci95: null })).toBe('too few readings')
  })
})

describe('lows of two periods in words', () => {
  const lowsChange = (earlier: LowsOfPeriod, later: LowsOfPeriod) =>
    lowsChangeBeside(earlier, later, { below70: 'unclear', below54: 'unclear' })
  const ROSE: LowsChange = lowsChange(
    {
      readingsBelow70: 2,
      readingsBelow54: 0,
      episodes: 2,
      daysWithLows: 2,
      daysWithReadings: 30,
      readingsPerDay: 5.04,
      nightsTested: 2,
      nights: 30,
      timesKnown: true,
    },
    {
      readingsBelow70: 7,
      readingsBelow54: 1,
      episodes: 6,
      daysWithLows: 5,
      daysWithReadings: 31,
      readingsPerDay: 4.96,
      nightsTested: 6,
      nights: 31,
      timesKnown: true,
    },
  )
  const NAMES = ['1–30 April', '1–31 May']

  it('tell readings, days, episodes and tests a day, the later period first', () => {
    expect(lowsChangeSentence(ROSE, NAMES, 'mg/dL')).toBe(
      'More lows counted in 1–31 May than in 1–30 April: 7 readings below 70 on 5 of 31 days with tests (6 episodes, 1 below 54); ' +
        'before, 2 on 2 of 30 days (2 episodes, none below 54). Chance may explain it. Every one counts. Tests: 5.0 a day, 5.0 before.',
    )
    expect(lowsChangeText(ROSE, 'mg/dL')).toMatch(/^More: \+5/)
    const oneDay = lowsChange(ROSE.later, { ...ROSE.earlier, readingsBelow70: 0, daysWithReadings: 1 })
    expect(lowsChangeText(oneDay, 'mg/dL')).toMatch(/^Too few days/)
    expect(lowsChangeSentence(oneDay, NAMES, 'mg/dL')).toMatch(
      /^Lows in 1–31 May and in 1–30 April, with too few days to call them fewer: /,
    )
    expect(lowsChangeSentence(ROSE, NAMES, 'mmol/L')).toContain('7 readings below 3.9')
  })

  it('are a finding only where the share in the table is called so too', () => {
    const beside = (below70: 'higher' | 'lower' | 'withheld') =>
      lowsChangeSentence(
        lowsChangeBeside(ROSE.earlier, ROSE.later, { below70, below54: null }),
        NAMES,
        'mg/dL',
      )
    expect(beside('higher')).toMatch(/^More lows in 1–31 May than in 1–30 April: /)
    expect(beside('higher')).not.toContain('may explain')
    expect(beside('lower')).toMatch(/^More lows counted in /)
    expect(beside('withheld')).toMatch(
      /^More lows counted in .* Other hours or meals of tests may explain it\. Every one counts\./,
    )
    const same = lowsChangeSentence(lowsChange(ROSE.later, ROSE.later), NAMES, 'mg/dL')
    expect(same).toMatch(/^As many lows counted in 1–31 May as in 1–30 April: /)
    expect(same).not.toContain('may explain')
  })

  it('say what differs where their number does not', () => {
    const veryLow = lowsChange({ ...ROSE.later, readingsBelow54: 0 }, ROSE.later)
    expect(lowsChangeSentence(veryLow, NAMES, 'mg/dL')).toMatch(/^More lows below 54 counted in /)
    expect(lowsChangeText(veryLow, 'mg/dL')).toMatch(/^More below 54: \+1;/)
    const longer = lowsChange(ROSE.later, { ...ROSE.later, readingsBelow70: 8, daysWithReadings: 62 })
    expect(lowsChangeSentence(longer, NAMES, 'mg/dL')).toMatch(/^Fewer lows a day counted in /)
    expect(lowsChangeText(longer, 'mg/dL')).toBe('Fewer a day with tests; see above')
  })

  it('say what the number of tests makes of them', () => {
    const moreTests = lowsChange(ROSE.earlier, { ...ROSE.later, readingsPerDay: 7 })
    expect(lowsChangeSentence(moreTests, NAMES, 'mg/dL')).toMatch(
      /More tests find more lows; every one counts\.$/,
    )
    const fell = lowsChange(ROSE.later, ROSE.earlier)
    expect(lowsChangeSentence(fell, NAMES, 'mg/dL')).toMatch(
      /^Fewer lows counted in .*Untested hours show no lows\.$/,
    )
    const fewerTests = lowsChange(ROSE.later, { ...ROSE.earlier, readingsPerDay: 1 })
    expect(lowsChangeSentence(fewerTests, NAMES, 'mg/dL')).toContain('Fewer tests were made, too')
  })

  it('are called fewer only beside the nights tested', () => {
    const fell = lowsChange(ROSE.later, ROSE.earlier)
    expect(lowsChangeSentence(fell, NAMES, 'mg/dL')).toMatch(
      /^Fewer lows counted in .*Nights tested: 2 of 30, 6 of 31 before\./,
    )
    const unknown = lowsChange(ROSE.later, { ...ROSE.earlier, timesKnown: false })
    expect(lowsChangeSentence(unknown, NAMES, 'mg/dL')).toMatch(
      /^Lows in 1–31 May and in 1–30 April, not called fewer, since /,
    )
    expect(lowsChangeSentence(unknown, NAMES, 'mg/dL')).not.toContain('Nights tested')
    expect(lowsChangeText(unknown, 'mg/dL')).not.toContain('Fewer')
  })

  it('of none in either say that this shows nothing', () => {
    const none = { ...ROSE.later, readingsBelow70: 0, readingsBelow54: 0, episodes: 0, daysWithLows: 0 }
    expect(lowsChangeSentence(lowsChange(none, none), NAMES, 'mg/dL')).toContain(
      'does not show that there were none',
    )
    expect(lowsChangeSentence(lowsChange(none, ROSE.later), NAMES, 'mg/dL')).toContain(
      'before, none on 31 days with tests.',
    )
  })
})

describe('what is clear of two periods, in words', () => {
  const NAMING = {
    kind: 'finger-stick',
    targetLow: LIMITS.low,
    targetHigh: LIMITS.high,
    unit: 'mg/dL',
    balancedBlocks: 8,
  } as const satisfies Naming
  const NONE: ClearTold = { clear: [], notClear: [], rowsStandOut: false, noVerdict: null }
  const row = (
    of: ChangeTold['of'],
    parts: Partial<ChangeTold>,
    alike: ClearChange['alike'] = [],
  ): ClearChange => ({
    alike,
    row: {
      of,
      quantity: 'glucose',
      heldBack: null,
      earlier: 155.2,
      later: 137.9,
      ci95: [-30, -4],
      said: 'lower',
      moreDecimals: 0,
      ...parts,
    },
  })
  const share = { quantity: 'share', earlier: 75.3, later: 86.4, ci95: [1, 20], said: 'higher' } as const

  it('names what is, by as much as the printed figures differ, then what is not', () => {
    const told: ClearTold = {
      ...NONE,
      clear: [row('meanMgDl', {}), row('percentInTarget', share)],
      notClear: ['spread'],
    }
    expect(clearSentence(told, NAMING)).toBe(
      'Clear: the mean is lower by 17 mg/dL, the share from 70 to 180 higher by 11 points. Not clear: the spread.',
    )
    // 8.6 and 7.7 mmol/L.
    expect(clearSentence({ ...told, notClear: [] }, { ...NAMING, unit: 'mmol/L' })).toBe(
      'Clear: the mean is lower by 0.9 mmol/L, the share from 3.9 to 10.0 higher by 11 points.',
    )
  })

  it('tells with the mean what the same times and meals say alike', () => {
    const beside = (...alike: ClearChange['alike']) =>
      clearSentence({ ...NONE, clear: [row('meanMgDl', {}, alike)] }, NAMING)
    expect(beside('sameTimes')).toMatch(/17 mg\/dL \(also at the same times of day\)\.$/)
    expect(beside('sameMeals')).toMatch(/17 mg\/dL \(also at the same meals\)\.$/)
    expect(beside('sameTimes', 'sameMeals')).toMatch(/17 mg\/dL \(also at the same times and meals\)\.$/)
  })

  it('calls no clear change one of nothing', () => {
    const small = row('meanMgDl', { earlier: 140.4, later: 139.6, ci95: [-1.4, -0.6] })
    expect(clearSentence({ ...NONE, clear: [small] }, NAMING)).toBe('Clear: the mean is lower by 1 mg/dL.')
  })

  it('says that nothing is, and why', () => {
    expect(clearSentence({ ...NONE, notClear: ['meanMgDl'] }, NAMING)).toMatch(/^Nothing is clear: each /)
    expect(clearSentence({ ...NONE, notClear: ['meanMgDl'], rowsStandOut: true }, NAMING)).toContain(
      'all together show no more than chance',
    )
  })

  it('says what prevents a verdict', () => {
    expect(clearSentence({ ...NONE, noVerdict: 'habit' }, NAMING)).toMatch(
      /^No verdict: tests were made at other/,
    )
    expect(clearSentence({ ...NONE, noVerdict: 'few-days' }, NAMING)).toMatch(/^No verdict: .*too few days/)
    expect(clearSentence({ ...NONE, noVerdict: 'held-back' }, NAMING)).toMatch(
      /^No verdict: .*too few readings/,
    )
    expect(clearSentence({ ...NONE, clear: [row('sameTimes', {})], noVerdict: 'habit' }, NAMING)).toMatch(
      /^Clear: the mean at the same times of day is lower by 17 mg\/dL\. No verdict on the other figures: /,
    )
  })
})

describe('cautions before a verdict', () => {
  const NAMES = ['1–30 April', '1–31 May']
  const sentence = (caution: Caution) => cautionSentence(caution, NAMES, 'without-year')

  it('name meters whose part moved', () => {
    const moved = [
      { meter: 'meter A', earlierPercent: 92, laterPercent: 20 },
      { meter: 'meter B', earlierPercent: 8, laterPercent: 80 },
    ]
    expect(sentence({ code: 'meter-mix', moved })).toMatch(
      /^Before any verdict: meter A gave 92 % of the readings of 1–30 April and 20 % of those of 1–31 May and meter B 8 % and 80 %\. .*may come from the meters\.$/,
    )
  })

  it('tell of days in both periods', () => {
    const from = parseIsoDay('2026-05-01') ?? 0
    expect(sentence({ code: 'shared-days', shared: { from, to: from + 9 } })).toContain(
      'share 10 days (1–10 May), which count in both',
    )
    expect(sentence({ code: 'shared-days', shared: { from, to: from } })).toContain(
      'share 1 day (1 May), which counts in both',
    )
  })

  it('tell of few days', () => {
    expect(sentence({ code: 'few-days', fewest: 8 })).toContain('fewer than 8 days')
  })
})

describe('the terminal', () => {
  const versus = { from: parseIsoDay('2026-03-02') ?? 0, to: parseIsoDay('2026-03-31') ?? 0 }
  const period = { from: parseIsoDay('2026-04-01') ?? 0, to: parseIsoDay('2026-04-30') ?? 0 }
  const rows = [
    ...inventedLog({ days: 30, spread: 0.15 }),
    ...inventedLog({ days: 30, firstDay: '2026-04-01', centre: 110, spread: 0.15 }),
  ]

  it('tells the change of the mean, the same at the same hours, and the lows, earlier first', () => {
    const text = terminalSummary(ENGLISH, analysisOf(rows, { period, versus }), []).join('\n')
    const turned = terminalSummary(ENGLISH, analysisOf(rows, { period: versus, versus: period }), []).join(
      '\n',
    )
    const line =
      /1–30 April 2026 against 2–31 March 2026, mean (\d+) → (\d+) mg\/dL\. Lower: −\d+, could be −\d+ to −\d+/
    expect(text).toMatch(line)
    expect(line.exec(turned)?.[0]).toBe(line.exec(text)?.[0])
    expect(text).toMatch(/At the same times of day: \d+ → \d+ mg\/dL\. Lower/)
    const lows = 'No low was recorded in 2–31 March 2026 or 1–30 April 2026.'
    expect(text).toContain(lows)
    expect(text.indexOf(lows)).toBeLessThan(text.indexOf('At the same times of day'))
  })

  it('says before any verdict that the meters changed', () => {
    const meters = rows.map((row) => ({ ...row, meter: row.at < '2026-04' ? 'meter A' : 'meter B' }))
    const text = terminalSummary(ENGLISH, analysisOf(meters, { period, versus }), []).join('\n')
    expect(text).toContain('Before any verdict: meter A gave 100 %')
    expect(text.indexOf('Before any verdict')).toBeLessThan(text.indexOf(' against '))
    expect(text.indexOf('No low was recorded in')).toBeLessThan(text.indexOf('Before any verdict'))
  })

  it('says nothing of a second period that nobody asked for', () => {
    expect(terminalSummary(ENGLISH, analysisOf(rows, { period }), []).join('\n')).not.toContain('against')
  })
})
