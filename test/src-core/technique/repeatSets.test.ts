import { describe, expect, it } from 'vitest'
import { FLAG, type Readings } from '../../../src-core/log/readings'
import { chronologicalOrder, minutesBetween } from '../../../src-core/technique/chronology'
import { findRepeatSets } from '../../../src-core/technique/repeatSets'
import { readingsOf, row } from '../analysis/readingsOf'

const setsOf = (readings: Readings) => findRepeatSets(readings, chronologicalOrder(readings), 10)

describe('repeat sets', () => {
  it('chain readings at most 10 minutes after the one before', () => {
    const readings = readingsOf([
      row('2026-03-01 07:00', 100),
      row('2026-03-01 07:10', 104),
      row('2026-03-01 07:20', 99),
      row('2026-03-01 07:31', 120),
      row('2026-03-01 12:00', 130),
      row('2026-03-01 12:00', 131),
    ])
    expect(setsOf(readings)).toEqual([
      [0, 1, 2],
      [4, 5],
    ])
  })

  it('go by the second where the log has seconds', () => {
    const seconds = { flags: FLAG.seconds }
    const readings = readingsOf([
      row('2026-03-01 07:00:30', 100, seconds),
      row('2026-03-01 07:10:30', 104, seconds),
      row('2026-03-01 07:20:31', 99, seconds),
    ])
    expect(setsOf(readings)).toEqual([[0, 1]])
  })

  it('may cross meters, logs and midnight', () => {
    const readings = readingsOf([
      row('2026-03-01 23:56', 100),
      row('2026-03-02 00:03', 104, { meter: 'B', source: 1 }),
    ])
    expect(setsOf(readings)).toEqual([[0, 1]])
  })

  it('are not formed by sensors, by changed conditions or by readings without a time', () => {
    const at7 = '2026-03-01 07:00'
    expect(setsOf(readingsOf([row(at7, 100), row('2026-03-01 07:05', 90, { flags: FLAG.sensor })]))).toEqual(
      [],
    )
    expect(
      setsOf(readingsOf([row(at7, 100), row('2026-03-01 07:05', 150, { flags: FLAG.changedConditions })])),
    ).toEqual([])
    expect(
      setsOf(
        readingsOf([
          row('2026-03-01 00:00', 100, { flags: FLAG.dayOnly }),
          row('2026-03-01 00:00', 90, { flags: FLAG.dayOnly }),
          row('2026-03-01 00:05', 90),
        ]),
      ),
    ).toEqual([])
  })

  it('pass over what forms none', () => {
    const readings = readingsOf([
      row('2026-03-01 07:00', 100),
      row('2026-03-01 07:04', 150, { flags: FLAG.changedConditions }),
      row('2026-03-01 07:08', 103),
    ])
    expect(setsOf(readings)).toEqual([[0, 2]])
  })

  it('use the instants where both offsets are known', () => {
    const offset = (minutes: number) => ({ flags: FLAG.offset, offsetMinutes: minutes })
    // The clock goes back from 03:00 +02:00 to 02:00 +01:00: 02:58 and 02:03 lie five minutes apart.
    const apart = readingsOf([
      row('2026-10-25 02:58', 100, offset(120)),
      row('2026-10-25 02:03', 104, offset(60)),
      row('2026-10-25 02:55', 140, offset(60)),
    ])
    const sets = setsOf(apart)
    expect(sets).toEqual([[2, 0]])
    expect(sets[0].map((index) => apart.mgDl[index])).toEqual([100, 104])
    expect(minutesBetween(apart, 2, 0)).toBe(5)
    // One offset alone does not tell: the wall-clock times count.
    const halfKnown = readingsOf([row('2026-10-25 02:55', 100, offset(120)), row('2026-10-25 02:58', 104)])
    expect(setsOf(halfKnown)).toEqual([[0, 1]])
  })
})

describe('order in which readings were taken', () => {
  it('is the logbook’s where no offset is known', () => {
    const readings = readingsOf([row('2026-03-01 07:00', 100), row('2026-03-01 08:00', 90)])
    expect([...chronologicalOrder(readings)]).toEqual([0, 1])
  })

  it('follows the instants within a run of known offsets', () => {
    const readings = readingsOf([
      row('2026-03-01 10:00', 100, { flags: FLAG.offset, offsetMinutes: 60 }),
      row('2026-03-01 09:00', 90, { flags: FLAG.offset, offsetMinutes: -300 }),
      row('2026-03-01 11:00', 80),
    ])
    // In the logbook: 09:00 -05:00 (14:00 UTC), 10:00 +01:00 (09:00 UTC), 11:00.
    expect([...chronologicalOrder(readings)]).toEqual([1, 0, 2])
  })
})
