import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import type { Logbook } from '../../../src-core/log/logbook'
import { FLAG, hasFlag, loggedUnit, momentText } from '../../../src-core/log/readings'
import { choicesTold, CONTEXT, logbookOf, logOf, notesOf, refusalsOf, refusalTold } from '../../helpers/logs'
import { runs } from '../../helpers/runs'

/** Every reading as 'moment value unit', in order of time. */
function readingsOf({ readings }: Logbook): string[] {
  return Array.from(
    { length: readings.n },
    (_, i) => `${momentText(readings, i)} ${readings.logged[i]} ${loggedUnit(readings, i)}`,
  )
}

function reasonsOf({ sources }: Logbook, log = 0): string[] {
  return sources[log].setAside.map(({ line, reason }) => `${line} ${reason}`)
}

describe('a log in one of the common forms', () => {
  it.each([
    {
      form: 'comma, ISO date and time in two columns',
      text: 'Date,Time,Glucose (mg/dL)\n2026-03-02,07:10,104\n2026-03-02,12:00,98\n',
      readings: ['2026-03-02T07:10 104 mg/dL', '2026-03-02T12:00 98 mg/dL'],
    },
    {
      form: 'semicolon, decimal comma, German headers, dots in the date, a byte-order mark',
      text: '\ufeffDatum;Uhrzeit;Blutzucker (mmol/L)\r\n13.02.2026;7:10;5,8\r\n',
      readings: ['2026-02-13T07:10 5.8 mmol/L'],
    },
    {
      form: 'tab, one timestamp with seconds',
      text: 'Timestamp\tGlucose [mg/dl]\n2026-03-02T07:10:31\t104\n',
      readings: ['2026-03-02T07:10:31 104 mg/dL'],
    },
    {
      form: 'month first with a 12-hour clock; 12 AM is midnight',
      text: 'Date,Time,Glucose mg/dL\n3/14/2026,12:05 AM,104\n3/14/2026,12:05 p.m.,110\n',
      readings: ['2026-03-14T00:05 104 mg/dL', '2026-03-14T12:05 110 mg/dL'],
    },
    {
      form: 'a preamble, a row of group names, a units row',
      text: 'My log\nGlucose and notes\nWhen,,What\nFecha;Hora;Glucosa\nDD/MM/AAAA;hh:mm;mmol/L\n02/03/2026;07:10;5,8\n',
      readings: ['2026-03-02T07:10 5.8 mmol/L'],
    },
    {
      form: 'the unit in the cell, one row in each',
      text: 'Date,Time,Glucose\n2026-03-02,07:10,104 mg/dL\n2026-03-02,12:00,5.8 mmol/l\n',
      readings: ['2026-03-02T07:10 104 mg/dL', '2026-03-02T12:00 5.8 mmol/L'],
    },
    {
      form: 'dates alone',
      text: 'Date;Glucose (mg/dL)\n2026-03-02;104\n',
      readings: ['2026-03-02 104 mg/dL'],
    },
    {
      form: 'no header, one column of values',
      text: '2026-03-02,07:10,104\n2026-03-02,12:00,98\n2026-03-03,07:00,35\n',
      readings: ['2026-03-02T07:10 104 mg/dL', '2026-03-02T12:00 98 mg/dL', '2026-03-03T07:00 35 mg/dL'],
    },
    {
      form: 'month names and two-digit years',
      text: 'Datum;Zeit;Blutzucker mg/dl\n2. März 26;07.10;104\n',
      readings: ['2026-03-02T07:10 104 mg/dL'],
    },
    {
      form: 'an offset: the wall-clock time stands as written',
      text: 'Timestamp,Glucose (mg/dL)\n2026-03-02T23:30:00-05:00,104\n',
      readings: ['2026-03-02T23:30:00 104 mg/dL'],
    },
    {
      form: 'an instant: shown in the zone (Berlin, one hour ahead in winter)',
      text: 'Timestamp,Glucose (mg/dL)\n2026-03-02T23:30:00Z,104\n',
      readings: ['2026-03-03T00:30:00 104 mg/dL'],
    },
    {
      form: 'spreadsheet serials (46083.5 is 2 March 2026, noon)',
      text: 'Zeitpunkt;Glukose (mg/dL)\n46083,5;104\n',
      readings: ['2026-03-02T12:00:00 104 mg/dL'],
    },
  ])('$form', ({ text, readings }) => {
    expect(readingsOf(logbookOf([text]))).toEqual(readings)
  })

  it('reads UTF-16 without a byte-order mark', () => {
    const text = 'Date,Time,Glucose (mg/dL)\n2026-03-02,07:10,104\n'
    const bytes = Uint8Array.from(Buffer.from(text, 'utf16le'))
    const book = logbookOf([bytes])
    expect(readingsOf(book)).toEqual(['2026-03-02T07:10 104 mg/dL'])
    expect(notesOf(book.sources[0])).toContain('The character set was guessed: utf-16le.')
  })

  it('reads Windows-1252 as it is', () => {
    const text = 'Prüfdatum;Zeit;Blutzucker mg/dl;Bemerkung\n13.03.2026;07:10;104;kalte Hände\n'
    const book = logbookOf([Uint8Array.from(Buffer.from(text, 'latin1'))])
    expect(book.readings.note(0)).toBe('kalte Hände')
  })
})

