import { describe, expect, it } from 'vitest'
import { findLows, type Lows } from '../../../src-core/day/lows'
import { FLAG, type Readings } from '../../../src-core/log/readings'
import { chronologicalOrder } from '../../../src-core/technique/chronology'
import { at, readingsOf, row } from '../analysis/readingsOf'

function lowsOf(readings: Readings, parts: Partial<Parameters<typeof findLows>[0]> = {}): Lows {
  return findLows({
    readings,
    order: chronologicalOrder(readings),
    start: 0,
    end: readings.n,
    days: 3,
    leaveOut: 0,
    doubtful: new Set(),
    notCounted: [],
    ...parts,
  })
}

describe('counts of lows', () => {
  it('take readings strictly below the limits and markers at the meter’s lower limit', () => {
    const lows = lowsOf(
      readingsOf([
        row('2026-03-01 07:00', 70),
        row('2026-03-01 08:00', 69),
        row('2026-03-01 09:00', 53),
        row('2026-03-01 10:00', 54),
        row('2026-03-01 11:00', 20, { flags: FLAG.belowRange }),
        row('2026-03-01 12:00', 3.9, { unit: 'mmol/L' }),
        row('2026-03-01 13:00', 3.8, { unit: 'mmol/L' }),
      ]),
    )
    expect(lows.readingsBelow70).toBe(5)
    expect(lows.readingsBelow54).toBe(2)
  })

  it('tell how many readings lie just above, where the meter’s tolerance could hide a low', () => {
    const lows = lowsOf(
      readingsOf([
        row('2026-03-01 07:00', 70),
        row('2026-03-01 08:00', 84),
        row('2026-03-01 09:00', 85),
        row('2026-03-01 10:00', 4.7, { unit: 'mmol/L' }),
        row('2026-03-01 11:00', 4.8, { unit: 'mmol/L' }),
        row('2026-03-01 12:00', 69),
      ]),
    )
    expect(lows.nearLows).toBe(3)
  })
})

describe('each low', () => {
  it('is told with the next test of any meter', () => {
    const readings = readingsOf([
      row('2026-03-01 07:00', 60),
      row('2026-03-01 07:09', 90, { meter: 'B' }),
      row('2026-03-02 22:00', 55),
    ])
    expect(lowsOf(readings).each).toEqual([
      { index: 0, next: 1 },
      { index: 2, next: null },
    ])
  })

  it('without a time of day has no next test', () => {
    const readings = readingsOf([
      row('2026-03-01 00:00', 60, { flags: FLAG.dayOnly }),
      row('2026-03-01 07:00', 90),
    ])
    expect(lowsOf(readings).each).toEqual([{ index: 0, next: null }])
  })

  it('of the period finds its next test after the period', () => {
    const readings = readingsOf([row('2026-03-01 23:50', 60), row('2026-03-02 00:05', 110)])
    expect(lowsOf(readings, { end: 1 }).each).toEqual([{ index: 0, next: 1 }])
  })
})

describe('episodes', () => {
  it('join neighbouring lows at most 60 minutes apart, with the lowest and the doubtful ones', () => {
    const readings = readingsOf([
      row('2026-03-01 07:00', 65),
      row('2026-03-01 08:00', 52),
      row('2026-03-01 09:01', 60),
    ])
    const { episodes } = lowsOf(readings, { doubtful: new Set([1]) })
    expect(episodes).toEqual([
      {
        from: at('2026-03-01 07:00'),
        to: at('2026-03-01 08:00'),
        lowestMgDl: 52,
        members: [0, 1],
        doubtful: 1,
        recovered: null,
      },
      {
        from: at('2026-03-01 09:01'),
        to: at('2026-03-01 09:01'),
        lowestMgDl: 60,
        members: [2],
        doubtful: 0,
        recovered: null,
      },
    ])
  })

  it('end where a reading of any meter is not low', () => {
    const readings = readingsOf([
      row('2026-03-01 07:00', 65),
      row('2026-03-01 07:10', 70, { meter: 'B' }),
      row('2026-03-01 07:20', 66),
    ])
    expect(lowsOf(readings).episodes.map(({ members }) => members)).toEqual([[0], [2]])
  })

  it('are over with the first reading that is no low, of any meter, within four hours, also after the period', () => {
    const readings = readingsOf([
      row('2026-03-01 07:00', 60),
      row('2026-03-01 07:20', 66),
      row('2026-03-01 11:20', 95, { meter: 'B' }),
      row('2026-03-01 13:00', 62),
      row('2026-03-01 17:01', 120),
      row('2026-03-01 22:00', 61),
      row('2026-03-01 23:30', 64),
      row('2026-03-01 23:45', 105),
      row('2026-03-01 23:50', 50),
      row('2026-03-02 00:10', 140),
    ])
    const { episodes } = lowsOf(readings, { end: 9 })
    expect(episodes.map(({ members, recovered }) => [members[0], recovered])).toEqual([
      [0, 2],
      [3, null],
      [5, 7],
      [6, 7],
      [8, 9],
    ])
  })

  it('neither hold nor are broken by readings without a time of day', () => {
    const readings = readingsOf([
      row('2026-03-01 23:50', 60),
      row('2026-03-02 00:00', 150, { flags: FLAG.dayOnly }),
      row('2026-03-02 00:10', 61),
    ])
    expect(lowsOf(readings).episodes.map(({ members }) => members)).toEqual([[0, 2]])
  })

  it('do not span the hour by which the clock was set back', () => {
    // 02:50 +02:00 and 02:55 +01:00 lie 65 minutes apart.
    const readings = readingsOf([
      row('2026-10-25 02:50', 60, { flags: FLAG.offset, offsetMinutes: 120 }),
      row('2026-10-25 02:55', 61, { flags: FLAG.offset, offsetMinutes: 60 }),
    ])
    expect(lowsOf(readings).episodes).toHaveLength(2)
  })
})

describe('nights', () => {
  it('are tested by a reading from 00:00 to before 06:00', () => {
    const readings = readingsOf([
      row('2026-03-01 00:00', 100),
      row('2026-03-01 05:59', 100),
      row('2026-03-02 06:00', 100),
      row('2026-03-03 00:00', 100, { flags: FLAG.dayOnly }),
    ])
    expect(lowsOf(readings)).toMatchObject({ nightsTested: 1, nights: 3 })
  })
})

describe('sensor readings beside finger-sticks', () => {
  it('are in no count, episode or next test', () => {
    const readings = readingsOf([
      row('2026-03-01 03:00', 60),
      row('2026-03-01 03:05', 58, { flags: FLAG.sensor }),
      row('2026-03-02 03:00', 58, { flags: FLAG.sensor }),
      row('2026-03-02 08:00', 120),
    ])
    expect(lowsOf(readings, { leaveOut: FLAG.sensor })).toMatchObject({
      readingsBelow70: 1,
      nightsTested: 1,
      each: [{ index: 0, next: 3 }],
    })
  })
})
