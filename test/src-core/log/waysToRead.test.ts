import { describe, expect, it } from 'vitest'
import type { LogAnswers, LogSource } from '../../../src-core/log/logSource'
import { moved, type Subject, waysToRead } from '../../../src-core/log/waysToRead'
import { loggedUnit } from '../../../src-core/log/readings'
import { isoMoment, parseIsoDay } from '../../../src-core/units/wallClock'
import { CONTEXT, logOf } from '../../helpers/logs'

// What each choice would make of a log; the truth is written beside each log by hand.

function answered(text: string | Uint8Array, answers: LogAnswers = {}): LogSource {
  return { ...logOf(text), answers }
}

/** Each way as [what is chosen, whether it holds now, its readings in the order of the lines]. */
function told(log: LogSource, subject: Subject) {
  return waysToRead(log, subject, CONTEXT).ways.map(({ chosen, isNow, read, answers }) => {
    const { readings } = read
    const rows = Array.from({ length: readings.n }, (_, i) => i).sort(
      (a, b) => readings.line[a] - readings.line[b],
    )
    const name =
      'unit' in chosen
        ? chosen.unit
        : 'order' in chosen
          ? chosen.order
          : 'hours' in chosen
            ? chosen.hours
            : chosen.header
    return {
      name,
      isNow,
      answers,
      readings: rows.map(
        (i) => `${isoMoment(readings.at[i])} ${readings.logged[i]} ${loggedUnit(readings, i)}`,
      ),
      setAside: read.report.rows.setAside,
    }
  })
}

const MONTH_FIRST =
  'Date,Time,Glucose (mg/dL)\n03/02/2026,07:00,110\n03/14/2026,07:10,95\n04/05/2026,07:20,66\n'

describe('the order of day and month', () => {
  it('may be chosen against the rows that decided it; what then is no day is set aside', () => {
    const ways = told(answered(MONTH_FIRST), { of: 'dates' })
    expect(ways).toMatchObject([
      {
        name: 'dmy',
        isNow: false,
        readings: ['2026-02-03T07:00 110 mg/dL', '2026-05-04T07:20 66 mg/dL'],
        setAside: 1,
      },
      { name: 'mdy', isNow: true, setAside: 0 },
    ])
    // The answer gives what was shown.
    expect(told(answered(MONTH_FIRST, ways[0].answers), { of: 'dates' })).toMatchObject([
      { name: 'dmy', isNow: true, readings: ways[0].readings },
      { name: 'mdy', isNow: false },
    ])
  })

  it('of dates that tell it themselves leaves nothing to choose', () => {
    const ways = told(answered('Date,Glucose (mg/dL)\n2 March 2026,110\n3 March 2026,120\n'), { of: 'dates' })
    expect(ways).toEqual([])
    expect(
      told(answered('Date,Glucose (mg/dL)\n2026-03-02,110\n2026-04-05,120\n'), { of: 'dates' }),
    ).toMatchObject([{ name: 'ymd', isNow: true }])
  })
})

describe('the unit', () => {
  const log = 'When,Glucose (mg/dL)\n2026-03-02 07:00,21\n2026-03-02 12:00,22\n'
  it('may be chosen against the header, and against the rows’ own', () => {
    const cells = 'When,Glucose,Unit\n2026-03-02 07:00,21,mg/dL\n2026-03-02 12:00,22,mg/dL\n'
    for (const text of [log, cells]) {
      const ways = told(answered(text), { of: 'unit' })
      expect(ways).toMatchObject([
        { name: 'mg/dL', isNow: true, readings: ['2026-03-02T07:00 21 mg/dL', '2026-03-02T12:00 22 mg/dL'] },
        {
          name: 'mmol/L',
          isNow: false,
          readings: ['2026-03-02T07:00 21 mmol/L', '2026-03-02T12:00 22 mmol/L'],
        },
      ])
      expect(ways[1].answers).toEqual({ instead: { unit: 'mmol/L' } })
    }
  })

  it('in which no value could be a reading is not offered', () => {
    const ways = told(answered('When,Glucose (mg/dL)\n2026-03-02 07:00,110\n'), { of: 'unit' })
    expect(ways.map(({ name }) => name)).toEqual(['mg/dL'])
  })
})