describe('markers at the meter’s limits', () => {
  const rows = ['HI', 'LO', '>500', '< 1.1 mmol/L', 'high', 'low', '600'].map(
    (value, i) => `2026-03-0${i + 1},07:00,${value}`,
  )
  const { readings } = logbookOf([`Date,Time,Glucose (mg/dL)\n${rows.join('\n')}`])

  it('stand for 600 and 20 mg/dL, or for the limit printed with them', () => {
    expect(readingsOf({ readings } as Logbook).map((text) => text.slice(17))).toEqual([
      '600 mg/dL',
      '20 mg/dL',
      '500 mg/dL',
      '1.1 mmol/L',
      '600 mg/dL',
      '20 mg/dL',
      '600 mg/dL',
    ])
  })

  it('are told apart from a number that happens to equal the limit', () => {
    const above = Array.from({ length: 7 }, (_, i) => hasFlag(readings, i, FLAG.aboveRange))
    expect(above).toEqual([true, false, true, false, true, false, false])
  })
})

describe('the unit', () => {
  const log = (header: string, ...values: string[]): string =>
    `Date,Time,${header}\n${values.map((value, i) => `2026-03-0${i + 1},07:00,${value}`).join('\n')}`

  it.each([
    { text: log('Glucose (mmol/L)', '5.6'), unit: { value: 'mmol/L', basis: 'header' } },
    { text: log('Glucose', '5.6', '20.1'), unit: { value: 'mmol/L', basis: 'values' } },
    { text: log('Glucose', '104', '33'), unit: { value: 'mg/dL', basis: 'values' } },
    { text: log('Glucose', '104 mg/dl', '98 mg/dl'), unit: { value: 'mg/dL', basis: 'cell' } },
    { text: log('Glucose', '104 mg/dl', '5.6 mmol/l'), unit: { value: 'mixed', basis: 'cell' } },
  ])('is $unit.value by the $unit.basis', ({ text, unit }) => {
    expect(logbookOf([text]).sources[0].unit).toEqual(unit)
  })

  it.each([
    {
      why: 'all values lie between 20 and 33',
      text: log('Glucose', '22', '31'),
      answers: ['mg/dL', 'mmol/L'],
    },
    {
      why: 'both magnitudes stand in one column',
      text: log('Glucose', '5.6', '104'),
      answers: ['mixed', 'mg/dL', 'mmol/L'],
    },
    {
      why: 'the header contradicts the values',
      text: log('Glucose (mg/dL)', '5.6', '7.1', '6.0'),
      answers: ['mmol/L', 'mg/dL'],
    },
    {
      why: 'the header contradicts the values the other way',
      text: log('Glucose (mmol/L)', '104', '98', '77'),
      answers: ['mg/dL', 'mmol/L'],
    },
  ])('is asked for where $why, and the answer is taken', ({ text, answers }) => {
    const [refusal] = refusalsOf(text)
    expect(refusal.code).toBe('unit-unknown')
    expect(refusalTold(refusal)).toContain('--log-unit')
    expect(refusal.question?.choices.map(({ answer }) => answer)).toEqual(answers)
    expect(logbookOf([text], { unit: 'mg/dL' }).sources[0].unit).toEqual({ value: 'mg/dL', basis: 'answer' })
  })
})

