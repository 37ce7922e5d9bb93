import { describe, expect, it } from 'vitest'
import { episodesTold, listedFirst, usualHours } from '../../../src-core/told/lowEpisodes'
import { analysisOf, type FixtureReading } from '../../helpers/analysisFixture'

function toldOf(rows: readonly FixtureReading[]) {
  const analysis = analysisOf(rows)
  return { readings: analysis.readings, episodes: episodesTold(analysis, analysis.periods[0]) }
}

/** Tests of one day: time, value, anything else. */
function day(...tests: [string, number | 'LO' | 'HI', Partial<FixtureReading>?][]): FixtureReading[] {
  return tests.map(([time, value, parts]) => ({ at: `2026-03-08 ${time}`, value, ...parts }))
}

describe('an episode of lows', () => {
  it('is told as it went on, to the first reading that is no low', () => {
    const { episodes } = toldOf(
      day(['06:00', 120], ['07:00', 58], ['07:20', 49], ['07:45', 92], ['09:00', 150]),
    )
    expect(episodes).toEqual([
      {
        sequence: [1, 2, 3],
        lows: [1, 2],
        showsAllLows: true,
        lowest: 2,
        minutes: 45,
        minutesToNext: null,
        lowAgainAfter: null,
        seenToEnd: true,
        noted: null,
        helped: false,
        confirmed: false,
      },
    ])
  })

  it('begins anew after a reading that is no low', () => {
    const { episodes } = toldOf(day(['07:00', 58], ['07:15', 88], ['07:30', 62], ['07:50', 95]))
    expect(episodes.map(({ sequence }) => sequence)).toEqual([
      [0, 1],
      [2, 3],
    ])
  })

  it('is not seen to its end where no test follows within hours', () => {
    const [alone] = toldOf(day(['07:00', 58], ['20:00', 140])).episodes
    expect(alone).toMatchObject({ sequence: [0], minutes: null, seenToEnd: false })
    const [last] = toldOf(day(['06:00', 120], ['07:00', 58], ['07:30', 61])).episodes
    expect(last).toMatchObject({ sequence: [1, 2], minutes: 30, seenToEnd: false })
  })

  it('tells the time to a next test that came later than lows of one episode lie apart', () => {
    const [alone] = toldOf(day(['07:00', 58], ['09:45', 140])).episodes
    expect(alone).toMatchObject({ minutes: 165, minutesToNext: 165, seenToEnd: true })
    const [run] = toldOf(day(['07:00', 58], ['07:15', 61], ['08:15', 90])).episodes
    expect(run).toMatchObject({ minutes: 75, minutesToNext: null })
    const [late] = toldOf(day(['07:00', 58], ['07:15', 61], ['08:16', 90])).episodes
    expect(late).toMatchObject({ minutes: 76, minutesToNext: 61 })
  })

  it('passes over no low that the next test showed, though it came too late for the same episode', () => {
    const { episodes } = toldOf(day(['12:50', 68], ['15:22', 50], ['15:37', 72], ['18:00', 110]))
    expect(
      episodes.map(({ sequence, minutes, minutesToNext, lowAgainAfter, seenToEnd }) => [
        ...[sequence, minutes, minutesToNext, lowAgainAfter, seenToEnd],
      ]),
    ).toEqual([
      [[0], null, null, 152, true],
      [[1, 2], 15, null, null, true],
    ])
    // After four hours a next low says nothing of how the first one went.
    const [late] = toldOf(day(['07:00', 58], ['11:01', 50], ['11:20', 90])).episodes
    expect(late).toMatchObject({ seenToEnd: false, lowAgainAfter: null })
  })

  it('relies on no doubtful test as its end', () => {
    // The 122 stands between 51 and 60 within nine minutes: by its neighbours it is doubtful.
    const { episodes } = toldOf(
      day(['14:00', 90], ['16:21', 51], ['16:25', 122], ['16:30', 60], ['16:48', 103], ['19:00', 120]),
    )
    expect(episodes.map(({ sequence, lowAgainAfter }) => [sequence, lowAgainAfter])).toEqual([
      [[1, 2], 5],
      [[3, 4], null],
    ])
  })

  it('holds finger-sticks alone where a sensor ran beside them', () => {
    const { episodes, readings } = toldOf(
      day(
        ['07:00', 58],
        ['07:05', 91, { sensor: true }],
        ['07:10', 64, { sensor: true }],
        ['07:20', 61],
        ['07:40', 99],
      ),
    )
    expect(episodes.map(({ sequence }) => sequence.map((i) => i !== null && readings.mgDl[i]))).toEqual([
      [58, 61, 99],
    ])
  })

  it('leaves no low out of a long one', () => {
    const lows = Array.from({ length: 9 }, (_, i): [string, number] => [`07:${10 + 5 * i}`, 50 + i])
    const [{ sequence }] = toldOf(day(...lows, ['08:10', 110])).episodes
    expect(sequence).toEqual([0, 1, 2, 3, 4, 5, 6, 7, 8, 9])
  })

  it('shows the first, the last and the lowest of a run without an end, and says so', () => {
    const hour = (i: number) =>
      `${String(Math.floor(i / 12)).padStart(2, '0')}:${String((i % 12) * 5).padStart(2, '0')}`
    const lows = Array.from({ length: 200 }, (_, i): [string, number] => [hour(i), i === 90 ? 41 : 60])
    const [{ sequence, showsAllLows, lows: all }] = toldOf(day(...lows, [hour(200), 110])).episodes
    expect(all).toHaveLength(200)
    expect(showsAllLows).toBe(false)
    const last = Array.from({ length: 7 }, (_, i) => 194 + i)
    expect(sequence).toEqual([0, 1, 2, 3, 4, 5, null, 90, null, ...last])
  })

  it('reaches over midnight', () => {
    const [{ minutes, sequence }] = toldOf([
      { at: '2026-03-08 23:50', value: 55 },
      { at: '2026-03-09 00:10', value: 60 },
      { at: '2026-03-09 00:30', value: 98 },
    ]).episodes
    expect([minutes, sequence]).toEqual([40, [0, 1, 2]])
  })

  it('is a low by itself where the log gives the day alone, in its place among the others', () => {
    const { episodes } = toldOf([
      { at: '2026-03-08 07:00', value: 60 },
      { at: '2026-03-08 07:30', value: 90 },
      { at: '2026-03-09', value: 52 },
      { at: '2026-03-09', value: 100 },
      { at: '2026-03-10 07:00', value: 66 },
    ])
    expect(episodes.map(({ sequence, minutes, seenToEnd }) => ({ sequence, minutes, seenToEnd }))).toEqual([
      { sequence: [0, 1], minutes: 30, seenToEnd: true },
      { sequence: [2], minutes: null, seenToEnd: null },
      { sequence: [4], minutes: null, seenToEnd: false },
    ])
  })

  it('counts every low of the period once', () => {
    const rows = Array.from({ length: 200 }, (_, i) => ({
      at: `2026-03-${String(1 + Math.floor(i / 8)).padStart(2, '0')} ${String(3 * (i % 8)).padStart(2, '0')}:${10 + (i % 50)}`,
      value: 45 + ((i * 37) % 130),
    }))
    const analysis = analysisOf(rows)
    const told = episodesTold(analysis, analysis.periods[0]).flatMap(({ lows }) => lows)
    expect(new Set(told).size).toBe(told.length)
    expect(told).toHaveLength(rows.filter(({ value }) => value < 70).length)
  })
})

