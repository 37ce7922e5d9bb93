import { describe, expect, it } from 'vitest'
import { openVisit } from '../../../src-core/analysis/openVisit'
import { loggedUnit, momentText } from '../../../src-core/log/readings'
import { CONTEXT, logbookOf, logOf, notesOf, refusalsOf } from '../../helpers/logs'

// Logs that a hurried importer would misread: each once hid a low, made one up, or changed a value.

const HEADER = 'Date,Time,Glucose (mg/dL)'

function valuesOf(...logs: string[]): string[] {
  const { readings } = logbookOf(logs)
  return Array.from({ length: readings.n }, (_, i) => `${readings.logged[i]} ${loggedUnit(readings, i)}`)
}

function notCountedOf(log: string): number[] {
  const outcome = openVisit([logOf(log)], {}, CONTEXT)
  if (outcome.kind !== 'analysed') throw new Error('the log was refused')
  return outcome.analysis.periods[0].lows.notCounted.map(({ line }) => line)
}

describe('a low is never lost', () => {
  it.each([
    ['64 shaky', 64],
    ['64*', 64],
    ['~64', 64],
    ['(64)', 64],
    ['64?', 64],
    ['L', 20],
    ['Low (<40)', 40],
    ['below 40', 40],
    ['under 40', 40],
  ])('behind a remark: ‘%s’', (cell, value) => {
    expect(valuesOf(`${HEADER}\n2026-03-02,07:10,"${cell}"\n`)).toEqual([`${String(value)} mg/dL`])
  })

  it('and the remark is kept with the note', () => {
    const { readings } = logbookOf([`${HEADER},Note\n2026-03-02,07:10,64 shaky,after a walk\n`])
    expect(readings.note(0)).toBe('shaky; after a walk')
  })

  it.each(['54-58', 'too low to read', '64mg', '1/2 45'])('in a cell that cannot be read: ‘%s’', (cell) => {
    expect(notCountedOf(`${HEADER}\n2026-03-02,07:10,${cell}\n2026-03-02,12:00,104\n`)).toEqual([2])
  })

  it.each(['12 units', '45 g', '120-130'])('and ‘%s’ is no reading', (cell) => {
    expect(valuesOf(`${HEADER}\n2026-03-02,07:10,${cell}\n2026-03-02,12:00,104\n`)).toEqual(['104 mg/dL'])
  })

  it('by a kind of entry that is no other measure', () => {
    const kinds = ['Blood glucose', 'After exercise', 'Hypo', 'Manual entry', 'Note']
    const rows = kinds.map((kind, i) => `2026-03-0${i + 1},07:10,${40 + i},${kind}`)
    expect(valuesOf([`${HEADER},Type`, ...rows].join('\n'))).toHaveLength(kinds.length)
  })

  it('by a kind that may have been glucose, in a column of values: it is told', () => {
    const log = [
      'Date,Time,Value (mg/dL),Type',
      '2026-03-02,07:10,104,Blood glucose',
      '2026-03-02,12:00,48,Hypo',
      '2026-03-02,12:05,6,Insulin',
    ].join('\n')
    expect(notCountedOf(log)).toEqual([3])
  })

  it('by the word control in a note; only the liquid itself tells', () => {
    const notes = [
      'control nocturno',
      'control after juice',
      'Kontrollmessung nach Hypo',
      'quality control at work',
    ]
    const rows = notes.map((note, i) => `2026-03-0${i + 1},07:10,61,${note}`)
    expect(valuesOf([`${HEADER},Note`, ...rows].join('\n'))).toHaveLength(4)
    const { sources } = logbookOf([
      `${HEADER},Note\n2026-03-02,07:10,104,\n2026-03-02,07:12,61,control solution low\n`,
    ])
    expect(sources[0].setAside.map(({ reason }) => reason)).toEqual(['control-solution'])
  })

  it('as a duplicate of a sensor’s reading in the same minute', () => {
    const sensor = Array.from({ length: 96 }, (_, i) => {
      const at = new Date(Date.UTC(2026, 2, 2) + i * 900_000).toISOString()
      return `${at.slice(0, 10)},${at.slice(11, 16)},65`
    })
    const { readings } = logbookOf([[HEADER, ...sensor].join('\n'), `${HEADER}\n2026-03-02,01:00,65\n`])
    expect(readings.n).toBe(97)
  })

  it('into a rounder reading of another log that stands for a second one already', () => {
    const { readings } = logbookOf([
      `${HEADER}\n2026-03-02,07:10,70\n`,
      `${HEADER}\n2026-03-02,07:10,70\n2026-03-02,07:10,69.6\n`,
    ])
    expect(Array.from({ length: readings.n }, (_, i) => readings.logged[i])).toEqual([70, 69.6])
  })

  it('in a log without a header whose full column is one of codes', () => {
    const rows = ['58,104', '33,11', '34,0', '62,45', '65,0', '64,0', '58,98', '33,6', '34,0', '67,0']
    const log = rows.map((row, i) => `2026-03-${String(10 + i)},07:00,${row}`).join('\n')
    expect(refusalsOf(log)[0].code).toBe('no-glucose-column')
  })

  it('in a second glucose column', () => {
    const header = 'Date,Time,Glucose before meal (mg/dL),Glucose after meal (mg/dL)'
    expect(valuesOf(`${header}\n2026-03-02,07:00,120,45\n2026-03-02,12:00,,38\n`)).toEqual([
      '120 mg/dL',
      '45 mg/dL',
      '38 mg/dL',
    ])
    const numbered = 'Date,Time,Glucose 1 (mg/dL),Glucose 2 (mg/dL)'
    const [refusal] = refusalsOf(`${numbered}\n2026-03-02,07:00,120,45\n2026-03-02,12:00,131,38\n`)
    expect([refusal.code, refusal.reason.key]).toEqual(['no-glucose-column', 'several-glucose-columns'])
    const capillary = 'Date,CGM (mg/dL),CBG (mg/dL)'
    expect(valuesOf(`${capillary}\n2026-03-02 07:00,120,45\n2026-03-02 12:00,145,\n`)).toEqual(['45 mg/dL'])
    const manual = 'Date,Time,Sensor glucose (mg/dL),Manual blood glucose (mg/dL)'
    expect(valuesOf(`${manual}\n2026-03-02,07:00,120,45\n2026-03-02,12:00,145,\n`)).toEqual(['45 mg/dL'])
  })

  it('the same value in both units is one reading, not two columns to choose from', () => {
    const header = 'Date,Time,Glucose (mg/dL),Glucose (mmol/L)'
    expect(valuesOf(`${header}\n2026-03-02,07:00,104,5.8\n2026-03-02,12:00,61,3.4\n`)).toEqual([
      '104 mg/dL',
      '61 mg/dL',
    ])
  })
})

