import { describe, expect, it } from 'vitest'
import { DEFAULT_SETTINGS, type Settings } from '../../../src-core/model/settings'
import { FLAG, isBelow, isAbove, loggedUnit, type Readings } from '../../../src-core/log/readings'
import { LIMITS } from '../../../src-core/reference/limits'
import { assessTechnique } from '../../../src-core/technique/assessTechnique'
import { checkedReadings } from '../../../src-core/technique/checkedReadings'
import { chronologicalOrder } from '../../../src-core/technique/chronology'
import { at, readingsOf, row } from '../analysis/readingsOf'

function check(readings: Readings, settings: Partial<Settings> = {}): Readings {
  const all = { ...DEFAULT_SETTINGS, ...settings }
  return checkedReadings(readings, assessTechnique(readings, chronologicalOrder(readings), all))
}

const values = (readings: Readings) => Array.from({ length: readings.n }, (_, i) => readings.logged[i])
const USUAL = [121, 130, 138, 142, 149, 158, 171].map((value, i) => row(`2026-02-0${i + 1} 07:00`, value))

describe('checked readings', () => {
  it('are the very same where nothing is repeated or doubted', () => {
    const readings = readingsOf(USUAL)
    expect(check(readings)).toBe(readings)
  })

  it('hold one average for a set without a low, at the time of its first member', () => {
    const readings = readingsOf([
      ...USUAL,
      row('2026-03-07 20:28', 148, { meal: 'after dinner', note: 'first' }),
      row('2026-03-07 20:30', 143, { note: 'second' }),
    ])
    const checked = check(readings)
    expect(checked.n).toBe(8)
    expect(checked.at[7]).toBe(at('2026-03-07 20:28'))
    expect(checked.logged[7]).toBe(145.5)
    expect(checked.mgDl[7]).toBe(145.5)
    expect([checked.meal(7), checked.note(7)]).toEqual(['after dinner', 'first'])
  })

  it('leave a doubtful reading out and start the set with what remains', () => {
    const readings = readingsOf([
      ...USUAL,
      row('2026-03-07 23:59', 288),
      row('2026-03-08 00:01', 142),
      row('2026-03-08 00:03', 150),
    ])
    const checked = check(readings)
    expect(values(checked)).toEqual([121, 130, 138, 142, 149, 158, 171, 146])
    expect(checked.at[7]).toBe(at('2026-03-08 00:01'))
  })

  it('leave a set out whose members are all doubtful', () => {
    const set = [row('2026-03-07 20:28', 420), row('2026-03-07 20:30', 310), row('2026-03-07 20:32', 130)]
    const readings = readingsOf([...USUAL, ...set])
    const technique = assessTechnique(readings, chronologicalOrder(readings), DEFAULT_SETTINGS)
    const doubtful = [7, 8, 9].map((index) => ({ index, doubt: 1, reasons: [] }))
    expect(checkedReadings(readings, { ...technique, doubtful }).n).toBe(7)
  })

  it('keep the members of a set with a low apart, doubtful or not the low itself stays', () => {
    const agreeing = readingsOf([...USUAL, row('2026-03-07 20:28', 52), row('2026-03-07 20:37', 90)])
    expect(values(check(agreeing)).slice(7)).toEqual([52, 90])
    const contradicted = readingsOf([...USUAL, row('2026-03-07 20:28', 62), row('2026-03-07 20:31', 109)])
    expect(values(check(contradicted, { doubtThreshold: 0.04, doubtThresholdLow: 0 })).slice(7)).toEqual([62])
  })

  it('never lose a low, whatever is doubted', () => {
    const rows = [
      ...USUAL,
      row('2026-03-07 07:00', 150),
      row('2026-03-07 07:02', 62),
      row('2026-03-07 07:04', 145),
      row('2026-03-08 12:00', 20, { flags: FLAG.belowRange }),
      row('2026-03-08 12:03', 160),
      row('2026-03-09 12:00', 66, { flags: FLAG.changedConditions }),
      row('2026-03-09 12:03', 140, { flags: FLAG.changedConditions }),
    ]
    const readings = readingsOf(rows)
    const lows = (of: Readings) => values(of).filter((_, i) => isBelow(of, i, LIMITS.low))
    const checked = check(readings, { doubtThreshold: 0, doubtThresholdLow: 0 })
    expect(lows(checked)).toEqual(lows(readings))
    expect(lows(checked)).toEqual([62, 20, 66])
    expect(values(checked)).not.toContain(140)
  })

  it('average in the logged unit, so that a limit stays a limit', () => {
    // 9.9 and 10.1 sum to 20 exactly; 9.8, 10.0 and 10.2 sum to 30.000000000000004 in binary numbers.
    const mmol = { unit: 'mmol/L' } as const
    const readings = readingsOf([
      row('2026-03-07 07:00', 9.8, mmol),
      row('2026-03-07 07:01', 10.0, mmol),
      row('2026-03-07 07:02', 10.2, mmol),
    ])
    const checked = check(readings)
    expect(values(checked)).toEqual([10])
    expect(loggedUnit(checked, 0)).toBe('mmol/L')
    expect(checked.mgDl[0]).toBeCloseTo(180.156, 9)
    expect(isAbove(checked, 0, LIMITS.high)).toBe(false)
  })

  it('average in mg/dL where the units are mixed', () => {
    const readings = readingsOf([
      row('2026-03-07 07:00', 10, { unit: 'mmol/L' }),
      row('2026-03-07 07:01', 170, { meter: 'B' }),
    ])
    const checked = check(readings)
    expect(loggedUnit(checked, 0)).toBe('mg/dL')
    expect(checked.logged[0]).toBeCloseTo((180.156 + 170) / 2, 9)
  })

  it('are a marker only where every member is one', () => {
    const above = { flags: FLAG.aboveRange }
    const both = check(readingsOf([row('2026-03-07 07:00', 600, above), row('2026-03-07 07:01', 600, above)]))
    expect(both.flags[0] & FLAG.aboveRange).toBe(FLAG.aboveRange)
    const one = check(readingsOf([row('2026-03-07 07:00', 600, above), row('2026-03-07 07:01', 580)]))
    expect(one.n).toBe(1)
    expect(one.flags[0] & FLAG.aboveRange).toBe(0)
  })
})
