import { describe, expect, it } from 'vitest'
import { sensorLows, sensorTime } from '../../../src-core/day/sensorLows'
import { FLAG, momentText, type ReadingRow, type Readings } from '../../../src-core/log/readings'
import { chronologicalOrder } from '../../../src-core/technique/chronology'
import { at, readingsOf, row, type RowParts } from '../analysis/readingsOf'

// What the episodes are is written down by hand from the definition: at least 15 consecutive minutes below 70 mg/dL begin
// one, 15 at or above it end it (Danne et al., Diabetes Care 2017;40:1631-1640).

type Row = Omit<ReadingRow, 'line'>

/** Readings every `step` minutes from `from` on; '.' is one that is missing, 'LO' a marker. */
function every(step: number, from: string, values: string, parts: RowParts = {}): readonly Row[] {
  return values
    .trim()
    .split(/\s+/)
    .flatMap((value, i) => {
      if (value === '.') return []
      const lo = value === 'LO'
      return [
        row(at(from) + i * step * 60, lo ? 40 : Number(value), {
          flags: FLAG.sensor | (lo ? FLAG.belowRange : 0),
          ...parts,
        }),
      ]
    })
}

const repeated = (n: number, value: string) => Array<string>(n).fill(value).join(' ')

function found(rows: readonly Row[], period: { start?: number; end?: (readings: Readings) => number } = {}) {
  const readings = readingsOf(rows)
  const lows = sensorLows({
    readings,
    order: chronologicalOrder(readings),
    start: period.start ?? 0,
    end: period.end?.(readings) ?? readings.n,
  })
  return (
    lows && {
      none: lows.lowsInNone,
      episodes: lows.episodes.map((episode) => ({
        from: momentText(readings, episode.lows[0]).slice(5).replace('T', ' '),
        lows: episode.lows.length,
        lowest: readings.mgDl[episode.lowest],
        minutes: episode.minutes,
        begin: episode.beginSeen,
        end: episode.endSeen,
        veryLow: episode.veryLow,
      })),
    }
  )
}

const ROUND = repeated(12, '100')