describe('a value is never changed in silence', () => {
  it('g/L is read as what it is: 1 g/L is 100 mg/dL', () => {
    expect(valuesOf('Date;Heure;Glycémie (g/L)\n02/02/2026;7h58;1,19\n13/02/2026;7h58;0,65\n')).toEqual([
      '119 mg/dL',
      '65 mg/dL',
    ])
    expect(valuesOf(`${HEADER}\n2026-03-02,07:10,1.19 g/L\n`)).toEqual(['119 mg/dL'])
  })

  it.each(['mg/L', 'µmol/L'])('another unit in the header is asked about: %s', (unit) => {
    expect(refusalsOf(`Date,Time,Glucose (${unit})\n2026-03-02,07:10,650\n`)[0].code).toBe('unit-unknown')
  })

  it.each([
    ['the header', HEADER, ['5.4', '7.2', '11.4', '104', '98']],
    ['a column', 'Date,Time,Glucose,Unit', ['5.6,mg/dL', '7.2,mg/dL', '4.5,mg/dL']],
  ])('a unit in %s that does not fit several values is asked about', (_, header, values) => {
    const rows = values.map((value, i) => `2026-03-0${i + 1},07:10,${value}`)
    expect(refusalsOf([header, ...rows].join('\n'))[0].code).toBe('unit-unknown')
  })

  it('decimal commas of a comma file stay with their value', () => {
    const rows = ['3,9,', '5,6,x', '7,2,', '6,1,'].map((rest, i) => `2025-11-0${i + 1},06:54,${rest}`)
    const { readings, sources } = logbookOf([['Date,Time,Glucose (mmol/L),Note', ...rows].join('\n')])
    expect(Array.from({ length: 4 }, (_, i) => readings.logged[i])).toEqual([3.9, 5.6, 7.2, 6.1])
    expect(notesOf(sources[0]).join()).toContain('Decimal commas')
  })

  it('one mistyped year does not turn a month of dates round', () => {
    const rows = Array.from({ length: 40 }, (_, i) => `${2 + (i >> 5)}/${1 + (i % 28)}/26,07:10,104`)
    const { sources } = logbookOf([[HEADER, ...rows, '1/1/99,07:10,104'].join('\n')])
    expect(sources[0].dateOrder.value).toBe('mdy')
  })

  it('an answer holds where the rows only suggest another', () => {
    const log = `${HEADER}\n01/02/2026,07:00,104\n02/05/2026,07:00,104\n03/01/2026,07:00,104\n`
    expect(logbookOf([log], { dates: 'dmy' }).sources[0].dateOrder).toEqual({ value: 'dmy', basis: 'answer' })
    expect(
      logbookOf(['Date,Time,Glucose\n2026-03-02,07:00,18\n2026-03-02,08:00,25\n'], { unit: 'mg/dL' })
        .sources[0].unit.value,
    ).toBe('mg/dL')
  })

  it('twelve digits are a date and a time, not the year 1976', () => {
    const { readings } = logbookOf(['Timestamp,Glucose (mg/dL)\n202603020653,120\n20260302070010,98\n'])
    expect([momentText(readings, 0), momentText(readings, 1)]).toEqual([
      '2026-03-02T06:53',
      '2026-03-02T07:00:10',
    ])
  })

  it('Z makes an instant of a day-first date too', () => {
    const { readings } = logbookOf(['Timestamp,Glucose (mg/dL)\n13/03/2026 06:53Z,104\n'])
    expect(momentText(readings, 0)).toBe('2026-03-13T07:53')
  })
})

