import { describe, expect, it } from 'vitest'
import {
  lowsChange as lowsChangeBeside,
  type LowsOfPeriod,
  type ShareSaid,
} from '../../../src-core/compare/lowsOfTwo'

const FEW = {
  readingsBelow70: 2,
  readingsBelow54: 0,
  episodes: 2,
  daysWithLows: 2,
  daysWithReadings: 30,
  readingsPerDay: 5.04,
  nightsTested: 2,
  nights: 30,
  timesKnown: true,
}
const MANY = {
  readingsBelow70: 7,
  readingsBelow54: 1,
  episodes: 6,
  daysWithLows: 5,
  daysWithReadings: 31,
  readingsPerDay: 4.96,
  nightsTested: 6,
  nights: 31,
  timesKnown: true,
}
const NONE = { ...MANY, readingsBelow70: 0, readingsBelow54: 0, episodes: 0, daysWithLows: 0 }
const NO_SHARES = { below70: null, below54: null } as const
const lowsChange = (earlier: LowsOfPeriod, later: LowsOfPeriod) => lowsChangeBeside(earlier, later, NO_SHARES)

describe('a change of lows', () => {
  it('is not called fewer where nobody knows which nights were tested; more is told all the same', () => {
    expect(lowsChange(MANY, { ...FEW, timesKnown: false }).said).toBe('times-unknown')
    expect(lowsChange({ ...MANY, timesKnown: false }, FEW).said).toBe('times-unknown')
    expect(lowsChange(FEW, { ...MANY, timesKnown: false }).said).toBe('more')
    expect(lowsChange(MANY, { ...NONE, daysWithReadings: 7, timesKnown: false }).said).toBe('too-few-days')
  })

  it('is judged by the days with readings, and where those are alike by the very low ones', () => {
    const half = { ...MANY, readingsBelow70: 4, daysWithReadings: 10 }
    expect(lowsChange(MANY, half).said).toBe('more')
    expect(lowsChange({ ...MANY, readingsBelow54: 0 }, MANY).said).toBe('more')
    expect(lowsChange(MANY, MANY).said).toBe('same')
  })

  it('tells what differs: their number, the very low ones, or only their number a day', () => {
    expect(lowsChange(FEW, MANY).by).toBe('count')
    expect(lowsChange({ ...MANY, readingsBelow54: 0 }, MANY)).toMatchObject({ said: 'more', by: 'very-low' })
    // 7 in 31 days, 5 in 10.
    const fewerInFewerDays = { ...MANY, readingsBelow70: 5, daysWithReadings: 10 }
    expect(lowsChange(MANY, fewerInFewerDays)).toMatchObject({ said: 'more', by: 'a-day' })
    expect(lowsChange(MANY, { ...MANY, daysWithReadings: 40 })).toMatchObject({ said: 'fewer', by: 'a-day' })
  })

  it('is clear only where the share in the table is called so, the same way', () => {
    const beside = (below70: ShareSaid) => lowsChangeBeside(MANY, FEW, { below70, below54: 'lower' }).standing
    expect(beside('lower')).toBe('clear')
    expect(beside('higher')).toBe('mixed')
    expect(beside('withheld')).toBe('tests')
    for (const said of ['unclear', 'not-with-all-rows', null] as const) expect(beside(said)).toBe('chance')
    const veryLow = { below70: 'unclear', below54: 'higher' } as const
    expect(lowsChangeBeside({ ...MANY, readingsBelow54: 0 }, MANY, veryLow).standing).toBe('clear')
  })

  it('to few days is never called fewer, but more are always told', () => {
    expect(lowsChange(MANY, { ...NONE, daysWithReadings: 1 }).said).toBe('too-few-days')
    expect(lowsChange({ ...MANY, daysWithReadings: 7 }, FEW).said).toBe('too-few-days')
    expect(lowsChange({ ...MANY, daysWithReadings: 8 }, FEW).said).toBe('fewer')
    expect(lowsChange(FEW, { ...MANY, daysWithReadings: 1 }).said).toBe('more')
  })

  it('that rose never has fewer tests put beside it, nor is made light of', () => {
    expect(lowsChange(FEW, MANY)).toMatchObject({ said: 'more', caution: null })
    expect(lowsChange(FEW, { ...MANY, readingsPerDay: 1 })).toMatchObject({ said: 'more', caution: null })
    expect(lowsChange(FEW, { ...MANY, readingsPerDay: 7 }).caution).toBe('more-tests')
  })

  it('that fell says what fewer tests hide', () => {
    expect(lowsChange(MANY, FEW)).toMatchObject({ said: 'fewer', caution: 'untested-hours' })
    expect(lowsChange(MANY, { ...FEW, readingsPerDay: 1 }).caution).toBe('fewer-tests')
  })

  it('is one of none where neither period holds any', () => {
    expect(lowsChange(NONE, NONE).none).toBe(true)
    expect(lowsChange(NONE, FEW).none).toBe(false)
  })
})
