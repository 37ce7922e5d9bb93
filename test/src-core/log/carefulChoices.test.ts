import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import type { Logbook } from '../../../src-core/log/logbook'
import { loggedUnit, momentText } from '../../../src-core/log/readings'
import { logbookOf, refusalsOf, refusalTold } from '../../helpers/logs'

// What is offered first, and what is set aside unasked, as a careful nurse would have it: no choice that makes a slip a low
// or an impossible value stands in front, and no such value is read in silence. Meters show 20 to 600 mg/dL or 1.1 to
// 33.3 mmol/L (ISO 15197:2013 has them say their range; the one that most share).

const PLAIN = ['5.6', '7.2', '8.1', '6.3']

function logWith(value: string, header: string, others: readonly string[] = PLAIN): string {
  const values = [...others.slice(0, 2), value, ...others.slice(2)]
  const rows = values.map((each, i) => `2026-03-0${i + 1},07:10,"${each}"`)
  return [`Date,Time,${header}`, ...rows].join('\n')
}

const answersOf = (text: string): readonly string[] =>
  (refusalsOf(text)[0].question?.choices ?? []).map(({ answer }) => answer)

function valuesOf({ readings }: Logbook): string[] {
  return Array.from({ length: readings.n }, (_, i) => `${readings.logged[i]} ${loggedUnit(readings, i)}`)
}

describe('a value too large for mmol/L', () => {
  const headers = fc.constantFrom('Glucose', 'Glucose (mmol/L)')

  it('is not taken for mg/dL first where it would be a low there, or no meter shows it there', () => {
    const slips = fc.oneof(
      fc.integer({ min: 36, max: 69 }).map(String),
      fc.integer({ min: 601, max: 999 }).map(String),
      fc
        .integer({ min: 560, max: 999 })
        .filter((tenths) => tenths % 10 > 0)
        .map((tenths) => (tenths / 10).toFixed(1)),
    )
    fc.assert(
      fc.property(slips, headers, (slip, header) => {
        const answers = answersOf(logWith(slip, header))
        expect(answers[0]).toBe('mmol/L')
        expect(answers).toContain('mixed')
      }),
      { numRuns: 60 },
    )
  })

  it('is taken for mg/dL first where a meter in mg/dL shows it and it is no low', () => {
    fc.assert(
      fc.property(fc.integer({ min: 70, max: 600 }), headers, (value, header) => {
        expect(answersOf(logWith(String(value), header))[0]).toBe('mixed')
      }),
      { numRuns: 60 },
    )
  })

  it('is told as possibly low where it is set aside as mmol/L and would be a low in mg/dL', () => {
    const { readings, sources } = logbookOf([logWith('66', 'Glucose (mmol/L)')], { unit: 'mmol/L' })
    expect(readings.n).toBe(4)
    expect(sources[0].setAside).toMatchObject([{ line: 4, reason: 'impossible-value', maybeLow: true }])
  })
})

describe('three decimals among values that have none or one', () => {
  it.each(['Glucose', 'Glucose (mmol/L)'])(
    'are no low of mmol/L below %s: the line is told as possibly low',
    (header) => {
      for (const text of ['1,200', '1.200', '2,050', '3,141']) {
        const book = logbookOf([logWith(text, header)])
        expect(valuesOf(book)).toEqual(['5.6 mmol/L', '7.2 mmol/L', '8.1 mmol/L', '6.3 mmol/L'])
        expect(book.sources[0].setAside).toMatchObject([
          { line: 4, reason: 'impossible-value', maybeLow: true },
        ])
      }
    },
  )

  it('ask nothing among whole numbers: one thousand two hundred is no reading', () => {
    const book = logbookOf([logWith('1,200', 'Glucose', ['104', '98', '120', '133'])])
    expect(valuesOf(book)).toEqual(['104 mg/dL', '98 mg/dL', '120 mg/dL', '133 mg/dL'])
    expect(book.sources[0].setAside).toMatchObject([{ line: 4, reason: 'impossible-value' }])
  })

  it('are decimals where most values have them, lows included', () => {
    const book = logbookOf([logWith('2.775', 'Glucose (mmol/L)', ['5.551', '7.216', '3.2', '6.328'])])
    expect(valuesOf(book)).toContain('2.775 mmol/L')
  })
})

describe('a value of mmol/L in a log in g/L', () => {
  const grams = ['1,04', '1,30', '0,62', '0,98']
  const header = 'Glucose (g/L)'

  it('is asked about, with both choices read as they say', () => {
    fc.assert(
      fc.property(fc.integer({ min: 33, max: 99 }), (tenths) => {
        const text = logWith((tenths / 10).toFixed(1), header, grams)
        expect(answersOf(text)).toEqual(['mixed', 'mg/dL'])
        const own = ['104 mg/dL', '130 mg/dL', '62 mg/dL', '98 mg/dL']
        const both = [...own.slice(0, 2), `${tenths / 10} mmol/L`, ...own.slice(2)]
        expect(valuesOf(logbookOf([text], { unit: 'mixed' }))).toEqual(both)
        const all = [...own.slice(0, 2), `${tenths * 10} mg/dL`, ...own.slice(2)]
        expect(valuesOf(logbookOf([text], { unit: 'mg/dL' }))).toEqual(all)
      }),
      { numRuns: 30 },
    )
  })

  it('is not seen in a high that is written as the others are', () => {
    const book = logbookOf([logWith('3,45', header, grams)])
    expect(valuesOf(book)).toContain('345 mg/dL')
  })
})