describe('the order of day and month', () => {
  const log = (...dates: string[]): string =>
    `Date,Time,Glucose (mg/dL)\n${dates.map((date) => `${date},07:00,104`).join('\n')}`

  it('is decided by one row with a day of 13 or more, also the very last', () => {
    const many = Array.from({ length: 300 }, () => '03/04/2026')
    const book = logbookOf([log(...many, '13/04/2026')])
    expect(book.sources[0].dateOrder).toEqual({ value: 'dmy', basis: 'rows' })
    expect(logbookOf([log(...many, '04/13/2026')]).sources[0].dateOrder.value).toBe('mdy')
  })

  it('is decided by the sequence of the rows where only one reading of it runs one way', () => {
    // Day first they run from 1 March to 9 April; month first they jump back and forth.
    const book = logbookOf([log('01/03/2026', '05/03/2026', '02/04/2026', '09/04/2026')])
    expect(book.sources[0].dateOrder).toEqual({ value: 'dmy', basis: 'rows' })
  })

  it('is asked for where nothing decides it; the language alone never does', () => {
    const text =
      'Datum;Zeit;Blutzucker (mg/dL)\n03.04.2026;07:00;104\n05.01.2026;07:00;98\n04.06.2026;07:00;98\n'
    const [refusal] = refusalsOf(text)
    expect(refusal).toMatchObject({ code: 'date-order-unknown', line: 2 })
    expect(choicesTold(refusal)).toEqual([
      { answer: 'dmy', label: 'day first', example: '3 April 2026', effect: '5 January to 4 June 2026' },
      { answer: 'mdy', label: 'month first', example: '4 March 2026', effect: '4 March to 1 May 2026' },
    ])
    expect(readingsOf(logbookOf([text], { dates: 'mdy' }))[0]).toBe('2026-03-04T07:00 104 mg/dL')
  })

  it('may be spelt out in the header', () => {
    const text = 'Date (DD/MM/YYYY),Glucose (mg/dL)\n03/04/2026,104\n05/01/2026,98\n'
    expect(logbookOf([text]).sources[0].dateOrder).toEqual({ value: 'dmy', basis: 'header' })
  })

  it('sets a date aside that does not exist, instead of rolling it over', () => {
    const book = logbookOf([log('28/02/2026', '30/02/2026', '31/04/2026')])
    expect(reasonsOf(book)).toEqual(['3 unreadable-date', '4 unreadable-date'])
  })
})

describe('rows that are no reading', () => {
  it('are set aside with line and reason, never dropped', () => {
    const book = logbookOf([
      [
        'Date,Time,Kind,Glucose (mg/dL),Insulin,Note',
        '2026-03-02,07:10,Glucose,104,,',
        '2026-03-02,07:12,Control solution,61,,',
        '2026-03-02,08:00,Insulin,,6,',
        '2026-03-02,09:00,Glucose,,,',
        '2026-03-02,10:00,Glucose,ERR 4,,',
        '2026-03-02,11:00,Glucose,0,,',
        '2026-03-02,11:30,Glucose,"1,483",,',
        'Date,Time,Kind,Glucose (mg/dL),Insulin,Note',
        '2026-03-02,25:10,Glucose,64,,',
        ',12:00,Glucose,LO,,',
        '2026-09-02,07:00,Glucose,60,,',
        '2001-01-01,07:00,Glucose,60,,',
        '2026-03-02,07:10,Glucose,104,,',
        ',,,,,',
        '',
        'Average,,,104,,',
      ].join('\n'),
    ])
    expect(reasonsOf(book)).toEqual([
      '3 control-solution',
      '4 not-glucose',
      '5 empty-value',
      '6 unreadable-value',
      '7 impossible-value',
      '8 impossible-value',
      '9 repeated-header',
      '10 unreadable-date',
      '11 empty-date',
      '12 future-date',
      '13 clock-reset',
      '14 duplicate',
      '17 footer',
    ])
    expect(book.sources[0].rows).toEqual({ total: 14, accepted: 1, setAside: 13 })
    const maybeLow = book.sources[0].setAside.filter((row) => row.maybeLow).map(({ line }) => line)
    expect(maybeLow).toEqual([3, 10, 11, 12, 13])
  })

  it('leave the rows that are readable where rows are ragged', () => {
    const book = logbookOf([
      'Date;Time;Glucose (mg/dL);Note\n2026-03-02;07:10;104\n2026-03-02;08:00;98;a; b;;\n2026-03-02;09:00\n',
    ])
    expect(readingsOf(book)).toHaveLength(2)
    expect(book.readings.note(1)).toBe('a; b')
    expect(reasonsOf(book)).toEqual(['4 empty-value'])
  })
})

