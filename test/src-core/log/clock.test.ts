import { describe, expect, it } from 'vitest'
import { halfDayOff, yearsOff } from '../../../src-core/log/clockSense'
import { mergeLogs } from '../../../src-core/log/logbook'
import { loggedMomentText, momentText } from '../../../src-core/log/readings'
import { readLog } from '../../../src-core/log/readLog'
import { parseShift, shiftOn } from '../../../src-core/log/shifts'
import { isoDay } from '../../../src-core/units/wallClock'
import { CONTEXT, logbookOf, logOf, notesOf } from '../../helpers/logs'

const HOURS = [7, 9, 12, 18, 22]

/** Five tests a day at the usual hours; on the days from `from` to `to` (1-based) the clock is off by `off` hours. */
function monthOfTests(from: number, to: number, off: number): string {
  const rows = ['Date,Time,Glucose (mg/dL)']
  for (let day = 1; day <= 31; day++) {
    for (const hour of HOURS) {
      const shift = day >= from && day <= to ? off : 0
      const at = new Date(Date.UTC(2026, 2, day, hour + shift, (day * 7) % 60))
      rows.push(
        `${at.toISOString().slice(0, 10)},${at.toISOString().slice(11, 16)},${90 + ((day * hour) % 70)}`,
      )
    }
  }
  return rows.join('\n')
}

const everyReading = (n: number): number[] => Array.from({ length: n }, (_, i) => i)

describe('a stretch half a day off', () => {
  it('is pointed out with the option that mends it, and nothing is moved', () => {
    const { sources, readings } = logbookOf([monthOfTests(10, 14, -12)])
    expect(notesOf(sources[0])).toHaveLength(1)
    expect(notesOf(sources[0])[0]).toContain('look half a day out')
    expect(notesOf(sources[0])[0]).toContain('--shift 2026-03-10..2026-03-14=+12:00')
    expect(momentText(readings, 45)).toBe('2026-03-09T21:10')
  })

  it('is moved by that option, and fits the other days then; the log’s own time is kept', () => {
    const shift = parseShift('2026-03-10..2026-03-14=+12:00')
    const read = readLog(logOf(monthOfTests(10, 14, -12)), {}, CONTEXT)
    if (!('table' in read) || shift === null) throw new Error('not read')
    const moved = mergeLogs([read], CONTEXT, [shift])
    expect(notesOf(moved.sources[0]).join()).toContain('moved as you asked')
    expect(halfDayOff(moved.readings, everyReading(moved.readings.n))).toBeNull()
    const index = everyReading(moved.readings.n).find((i) => moved.readings.shiftMinutes[i] !== 0) ?? -1
    expect(momentText(moved.readings, index).slice(11)).not.toBe(
      loggedMomentText(moved.readings, index).slice(11),
    )
  })

  it.each([
    ['a month as usual', monthOfTests(0, 0, 0)],
    ['three hours, as across zones', monthOfTests(10, 14, 3)],
    ['a single day', monthOfTests(10, 10, 12)],
  ])('is not seen in %s', (_, text) => {
    expect(notesOf(logbookOf([text]).sources[0])).toEqual([])
  })
})

describe('rows dated in another year', () => {
  const row = (date: string): string => `${date},07:10,104`
  const log = (dates: readonly string[]): string =>
    ['Date,Time,Glucose (mg/dL)', ...dates.map(row)].join('\n')

  it('are pointed out where they jump away and back again in the order of the file', () => {
    const { readings } = logbookOf([
      log(['2026-01-29', '2026-01-30', '2025-01-31', '2025-02-01', '2026-02-02', '2026-02-03']),
    ])
    const [off, ...others] = yearsOff(readings, everyReading(readings.n))
    expect(others).toEqual([])
    expect({
      ...off,
      shift: { ...off.shift, from: isoDay(off.shift.from), to: isoDay(off.shift.to) },
    }).toEqual({
      readings: 2,
      years: 1,
      shift: { from: '2025-01-31', to: '2025-02-01', minutes: 365 * 1440 },
    })
  })

  it('are told in the notes, and left where they are', () => {
    const { sources, readings } = logbookOf([
      log(['2026-02-03', '2026-02-02', '2025-02-01', '2026-01-31', '2026-01-30']),
    ])
    expect(notesOf(sources[0])[0]).toContain('--shift 2025-02-01..2025-02-01=+8760:00')
    expect(momentText(readings, 0)).toBe('2025-02-01T07:10')
  })

  it.each([
    [
      'in a file sorted by time, where they may be old',
      ['2025-01-31', '2025-02-01', '2026-02-02', '2026-02-03'],
    ],
    ['where their year is not all that is wrong', ['2026-02-03', '2025-09-14', '2026-02-04', '2026-02-05']],
  ])('are not seen %s', (_, dates) => {
    const { readings } = logbookOf([log(dates)])
    expect(yearsOff(readings, everyReading(readings.n))).toEqual([])
  })
})

describe('a stretch to be moved', () => {
  it.each([
    '2026-03-29..2026-04-02=+12:00',
    '2025-02-01..2025-02-01=+8760:00',
    '2026-03-29..2026-04-02=-01:00',
  ])('is read from %s', (text) => {
    expect(parseShift(text)).not.toBeNull()
  })

  it.each([
    '',
    '2026-03-29=+12:00',
    '2026-02-30..2026-03-02=+12:00',
    '2026-04-02..2026-03-29=+12:00',
    'x..y=12',
  ])('is not read from ‘%s’', (text) => {
    expect(parseShift(text)).toBeNull()
  })

  it('holds its first and last day, and no reading without a time', () => {
    const shift = parseShift('1970-01-02..1970-01-03=-01:30')
    const minutes = (at: number, flags = 0) => shiftOn({ at, flags }, shift ? [shift] : [])
    expect([86_399, 86_400, 259_199, 259_200].map((at) => minutes(at))).toEqual([0, -90, -90, 0])
    expect(minutes(86_400, 8)).toBe(0)
  })
})

describe('the doubled and the missing hour of a clock change', () => {
  // Berlin, 29 March 2026 (02:00 to 03:00 does not exist) and 26 October 2025 (02:00 to 03:00 comes twice).
  it('stand as the meter wrote them', () => {
    const { readings } = logbookOf([
      'Date,Time,Glucose (mg/dL)\n2025-10-26,02:30,104\n2025-10-26,02:30,98\n2026-03-29,02:30,91\n',
    ])
    expect([0, 1, 2].map((i) => momentText(readings, i))).toEqual([
      '2025-10-26T02:30',
      '2025-10-26T02:30',
      '2026-03-29T02:30',
    ])
  })

  it('are told apart where the log gives offsets, and shown in the zone where it gives instants', () => {
    const { readings } = logbookOf([
      'Timestamp,Glucose (mg/dL)\n2025-10-26T00:30:00Z,104\n2025-10-26T01:30:00Z,104\n2026-03-29T01:30:00Z,91\n',
    ])
    expect([0, 1, 2].map((i) => momentText(readings, i))).toEqual([
      '2025-10-26T02:30:00',
      '2025-10-26T02:30:00',
      '2026-03-29T03:30:00',
    ])
    expect([readings.offsetMinutes[0], readings.offsetMinutes[1]]).toEqual([120, 60])
  })
})