describe('the year of two digits', () => {
  const rows = (dates: readonly string[]): string =>
    ['Date;Time;Glucose mg/dL', ...dates.map((date) => `${date};07:10;104`)].join('\n')

  it('is not offered in front of the date where it would lie before 2005 and behind it is a recent one', () => {
    expect(answersOf(rows(['2.3.26', '3.3.26', '4.3.26']))).toEqual(['dmy', 'mdy'])
  })

  it('of the order first offered puts the fewest rows into the future', () => {
    expect(answersOf(rows(['04/05/2026', '04/08/2026', '04/09/2026', '04/03/2026']))).toEqual(['mdy', 'dmy'])
    expect(answersOf(rows(['05/04/2026', '08/04/2026', '09/04/2026', '03/04/2026']))).toEqual(['dmy', 'mdy'])
  })

  it('is offered in front first where only there it is a recent one', () => {
    expect(answersOf(rows(['26.03.02', '26.03.03', '26.03.04']))[0]).toBe('ymd')
  })
})

describe('four digits behind a day without a year', () => {
  it('are clock times where some of them can be no year: a time such as 2012 is none either', () => {
    const rows = ['31-Dec 0224,166', '31-Dec 0634,105', '31-Dec 2012,157', '31-Dec 2020,131']
    const text = ['Date and time,Glucose mg/dL', ...rows].join('\n')
    expect(answersOf(text)[0]).toMatch(/^year=/)
    const { readings } = logbookOf([text], { columns: 'year=2025' })
    expect(Array.from({ length: readings.n }, (_, i) => momentText(readings, i))).toEqual([
      '2025-12-31T02:24',
      '2025-12-31T06:34',
      '2025-12-31T20:12',
      '2025-12-31T20:20',
    ])
  })
})

describe('a header that names a mean', () => {
  it('heads the means, which are no readings, above the readings too', () => {
    const text = [
      'Measured on,Average glucose',
      '2026-03-02,178',
      '2026-03-03,169',
      '',
      'Time of test,Finger-stick glucose',
      '2026-03-02',
      '06:20,104mg/dL',
      '09:05,174mg/dL',
    ].join('\n')
    expect(valuesOf(logbookOf([text]))).toEqual(['104 mg/dL', '174 mg/dL'])
  })
})

describe('goals right below a header', () => {
  it.each([
    ['a number in each column', ['Goal;100;100;100;120']],
    ['a range in each column', ['Goal;80-130;80-130;80-130;100-140']],
    ['one text', ['Target: 80-130;;;;']],
    ['two lines', ['Goal from;80;80;80;100', 'Goal to;80-130;130;130;140']],
  ])('are told as no readings where they are %s', (_, goals) => {
    const rows = ['2026-03-02;104;132;98;120', '2026-03-03;110;;140;']
    const book = logbookOf([['Date;Breakfast;Lunch;Dinner;Bedtime', ...goals, ...rows].join('\n')])
    expect(valuesOf(book).sort()).toEqual(
      ['104', '110', '120', '132', '140', '98'].map((value) => `${value} mg/dL`),
    )
    expect(momentText(book.readings, 0)).toBe('2026-03-02')
    const told = new Set(book.sources[0].setAside.map(({ line, reason }) => `${line} ${reason}`))
    expect([...told]).toEqual(goals.map((__, i) => `${i + 2} footer`))
  })
})

describe('a column that names a moment alone, beside one that says glucose', () => {
  const text = [
    'Ward,Bed,Date,Time,Glucose mmol/L before insulin',
    '4B,12,2026-03-03,07:40,7.2',
    '4B,14,2026-03-04,07:35,8.4',
  ].join('\n')

  it('is asked about by its name, and the answer named is one that reads the log', () => {
    const [refusal] = refusalsOf(text)
    expect(refusal.reason).toEqual({ key: 'moment-or-other', header: 'Bed', other: 5 })
    expect(refusalTold(refusal)).toContain('‘Bed’')
    expect(refusalTold(refusal)).toContain('glucose=5')
    expect(refusal.question?.choices[0].answer).toBe('glucose=5')
    const book = logbookOf([text], { columns: 'glucose=5' })
    expect(valuesOf(book)).toEqual(['7.2 mmol/L', '8.4 mmol/L'])
    // The number of a bed is no meal.
    expect(book.sources[0].notUsed).toContainEqual(expect.objectContaining({ header: 'Bed' }))
  })
})