describe('a table kept by hand', () => {
  it('gives the date on a day’s first row only: the others take it, and the notes say so', () => {
    const log = [
      'Day,When,Sugar mg/dL',
      'Mon 4/13/26,7:50a,175',
      ',12:17p,106',
      ',9:05p,64',
      'Tue 4/14/26,7:40a,120',
      ',1:10p,133',
    ].join('\n')
    const { readings, sources } = logbookOf([log])
    expect(Array.from({ length: readings.n }, (_, i) => momentText(readings, i))).toEqual([
      '2026-04-13T07:50',
      '2026-04-13T12:17',
      '2026-04-13T21:05',
      '2026-04-14T07:40',
      '2026-04-14T13:10',
    ])
    expect(notesOf(sources[0]).join(' ')).toContain('3 rows without a date took the date of the row above')
  })

  it('keeps a row without a date aside where the times do not run on', () => {
    const log = `${HEADER}\n2026-03-02,12:00,104\n,07:00,61\n2026-03-03,12:00,104\n2026-03-04,12:00,99\n`
    expect(logbookOf([log]).sources[0].setAside.map(({ reason }) => reason)).toEqual(['empty-date'])
  })
})

describe('a log whose rows are all set aside', () => {
  it('is told with what is said of most rows', () => {
    const outcome = openVisit([logOf(`${HEADER}\n2031-03-02,12:00,104\n`)], {}, CONTEXT)
    expect(outcome.kind === 'stopped' && outcome.refusals[0].reason).toEqual({
      key: 'all-set-aside',
      most: 'future-date',
    })
  })
})

describe('cells without end', () => {
  const blanks = ' '.repeat(200_000)
  it.each([
    ['value', `2026-03-02,07:10,1${blanks}x,,`],
    ['date', `2026-03-02${blanks}x,07:10,104,,`],
    ['time', `2026-03-02,07${blanks}x,104,,`],
    ['unit', `2026-03-02,07:10,104,mg${blanks}x,`],
    ['kind', `2026-03-02,07:10,104,,${'('.repeat(200_000)}x`],
  ])('are read through once: %s', (_, row) => {
    // A pattern that tries every start would run for minutes here; the test would not end in time.
    const { sources } = logbookOf([`Date,Time,Glucose,Unit,Kind\n${row}\n2026-03-03,07:10,98,mg/dL,\n`])
    expect(sources[0].rows.total).toBe(2)
  })
})

it('one row two hundred thousand times is one reading', () => {
  // Compared each with each they would take hours; the test would not end in time.
  const log = `${HEADER}\n${'2026-03-02,07:10,104\n'.repeat(200_000)}2026-03-02,07:10,61\n`
  const { sources, readings } = logbookOf([log])
  expect([readings.logged[0], readings.logged[1]].sort()).toEqual([104, 61])
  expect(sources[0].rows).toEqual({ total: 200_001, accepted: 2, setAside: 199_999 })
})