describe('the columns', () => {
  const log =
    'Date,Before,After,Place\n2026-03-02,104,151,home\n2026-03-03,98,,work\n2026-03-04,110,149,home\n'
  it('show what each other column would give, and only those that give another reading', () => {
    const answers = { columns: 'glucose=2', unit: 'mg/dL' } as const
    const ways = told(answered(log, answers), { of: 'column', role: 'glucose' })
    expect(ways.map(({ name, isNow }) => [name, isNow])).toEqual([
      ['Before', true],
      ['After', false],
    ])
    expect(ways[1]).toMatchObject({
      readings: ['2026-03-02T00:00 151 mg/dL', '2026-03-04T00:00 149 mg/dL'],
      answers: { columns: 'glucose=3', unit: 'mg/dL' },
    })
  })

  it('may be named for a note, and a column is never two things', () => {
    const ways = told(answered(log, { columns: 'glucose=2,meal=4', unit: 'mg/dL' }), {
      of: 'column',
      role: 'note',
    })
    const place = ways.find(({ name }) => name === 'Place')
    expect(place?.answers.columns).toBe('glucose=2,note=4')
  })
})

describe('the hours', () => {
  it('of a log without AM and PM may be those of two halves of a day', () => {
    const log =
      'Date,Time,Glucose (mg/dL)\n2026-03-02,07:00,110\n2026-03-02,06:30,151\n2026-03-03,07:05,98\n2026-03-03,06:40,160\n'
    const ways = told(answered(log, { columns: 'clock=24' }), { of: 'clock' })
    expect(ways.map(({ name, isNow }) => [name, isNow])).toEqual([
      ['24', true],
      ['12', false],
    ])
    expect(ways[1].readings[1]).toBe('2026-03-02T18:30 151 mg/dL')
    const turned = told(answered(log, ways[1].answers), { of: 'clock' })
    expect(turned.map(({ name, isNow }) => [name, isNow])).toEqual([
      ['24', false],
      ['12', true],
    ])
  })
})

describe('a stretch of wrong times', () => {
  it('is shown as it would be moved, of this log alone', () => {
    const log = answered(
      'Date,Time,Glucose (mg/dL)\n2026-03-02,07:00,110\n2026-03-03,07:00,66\n2026-03-04,07:00,120\n',
    )
    const day = parseIsoDay('2026-03-03') ?? 0
    const shift = { from: day, to: day, minutes: 720, log: log.sha256 }
    const found = moved(log, shift, CONTEXT, [])
    expect(found?.moved).toEqual([1])
    expect(isoMoment(found?.after.readings.at[1] ?? 0)).toBe('2026-03-03T19:00')
    expect(moved({ ...log, sha256: 'f'.repeat(64) }, shift, CONTEXT, [])?.moved).toEqual([])
  })
})

describe('a stretch moved already', () => {
  it('is not moved again', () => {
    const log = answered('Date,Time,Glucose (mg/dL)\n2026-03-02,07:00,110\n2026-03-03,07:00,66\n')
    const [from, to] = ['2026-03-02', '2026-03-03'].map((day) => parseIsoDay(day) ?? 0)
    const first = { from, to: from, minutes: 60, log: log.sha256 }
    const found = moved(log, { from, to, minutes: 120, log: log.sha256 }, CONTEXT, [first])
    expect(found?.moved.map((i) => found.after.readings.logged[i])).toEqual([66])
  })

  it('of a table with several readings in a line shows each', () => {
    const log = answered('Date,7:00,12:00\n2026-03-02,110,140\n2026-03-03,66,131\n', { unit: 'mg/dL' })
    const day = parseIsoDay('2026-03-03') ?? 0
    const found = moved(log, { from: day, to: day, minutes: 60 }, CONTEXT, [])
    expect(found?.moved.map((i) => isoMoment(found.after.readings.at[i]))).toEqual([
      '2026-03-03T08:00',
      '2026-03-03T13:00',
    ])
  })
})

describe('a long log', () => {
  it('is tried by its beginning, cut between two of its lines, in any encoding', () => {
    const rows = Array.from(
      { length: 60_000 },
      (_, i) => `2026-03-02,07:${String(i % 60).padStart(2, '0')},${90 + (i % 9)}`,
    )
    const text = `Date,Time,Glucose (mg/dL)\n${rows.join('\n')}\n`
    for (const bytes of [new TextEncoder().encode(text), utf16(text, true), utf16(text, false)]) {
      const { ways, isBeginning } = waysToRead(answered(bytes), { of: 'unit' }, CONTEXT)
      expect(isBeginning).toBe(true)
      expect(ways[0].read.report.setAside.filter(({ reason }) => reason !== 'duplicate')).toEqual([])
      expect(ways[0].read.report.rows.total).toBeGreaterThan(15_000)
    }
  })
})

function utf16(text: string, littleEndian: boolean): Uint8Array {
  const bytes = new Uint8Array(2 + 2 * text.length)
  const view = new DataView(bytes.buffer)
  view.setUint16(0, 0xfeff, littleEndian)
  for (let i = 0; i < text.length; i++) view.setUint16(2 + 2 * i, text.charCodeAt(i), littleEndian)
  return bytes
}