describe('duplicates', () => {
  const header = 'Date,Time,Glucose (mg/dL)\n'

  it('count once where a log is exported twice, and the later log’s row goes', () => {
    const log = `${header}2026-03-02,07:10,104\n2026-03-02,12:00,98\n`
    const book = logbookOf([log, log])
    expect(book.readings.n).toBe(2)
    expect(book.duplicatesAcrossLogs).toBe(2)
    expect(book.sources.map(({ rows }) => rows.accepted)).toEqual([2, 0])
  })

  it('are seen with the seconds dropped and through the other unit', () => {
    const seconds = 'Timestamp;Glucose (mmol/L)\n2026-03-02 07:10:31;5,6\n'
    expect(logbookOf([`${header}2026-03-02,07:10,100\n`, seconds]).readings.n).toBe(1)
    expect(logbookOf([`${header}2026-03-02,07:10,104\n`, seconds]).readings.n).toBe(2)
  })

  it('are no duplicates with another value, meter, second or offset', () => {
    const rows = [
      'Timestamp,Glucose (mg/dL),Meter',
      '2026-03-02T07:10:00+01:00,104,a',
      '2026-03-02T07:10:00+01:00,105,a',
      '2026-03-02T07:10:00+01:00,104,b',
      '2026-03-02T07:10:09+01:00,104,a',
      '2026-03-02T07:10:00+02:00,104,a',
    ]
    expect(logbookOf([rows.join('\n')]).readings.n).toBe(5)
  })

  it('of dates without times count across logs, each once, and where the whole row is equal', () => {
    const days = 'Date,Glucose (mg/dL),Note\n2026-03-02,104,a\n2026-03-02,104,b\n'
    expect(logbookOf([days]).readings.n).toBe(2)
    expect(reasonsOf(logbookOf([`${days}2026-03-02,104,a\n`]))).toEqual(['4 duplicate'])
    expect(logbookOf([days, days]).readings.n).toBe(2)
  })

  it('make one meter of two logs that share three or more', () => {
    const rows = [
      '2026-03-02,07:10,104',
      '2026-03-02,12:00,98',
      '2026-03-03,07:10,101',
      '2026-03-03,12:00,97',
    ]
    const book = logbookOf([
      header + rows.slice(0, 3).join('\n'),
      header + rows.join('\n'),
      `${header}2026-03-05,08:00,90`,
    ])
    expect(book.readings.meters).toEqual(['meter A', 'meter B'])
  })
})

describe('a refused log', () => {
  it.each([
    { what: 'an empty file', content: '', code: 'empty-file' },
    { what: 'blank lines only', content: '\n \n', code: 'empty-file' },
    { what: 'a PDF', content: '%PDF-1.7\n%âãÏÓ\n1 0 obj', code: 'not-text' },
    { what: 'an archive', content: Uint8Array.of(0x50, 0x4b, 3, 4, 0, 0, 8, 0, 1, 2, 3), code: 'not-text' },
    {
      what: 'bytes of no text',
      content: Uint8Array.from({ length: 2000 }, (_, i) => (i * 73 + 129) % 256),
      code: 'not-text',
    },
    { what: 'JSON', content: '{"date": "2026-03-02", "glucose": 104}', code: 'unreadable-file' },
    {
      what: 'a table without glucose',
      content: 'Date,Time,Pulse\n2026-03-02,07:10,71\n',
      code: 'no-glucose-column',
    },
    {
      what: 'a table without dates',
      content: 'Glucose (mg/dL),Note,Meal\n104,,\n',
      code: 'no-glucose-column',
    },
    { what: 'a header alone', content: 'Date,Time,Glucose (mg/dL)\n', code: 'no-readings' },
    {
      what: 'a field of two million letters',
      content: `Date,Glucose (mg/dL),Note\n2026-03-02,104,${'x'.repeat(2_000_000)}\n`,
      code: 'field-too-large',
    },
  ])('is told for $what', ({ content, code }) => {
    const [refusal] = refusalsOf(content)
    expect(refusal.code).toBe(code)
    for (const place of ['terminal', 'window'] as const) {
      const told = refusalTold(refusal, place)
      expect(told.length).toBeGreaterThan(20)
      expect(told).not.toContain('104')
    }
  })

  it('has its columns named by --columns, by header or by number, with the kinds of entry that count', () => {
    const text = '02-13-2026\t7:10\t58\t104\n02-13-2026\t7:12\t33\t6\n02-14-2026\t8:00\t48\t98\n'
    expect(refusalsOf(text)[0].code).toBe('no-glucose-column')
    const named = logbookOf([text], { columns: 'date=1,time=2,kind=3:48|58,glucose=4' })
    expect(readingsOf(named)).toEqual(['2026-02-13T07:10 104 mg/dL', '2026-02-14T08:00 98 mg/dL'])
    const foreign = 'Day,Clock,Xyzzy\n2026-03-02,07:10,104\n'
    expect(readingsOf(logbookOf([foreign], { columns: 'date=Day,glucose=xyzzy' }))).toHaveLength(1)
    expect(refusalTold(refusalsOf(foreign, { columns: 'glucose=Nowhere' })[0])).toContain('Nowhere')
  })
})