describe('a column of weekdays whose short form is a half of the day elsewhere', () => {
  it('makes no evening of a morning: P is Friday in Hungarian', () => {
    const text = [
      'Mérés dátuma\tIdőpont\tA hét napja\tGlükóz (mmol/l)',
      ...['2:43', '7:27', '9:10', '11:52', '4:16'].map((time, i) => `2025-12-0${i < 4 ? 5 : 6}\t${time}\t${i < 4 ? 'P' : 'Szo'}\t6.${i}`),
    ].join('\n')
    const { readings } = logbookOf([text])
    expect(Array.from({ length: readings.n }, (_, i) => momentText(readings, i))).toEqual([
      '2025-12-05T02:43', '2025-12-05T07:27', '2025-12-05T09:10', '2025-12-05T11:52', '2025-12-06T04:16',
    ])
  }) // prettier-ignore
})

describe('a header with digits of another script', () => {
  it('is known as the measure that it names: no A1C is a reading', () => {
    const text = [
      'Datum;Langzeitwert HBA١C',
      '22.05.2026;8,0',
      '03.03.2026;7,3',
      '',
      'Datum;Zeit;BZ mg/dl',
      '22.05.2026;07:37;112',
      '23.05.2026;13:55;175',
    ].join('\n')
    const book = logbookOf([text])
    expect(valuesOf(book)).toEqual(['112 mg/dL', '175 mg/dL'])
    expect(book.sources[0].setAside.map(({ reason }) => reason)).toEqual(['other-table', 'other-table'])
  })
})

describe('the readings of several people in one file', () => {
  it.each([
    ['a column of patients', 'Bed,Patient,Date/Time,CBG mmol/L\n1,A. Thistle,2025-11-12 06:00,7.1\n1,A. Thistle,2025-11-13 11:30,9.8\n2,B. Rowan,2025-11-12 06:05,3.6\n2,B. Rowan,2025-11-13 11:35,14.2'],
    ['a column of residents', 'Bewohner;Datum;Uhrzeit;BZ mg/dl\nAbel, K.;13.10.2025;07:00;121\nAbel, K.;13.10.2025;18:00;166\nZorn, M.;13.10.2025;07:10;58'],
    ['a column of record numbers', 'MRN,Collected,Glucose mg/dL\n0099121,2025-10-13 07:00,121\n0099121,2025-10-13 18:00,166\n0044780,2025-10-13 07:10,58'],
    ['another patient above the header again', 'Patiënt: Joris Wolk;;\nDatum;Tijd;Glucose mmol/L\n14-01-2025;07:00;6,2\n14-01-2025;18:00;8,9\n\nPatiënt: Mies Zand;;\nDatum;Tijd;Glucose mmol/L\n14-01-2025;07:15;3,3\n15-01-2025;07:30;11,0'],
  ])('are asked about, never merged: %s', (_, text) => {
    expect(refusalsOf(text).map(({ question }) => question?.option)).toEqual(['--columns'])
  })

  it('are asked for by people, not by kinds of entry, and nobody is named in the reason', () => {
    const text = 'Patient,Date/Time,CBG mmol/L\nA. Thistle,2025-11-12 06:00,7.1\nB. Rowan,2025-11-13 11:30,9.8'
    const [{ reason, question }] = refusalsOf(text)
    expect(reason).toEqual({ key: 'several-people', column: 1, people: 2 })
    expect(question?.choices.map(({ answer }) => answer)).toEqual(['kind=1:A. Thistle', 'kind=1:B. Rowan'])
    expect(valuesOf(logbookOf([text], { columns: 'kind=1:B. Rowan' }))).toEqual(['9.8 mmol/L'])
  })

  it('are read without a question where all are of one', () => {
    const text = 'Patient,Date/Time,CBG mmol/L\nA. Thistle,2025-11-12 06:00,7.1\nA. Thistle,2025-11-13 11:30,9.8'
    expect(valuesOf(logbookOf([text]))).toEqual(['7.1 mmol/L', '9.8 mmol/L'])
  })
}) // prettier-ignore

describe('a dated row of a mean whose name stands in the column of weekdays', () => {
  it.each(['Schnitt', 'Haftalık ort.', 'śr. tyg.'])('is no reading: %s', (name) => {
    const text = `Tag;Datum;Uhrzeit;Wert (mg/dl)\nMo;10.02.2025;07:00;98\nDi;11.02.2025;07:10;104\n${name};16.02.2025;;101`
    const book = logbookOf([text], { dates: 'dmy' })
    expect(valuesOf(book)).toEqual(['98 mg/dL', '104 mg/dL'])
    expect(book.sources[0].setAside).toMatchObject([{ line: 4, reason: 'footer' }])
  })
}) // prettier-ignore

describe('a file of readings that this program wrote', () => {
  it('gives all its readings, whatever the log was called that they came from', () => {
    const text = [
      'at,mg_dl,mmol_l,limit,meter,meal,note,source,line,doubt,reasons,in_repeat_set,logged_value,logged_unit,logged_at',
      '2026-03-02T07:00,58,3.2,,m,,,my insulin and glucose.csv,2,,,no,58,mg/dL,2026-03-02T07:00',
      '2026-03-02T12:00,120,6.7,,m,,,meter.csv,2,,,no,120,mg/dL,2026-03-02T12:00',
    ].join('\n')
    expect(valuesOf(logbookOf([text]))).toEqual(['58 mg/dL', '120 mg/dL'])
  })
})
