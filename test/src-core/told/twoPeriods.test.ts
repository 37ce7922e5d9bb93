import { describe, expect, it } from 'vitest'
import type { Change, Standing, Verdict } from '../../../src-core/compare/comparison'
import { type ChangeTold, clearTold, laterChange, twoPeriodsTold } from '../../../src-core/told/twoPeriods'
import { parseIsoDay } from '../../../src-core/units/wallClock'
import { analysisOf, inventedLog } from '../../helpers/analysisFixture'

const day = (date: string) => parseIsoDay(date) ?? 0
const versus = { from: day('2026-03-02'), to: day('2026-03-31') }
const period = { from: day('2026-04-01'), to: day('2026-04-30') }
const ROWS = [...inventedLog({ days: 30 }), ...inventedLog({ days: 30, firstDay: '2026-04-01' })]

/** The cautions where so many of ten readings are of meter A in the first month, then in the second. */
function codes(earlier: number, later: number, spans = { period, versus }) {
  const rows = ROWS.map((row, i) => ({
    ...row,
    meter: i % 10 < (row.at < '2026-04' ? earlier : later) ? 'meter A' : 'meter B',
  }))
  return twoPeriodsTold(analysisOf(rows, spans))?.cautions.map(({ code }) => code)
}

describe('what must be known before two periods are compared', () => {
  it('is that a meter’s part moved by more than twenty points', () => {
    expect(codes(6, 6)).not.toContain('meter-mix')
    expect(codes(6, 5)).not.toContain('meter-mix')
    expect(codes(8, 4)).toContain('meter-mix')
  })

  it('is that days lie in both, and that one has fewer than eight days with readings', () => {
    expect(codes(6, 6)).not.toContain('shared-days')
    expect(codes(6, 6, { period: { ...period, from: versus.to }, versus })).toContain('shared-days')
    const week = { from: period.from, to: period.from + 6 }
    expect(codes(6, 6, { period: week, versus })).toContain('few-days')
    expect(codes(6, 6, { period: { ...week, to: week.to + 1 }, versus })).not.toContain('few-days')
  })

  it('stands of no single period', () => {
    expect(twoPeriodsTold(analysisOf(ROWS))).toBeNull()
  })
})

describe('a change from the earlier period to the later', () => {
  /** What is said of a change of glucose with this interval, the earlier period named first or second. */
  const told = (ci95: Change['ci95'], verdict: Verdict, standing: Standing, firstIsLater = true) => {
    const change: Change = { first: 120, second: 140, difference: -20, ci95, verdict, p: 0.01 }
    return laterChange(change, firstIsLater, standing, 'glucose', 'mg/dL')
  }

  it('is the same whichever period was named first', () => {
    const named = told([-30, -10], 'lower', 'judged')
    expect(named).toMatchObject({ earlier: 140, later: 120, ci95: [-30, -10], said: 'lower' })
    const turned = told([-30, -10], 'lower', 'judged', false)
    expect(turned).toMatchObject({ earlier: 120, later: 140, ci95: [10, 30], said: 'higher' })
  })

  it('is called higher or lower only where it may be judged and all rows together show more than chance', () => {
    expect(told([-30, -10], 'lower', 'withheld').said).toBe('withheld')
    expect(told([-30, 10], 'unclear', 'withheld').said).toBe('withheld')
    expect(told([-30, -10], 'lower', 'not-with-all-rows').said).toBe('not-with-all-rows')
    expect(told([-30, 10], 'unclear', 'not-with-all-rows').said).toBe('unclear')
  })

  it('that is clear never prints a limit of 0', () => {
    expect(told([0.04, 1.2], 'higher', 'judged').moreDecimals).toBe(2)
    expect(told([0.6, 1.2], 'higher', 'judged').moreDecimals).toBe(0)
    expect(told([0.04, 1.2], 'unclear', 'judged').moreDecimals).toBe(0)
    expect(told([0.04, 1.2], 'higher', 'withheld').moreDecimals).toBe(0)
  })
})

