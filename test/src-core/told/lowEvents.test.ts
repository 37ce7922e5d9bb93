import { describe, expect, it } from 'vitest'
import { type LowEvent, lowEvents } from '../../../src-core/told/lowEvents'
import { lowsNotFollowed } from '../../../src-core/told/lows'
import { openVisit } from '../../../src-core/analysis/openVisit'
import { parseIsoDay } from '../../../src-core/units/wallClock'
import { analysisOf, type FixtureReading, type FixtureOptions } from '../../helpers/analysisFixture'
import { CONTEXT, logOf } from '../../helpers/logs'

function eventsOf(rows: readonly FixtureReading[], options: FixtureOptions = {}): readonly LowEvent[] {
  const analysis = analysisOf(rows, options)
  return lowEvents(analysis, analysis.periods[0])
}

/** Tests of one day: time, value, anything else. */
function day(...tests: [string, number | 'LO' | 'HI', Partial<FixtureReading>?][]): FixtureReading[] {
  return tests.map(([time, value, parts]) => ({ at: `2026-03-08 ${time}`, value, ...parts }))
}

describe('a low with repeats', () => {
  it('is one sequence in order of time, never an average', () => {
    const [event, ...others] = eventsOf(day(['07:00', 52], ['07:09', 90], ['12:00', 140]))
    expect(others).toEqual([])
    expect(event).toEqual({
      members: [0, 1],
      lowest: 0,
      minutes: 9,
      next: { index: 2, minutes: 291 },
      // 12:00 lies more than four hours after the low.
      highestAfter: 1,
    })
  })

  it('holds the tests of its set before the low, and two lows once', () => {
    const [event, ...others] = eventsOf(day(['06:55', 88], ['07:00', 60], ['07:08', 55], ['07:15', 95]))
    expect(others).toEqual([])
    expect(event).toMatchObject({
      members: [0, 1, 2, 3],
      lowest: 2,
      minutes: 20,
      next: 'log-ends',
      highestAfter: 3,
    })
  })

  it('is told as lows apart where they are more than ten minutes apart', () => {
    expect(eventsOf(day(['07:00', 52], ['07:11', 60])).map(({ members }) => members)).toEqual([[0], [1]])
  })

  it('does not take in a set without a low', () => {
    const events = eventsOf(day(['07:00', 152], ['07:02', 150], ['09:00', 66]))
    expect(events.map(({ members, minutes }) => ({ members, minutes }))).toEqual([
      { members: [2], minutes: null },
    ])
  })

  it('takes the first of two equal lowest readings', () => {
    expect(eventsOf(day(['07:00', 52], ['07:05', 52]))[0].lowest).toBe(0)
  })

  it('reaches over midnight and beyond the period, so that the recheck is seen', () => {
    const from = parseIsoDay('2026-03-08') ?? 0
    const events = eventsOf(
      [
        { at: '2026-03-08 23:56', value: 58 },
        { at: '2026-03-09 00:02', value: 97 },
      ],
      {
        period: { from, to: from },
      },
    )
    expect(events).toMatchObject([{ members: [0, 1], minutes: 6 }])
  })
})

describe('what came after a low', () => {
  it('is the next test, and the highest within four hours, both ends of which count', () => {
    const [event] = eventsOf(
      day(['07:00', 60], ['07:40', 109], ['09:30', 210], ['11:00', 230], ['11:01', 300]),
    )
    expect(event.next).toEqual({ index: 1, minutes: 40 })
    expect(event.highestAfter).toBe(3)
  })

  it('is nothing where the log ends, or gives no time', () => {
    expect(eventsOf(day(['07:00', 60]))).toMatchObject([{ next: 'log-ends', highestAfter: null }])
    const untimed = eventsOf([
      { at: '2026-03-08', value: 60 },
      { at: '2026-03-09 07:00', value: 120 },
    ])
    expect(untimed).toMatchObject([{ members: [0], next: 'no-times', highestAfter: null }])
  })

  it('is no reading without a time', () => {
    const events = eventsOf([
      { at: '2026-03-08 23:00', value: 60 },
      { at: '2026-03-09', value: 180 },
      { at: '2026-03-09 02:00', value: 120 },
    ])
    expect(events).toMatchObject([{ next: { index: 2, minutes: 180 }, highestAfter: 2 }])
  })

  it('is a test of any meter, but no reading of a sensor worn beside', () => {
    const events = eventsOf(
      day(
        ['07:00', 60],
        ['07:20', 64, { sensor: true }],
        ['07:35', 240, { sensor: true }],
        ['07:40', 109, { meter: 'meter B' }],
      ),
    )
    expect(events).toMatchObject([{ members: [0], next: { index: 3, minutes: 40 }, highestAfter: 3 }])
  })
})

describe('the hour by which the clock is set back', () => {
  it('does not hide the test that came next', () => {
    // 02:50 +02:00 is 00:50 UTC, 02:30 +01:00 is 01:30 UTC: forty minutes later, though the clock shows less.
    const log = logOf(
      'Timestamp,Glucose (mg/dL)\n2026-10-25T02:50+02:00,60\n2026-10-25T02:30+01:00,109\n2026-10-25T02:58+01:00,130\n',
    )
    const outcome = openVisit([log], {}, { ...CONTEXT, nowMs: Date.UTC(2026, 10, 1) })
    if (outcome.kind !== 'analysed') throw new Error(JSON.stringify(outcome))
    const { analysis } = outcome
    const [event] = lowEvents(analysis, analysis.periods[0])
    expect(analysis.readings.mgDl[event.members[0]]).toBe(60)
    if (typeof event.next === 'string') throw new Error(event.next)
    expect(event.next.minutes).toBe(40)
    expect(analysis.readings.mgDl[event.next.index]).toBe(109)
  })
})

describe('lows after which nobody tested', () => {
  it('are those whose next test came three hours later or more', () => {
    const analysis = analysisOf(
      day(
        ['01:00', 60],
        ['04:00', 120],
        ['05:00', 61],
        ['07:59', 118],
        ['08:30', 62],
        ['20:00', 140],
        ['23:00', 66],
      ),
    )
    // 01:00 waited exactly three hours, 08:30 eleven and a half; after 23:00 the log ends.
    expect(lowsNotFollowed(analysis, analysis.periods[0])).toBe(2)
  })
})

describe('every low of the period', () => {
  it('is in exactly one event, and in order of time', () => {
    const rows = day(
      ['03:00', 'LO'],
      ['03:04', 71],
      ['07:00', 69],
      ['12:00', 52],
      ['12:08', 61],
      ['12:16', 80],
      ['18:00', 180],
    )
    const analysis = analysisOf(rows)
    const events = lowEvents(analysis, analysis.periods[0])
    const members = events.flatMap((event) => event.members)
    expect(events.map(({ lowest }) => lowest)).toEqual([0, 2, 3])
    expect(new Set(members).size).toBe(members.length)
    for (const { index } of analysis.periods[0].lows.each) expect(members).toContain(index)
  })
})