describe('an episode of a sensor’s lows', () => {
  it('begins with 15 minutes below 70: three readings of five minutes, not two', () => {
    expect(found(every(5, '2026-03-02 08:00', `${ROUND} 69 65 68 ${ROUND}`))).toEqual({
      none: 0,
      episodes: [
        { from: '03-02 09:00', lows: 3, lowest: 65, minutes: 15, begin: true, end: true, veryLow: false },
      ],
    })
    expect(found(every(5, '2026-03-02 08:00', `${ROUND} 69 50 ${ROUND}`))).toEqual({ none: 2, episodes: [] })
  })

  it('is no longer one where it falls to 70 alone, and mmol/L has its own limit', () => {
    expect(found(every(5, '2026-03-02 08:00', `${ROUND} 70 70 70 70 ${ROUND}`))).toEqual({
      none: 0,
      episodes: [],
    })
    const mmol = (values: string) => every(5, '2026-03-02 08:00', values, { unit: 'mmol/L' })
    expect(found(mmol(`6 6 6 3.9 3.9 3.9 6 6 6`))?.episodes).toHaveLength(0)
    expect(found(mmol(`6 6 6 3.8 3.8 3.8 6 6 6`))?.episodes).toHaveLength(1)
  })

  it('goes on over a rise of less than 15 minutes, and ends with one of 15', () => {
    const short = found(every(5, '2026-03-02 08:00', `${ROUND} 60 60 60 75 75 60 ${ROUND}`))
    expect(short?.episodes).toEqual([
      { from: '03-02 09:00', lows: 4, lowest: 60, minutes: 30, begin: true, end: true, veryLow: false },
    ])
    const two = found(every(5, '2026-03-02 08:00', `${ROUND} 60 60 60 75 75 75 61 61 61 ${ROUND}`))
    expect(two?.episodes.map(({ from, minutes }) => [from, minutes])).toEqual([
      ['03-02 09:00', 15],
      ['03-02 09:30', 15],
    ])
    expect(two?.none).toBe(0)
  })

  it('after it a low of less than 15 minutes is one by itself, counted among the readings', () => {
    const after = found(every(5, '2026-03-02 08:00', `${ROUND} 60 60 60 75 75 75 75 65 ${ROUND}`))
    expect(after?.episodes).toHaveLength(1)
    expect(after?.none).toBe(1)
  })

  it('is very low with 15 consecutive minutes below 54, which a rise above 53 breaks', () => {
    expect(found(every(5, '2026-03-02 08:00', `${ROUND} 60 53 50 52 60 ${ROUND}`))?.episodes[0].veryLow).toBe(
      true,
    )
    expect(
      found(every(5, '2026-03-02 08:00', `${ROUND} 60 53 50 54 52 60 ${ROUND}`))?.episodes[0].veryLow,
    ).toBe(false)
    expect(found(every(5, '2026-03-02 08:00', `${ROUND} LO LO LO ${ROUND}`))?.episodes[0]).toMatchObject({
      lowest: 40,
      veryLow: true,
    })
  })

  it('goes over midnight as one', () => {
    expect(found(every(5, '2026-03-02 22:45', `${ROUND} ${repeated(6, '62')} ${ROUND}`))?.episodes).toEqual([
      { from: '03-02 23:45', lows: 6, lowest: 62, minutes: 30, begin: true, end: true, veryLow: false },
    ])
  })

  it('of a period is followed past its last day, and belongs to the period in which it begins', () => {
    const rows = every(5, '2026-03-02 22:45', `${ROUND} ${repeated(6, '62')} ${ROUND}`)
    const midnight = ({ at: moments }: Readings) =>
      Array.from(moments).findIndex((moment) => moment >= at('2026-03-03 00:00'))
    expect(found(rows, { end: midnight })).toMatchObject({
      none: 0,
      episodes: [{ from: '03-02 23:45', minutes: 30, end: true }],
    })
    // Of the second day the part of it that lies there: its beginning was not seen.
    expect(found(rows, { start: 15 })).toMatchObject({
      none: 0,
      episodes: [{ from: '03-03 00:00', minutes: 15, begin: false, end: true }],
    })
  })

  it('ends unseen at a gap of more than 15 minutes, and at the end of the log', () => {
    // Four readings missing: 25 minutes from the one before to the one after.
    expect(found(every(5, '2026-03-02 08:00', `${ROUND} 60 60 60 . . . . 60 60 60 ${ROUND}`))).toEqual({
      none: 0,
      episodes: [
        { from: '03-02 09:00', lows: 3, lowest: 60, minutes: 15, begin: true, end: false, veryLow: false },
        { from: '03-02 09:35', lows: 3, lowest: 60, minutes: 15, begin: false, end: true, veryLow: false },
      ],
    })
    expect(found(every(5, '2026-03-02 08:00', `${ROUND} 60 60 60 80`))?.episodes[0].end).toBe(false)
  })

  it('of 15 minutes between two readings is no gap: two of five are missing', () => {
    expect(
      found(every(5, '2026-03-02 08:00', `${ROUND} 60 60 60 . . 60 60 60 ${ROUND}`))?.episodes,
    ).toMatchObject([{ minutes: 40, lows: 6 }])
  })

  it('is not made of lows on both sides of a gap, which count all the same', () => {
    expect(found(every(5, '2026-03-02 08:00', `${ROUND} 60 60 . . . . 60 60 ${ROUND}`))).toEqual({
      none: 4,
      episodes: [],
    })
  })

  it('is not ended by a rise that a gap cuts short', () => {
    expect(
      found(every(5, '2026-03-02 08:00', `${ROUND} 60 60 60 75 75 . . . . . ${ROUND}`))?.episodes,
    ).toMatchObject([{ end: false, minutes: 15 }])
  })

  it('of a sensor that logs every 15 minutes is one reading long, whatever minute it is rounded to', () => {
    const rows = [0, 15, 31, 45, 60, 76, 90].map((minute, i) =>
      row(at('2026-03-02 08:00') + minute * 60, [100, 100, 66, 100, 100, 100, 100][i], {
        flags: FLAG.sensor,
      }),
    )
    expect(found(rows)?.episodes).toMatchObject([{ from: '03-02 08:31', end: true, begin: true, lows: 1 }])
  })

  it('is told of no log whose readings are half an hour apart', () => {
    expect(found(every(30, '2026-03-02 08:00', `${ROUND} 60 60 ${ROUND}`))).toBeNull()
  })

  it('of two sensors worn at once is not hidden by the other, and counted once', () => {
    const rows = [
      ...every(5, '2026-03-02 08:00', `${ROUND} 60 61 62 63 ${ROUND}`, { meter: 'A' }),
      ...every(5, '2026-03-02 08:02', `${ROUND} 72 71 73 74 ${ROUND}`, { meter: 'B' }),
    ]
    expect(found(rows)).toMatchObject({
      none: 0,
      episodes: [{ from: '03-02 09:00', lows: 4, lowest: 60, end: true }],
    })
    const both = [
      ...every(5, '2026-03-02 08:00', `${ROUND} 60 61 62 63 ${ROUND}`, { meter: 'A' }),
      ...every(5, '2026-03-02 08:02', `${ROUND} 65 58 62 65 67 ${ROUND}`, { meter: 'B' }),
    ]
    expect(found(both)).toMatchObject({ none: 0, episodes: [{ lows: 9, lowest: 58, minutes: 25 }] })
  })

  it('of two readings of one moment takes the low', () => {
    const rows = [
      ...every(5, '2026-03-02 08:00', `${ROUND} 60 61 62 ${ROUND}`),
      ...every(5, '2026-03-02 08:00', `${ROUND} 90 91 92 ${ROUND}`),
    ]
    expect(found(rows)?.episodes).toMatchObject([{ lows: 3, lowest: 60 }])
  })

  it('goes on over the change of a sensor', () => {
    const rows = [
      ...every(5, '2026-03-02 08:00', `${ROUND} 60 60`, { meter: 'A' }),
      ...every(5, '2026-03-02 09:10', `60 60 ${ROUND}`, { meter: 'B' }),
    ]
    expect(found(rows)?.episodes).toMatchObject([{ from: '03-02 09:00', lows: 4, minutes: 20, end: true }])
  })
})