describe('what is clear', () => {
  const row = (
    of: ChangeTold['of'],
    said: ChangeTold['said'],
    parts: Partial<ChangeTold> = {},
  ): ChangeTold => ({
    of,
    said,
    quantity: 'glucose',
    heldBack: null,
    earlier: 150,
    later: 140,
    ci95: [-20, -1],
    moreDecimals: 0,
    ...parts,
  })

  it('is what a row calls higher or lower, and not clear what it does not', () => {
    const mean = row('meanMgDl', 'lower')
    const told = clearTold([
      mean,
      row('medianMgDl', 'unclear'),
      row('sdMgDl', 'unclear'),
      row('cvPercent', 'unclear'),
    ])
    expect(told).toEqual({
      clear: [{ row: mean, alike: [] }],
      notClear: ['medianMgDl', 'spread'],
      rowsStandOut: false,
      noVerdict: null,
    })
    expect(clearTold([row('sdMgDl', 'lower'), row('cvPercent', 'unclear')]).notClear).toEqual(['cvPercent'])
  })

  it('tells a mean at one mix with the mean where both say the same, else by itself', () => {
    const mean = row('meanMgDl', 'lower')
    expect(clearTold([mean, row('sameTimes', 'lower'), row('sameMeals', 'unclear')])).toMatchObject({
      clear: [{ row: mean, alike: ['sameTimes'] }],
      notClear: ['sameMeals'],
    })
    expect(clearTold([row('meanMgDl', 'unclear'), row('sameTimes', 'unclear')]).notClear).toEqual([
      'meanMgDl',
    ])
    const turned = clearTold([mean, row('sameTimes', 'higher')])
    expect(turned.clear.map(({ row: { of } }) => of)).toEqual(['meanMgDl', 'sameTimes'])
    const withheld = clearTold([row('meanMgDl', 'withheld'), row('sameTimes', 'lower')])
    expect(withheld.clear.map(({ row: { of } }) => of)).toEqual(['sameTimes'])
    expect(withheld.noVerdict).toBe('habit')
  })

  it('is nothing where a row would be clear by itself and all together are not', () => {
    const told = clearTold([row('meanMgDl', 'not-with-all-rows'), row('medianMgDl', 'unclear')])
    expect(told).toMatchObject({ clear: [], notClear: ['meanMgDl', 'medianMgDl'], rowsStandOut: true })
  })

  it('is held back where the table holds back', () => {
    const few = { why: 'few-readings', fewest: 15 } as const
    expect(clearTold([row('meanMgDl', 'withheld')])).toMatchObject({
      clear: [],
      notClear: [],
      noVerdict: 'habit',
    })
    expect(clearTold([row('meanMgDl', 'unclear', { ci95: null })]).noVerdict).toBe('few-days')
    expect(clearTold([row('sdMgDl', 'lower', { heldBack: few })])).toMatchObject({
      clear: [],
      noVerdict: 'held-back',
    })
  })

  it('tells a larger share of lows and never a smaller one', () => {
    const more = row('percentBelow70', 'higher', { quantity: 'share' })
    expect(clearTold([more]).clear).toEqual([{ row: more, alike: [] }])
    const fewer = clearTold([row('percentBelow70', 'lower'), row('percentBelow54', 'unclear')])
    expect(fewer).toEqual({ clear: [], notClear: [], rowsStandOut: false, noVerdict: null })
  })

  it('of two months stands with every row that has a verdict', () => {
    const months = [
      ...inventedLog({ days: 30 }),
      ...inventedLog({ days: 30, firstDay: '2026-04-01', centre: 110 }),
    ]
    const told = twoPeriodsTold(analysisOf(months, { period, versus }))
    const said = told?.rows.filter(({ said }) => said === 'higher' || said === 'lower').map(({ of }) => of)
    expect(said).toContain('meanMgDl')
    const lows = ['percentBelow54', 'percentBelow70']
    const named = told?.clear.clear.flatMap(({ row: { of }, alike }) => [of, ...alike])
    expect(named).toEqual(
      told?.rows
        .filter(({ of, said }) => said === 'higher' || (said === 'lower' && !lows.includes(of)))
        .map(({ of }) => of),
    )
  })
})