describe('what is said of an episode', () => {
  it('is its first note, and whether a note tells of help', () => {
    const [{ noted, helped }] = toldOf(
      day(['07:00', 58], ['07:20', 45, { note: 'shaky' }], ['07:40', 92, { note: 'wife gave glucagon' }]),
    ).episodes
    expect([noted, helped]).toEqual([1, true])
    expect(toldOf(day(['07:00', 58, { note: 'no help needed' }])).episodes[0].helped).toBe(false)
  })

  it('is that it was low either way, where a doubtful low stands beside one that is not', () => {
    const around = (values: readonly (number | 'LO')[]) => [
      ...Array.from({ length: 40 }, (_, i) => ({
        at: `2026-02-${String(1 + (i % 28)).padStart(2, '0')} ${i < 28 ? '08' : '19'}:00`,
        value: 110 + ((i * 7) % 30),
      })),
      ...values.map((value, i) => ({
        at: `2026-03-08 07:${20 + 5 * i}`,
        value,
        note: i === 0 ? 'wet finger' : '',
      })),
    ]
    const rows = around([38, 64, 95]).sort((a, b) => (a.at < b.at ? -1 : 1))
    const analysis = analysisOf(rows)
    const marked = (indexes: readonly number[]) => ({ ...analysis, marked: new Set(indexes) })
    const of = (indexes: readonly number[]) => episodesTold(marked(indexes), analysis.periods[0]).at(-1)
    const [first, second] = [rows.length - 3, rows.length - 2]
    expect(of([first])?.confirmed).toBe(true)
    expect(of([first, second])?.confirmed).toBe(false)
    expect(of([])?.confirmed).toBe(false)
  })
})

describe('the episodes that are listed first', () => {
  const rows = [
    { at: '2026-03-01 07:00', value: 66, note: 'found by the neighbour' },
    { at: '2026-03-02 07:00', value: 40 },
    { at: '2026-03-03 07:00', value: 60 },
    { at: '2026-03-04 07:00', value: 40 },
    { at: '2026-03-05 07:00', value: 65 },
  ]
  const { readings, episodes } = toldOf(rows)
  const gravest = (most: number) => listedFirst(readings, episodes, most).map(({ lowest }) => lowest)

  it('are those with help first, then the lowest, the later of equal ones; in order of time', () => {
    expect(gravest(1)).toEqual([0])
    expect(gravest(2)).toEqual([0, 3])
    expect(gravest(3)).toEqual([0, 1, 3])
    expect(gravest(9)).toEqual([0, 1, 2, 3, 4])
  })
})

describe('the usual hours', () => {
  const hoursOf = (times: readonly string[]) => {
    const { readings, episodes } = toldOf(
      times.map((time, i) => ({ at: `2026-03-${String(i + 1).padStart(2, '0')} ${time}`.trim(), value: 60 })),
    )
    return usualHours(readings, episodes)
  }

  it('are blocks of three hours in which several and together more than half of at least four episodes begin', () => {
    expect(hoursOf(['15:00', '16:30', '17:59', '03:00'])).toEqual([{ fromHour: 15, toHour: 18, n: 3, of: 4 }])
    expect(hoursOf(['15:00', '16:30', '18:00', '03:00'])).toEqual([])
    expect(hoursOf(['15:00', '16:30', '17:59'])).toEqual([])
  })

  it('are several where the episodes gather at more than one part of the day, the fullest first', () => {
    const times = ['15:00', '16:30', '17:59', '03:00', '04:10', '10:00']
    expect(hoursOf(times)).toEqual([
      { fromHour: 15, toHour: 18, n: 3, of: 6 },
      { fromHour: 3, toHour: 6, n: 2, of: 6 },
    ])
  })

  it('are not told of days without times', () => {
    expect(hoursOf(['', '', '', '', ''])).toEqual([])
  })
})