describe('any list of readings', () => {
  const value = fc.integer({ min: 20, max: 600 })
  const row = fc.record({
    minute: fc.integer({ min: 29_500_000, max: 29_600_000 }),
    value,
    note: fc.string({ unit: fc.constantFrom('a', 'b', ' ', '"', ',', ';', '\t', 'é', "'"), maxLength: 8 }),
  })
  const rows = fc.uniqueArray(row, { selector: ({ minute }) => minute, minLength: 1, maxLength: 30 })

  function written(
    list: readonly { minute: number; value: number; note: string }[],
    delimiter: string,
  ): string {
    const quoted = (text: string): string => `"${text.replaceAll('"', '""')}"`
    return ['Date,Time,Glucose (mg/dL),Note'.replaceAll(',', delimiter)]
      .concat(
        list.map(({ minute, value: mgDl, note }) => {
          const [date, time] = new Date(minute * 60_000).toISOString().split('T')
          return [date, time.slice(0, 5), String(mgDl), quoted(note)].join(delimiter)
        }),
      )
      .join('\n')
  }

  it('is read back from any delimiter, whatever the order of its rows, and every row is accounted for', () => {
    fc.assert(
      fc.property(rows, fc.constantFrom(',', ';', '\t', '|'), (list, delimiter) => {
        const book = logbookOf([written(list, delimiter)])
        const sorted = [...list].sort((a, b) => a.minute - b.minute)
        expect(Array.from(book.readings.mgDl as Float64Array)).toEqual(sorted.map((one) => one.value))
        expect(sorted.map((_, i) => book.readings.note(i))).toEqual(sorted.map(({ note }) => note.trim()))
        const { total, accepted, setAside } = book.sources[0].rows
        expect([total, accepted + setAside]).toEqual([list.length, list.length])
      }),
      { seed: 2, numRuns: runs(75) },
    )
  })

  it('survives bytes flipped, cut and repeated: no exception, no row unaccounted for', () => {
    const seedText = written(
      Array.from({ length: 20 }, (_, i) => ({
        minute: 29_500_000 + i * 400,
        value: 60 + i * 7,
        note: i % 3 ? '' : 'a "b", c',
      })),
      ',',
    )
    const edit = fc.record({
      at: fc.nat(),
      byte: fc.integer({ min: 0, max: 255 }),
      drop: fc.nat(3),
      repeat: fc.nat(3),
    })
    fc.assert(
      fc.property(fc.array(edit, { minLength: 1, maxLength: 6 }), (edits) => {
        let bytes = new TextEncoder().encode(seedText)
        for (const { at, byte, drop, repeat } of edits) {
          const where = at % bytes.length
          const head = bytes.subarray(0, where)
          const again = bytes.subarray(where, where + repeat * 9)
          bytes = Uint8Array.from([...head, byte, ...again, ...bytes.subarray(where + drop)])
        }
        try {
          const [source] = logbookOf([logOf(bytes)], { unit: 'mg/dL', dates: 'dmy' }, CONTEXT).sources
          expect(source.rows.total).toBe(source.rows.accepted + source.rows.setAside)
          expect(source.setAside).toHaveLength(source.rows.setAside)
        } catch (error) {
          // A refusal is an answer; anything else is not.
          expect((error as Error).message).toMatch(/^[a-z-]+: [A-Z]/)
        }
      }),
      { seed: 3, numRuns: runs(200) },
    )
  })
})