describe('the time of a sensor’s readings', () => {
  const timeOf = (rows: readonly Row[]) => {
    const readings = readingsOf(rows)
    const query = { readings, order: chronologicalOrder(readings), start: 0, end: readings.n }
    return sensorTime(query, 1)
  }

  it('is all covered and even by a reading every five minutes', () => {
    expect(timeOf(every(5, '2026-03-02 00:00', repeated(288, '100')))).toEqual({
      spacingMinutes: 5,
      even: true,
      coveredPercent: 100,
    })
  })

  it('is not covered in gaps: 8 of 24 hours missing are a third', () => {
    const time = timeOf(
      every(5, '2026-03-02 00:00', `${repeated(96, '100')} ${repeated(96, '.')} ${repeated(96, '100')}`),
    )
    expect(time?.even).toBe(true)
    expect(time?.coveredPercent).toBeCloseTo(100 * (2 / 3), 6)
  })

  it('is uneven where every fifth interval is another', () => {
    const rows = Array.from({ length: 200 }, (_, i) =>
      row(at('2026-03-02 00:00') + (i * 5 + (i % 5 === 0 ? 3 : 0)) * 60, 100, { flags: FLAG.sensor }),
    )
    expect(timeOf(rows)?.even).toBe(false)
  })

  it('is unknown of a single reading', () => {
    expect(timeOf(every(5, '2026-03-02 00:00', '100'))).toBeNull()
  })
})
