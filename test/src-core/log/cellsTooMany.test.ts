import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import type { Logbook } from '../../../src-core/log/logbook'
import { loggedUnit, momentText } from '../../../src-core/log/readings'
import { logbookOf } from '../../helpers/logs'

// Rows whose delimiters and quotes stand where nobody meant them: what was meant is read, or the line is told. The
// values and their places are the test's own.

function readingsOf({ readings }: Logbook): string[] {
  return Array.from(
    { length: readings.n },
    (_, i) => `${momentText(readings, i)} ${readings.logged[i]} ${loggedUnit(readings, i)}`,
  )
}

const TENTHS = fc.integer({ min: 21, max: 199 }).map((tenths) => (tenths / 10).toFixed(1))
const comma = (value: string): string => value.replace('.', ',')
const day = (i: number): string => `2026-03-${String(1 + i).padStart(2, '0')}`
const germanDay = (i: number): string => `${String(1 + i).padStart(2, '0')}.03.2026`

describe('a semicolon file', () => {
  it('keeps the decimals of its stretches side by side where its headers hold commas and another table has fewer columns', () => {
    fc.assert(
      fc.property(fc.array(fc.tuple(TENTHS, TENTHS), { minLength: 2, maxLength: 9 }), (rows) => {
        const lines = rows.map(
          ([left, right], i) =>
            `${germanDay(i)} 7.4${i};${comma(left)};;` +
            (i < rows.length - 1 ? `${germanDay(i + 10)} 18.1${i};${comma(right)}` : ';'),
        )
        const other = [
          '',
          'Tag;Blutketone (mmol/L)',
          ...Array.from({ length: rows.length + 1 }, (_, i) => `${germanDay(i)};0,${i}`),
        ]
        const text = ['Datum, Zeit;BZ-Wert mmol/l;;Datum, Zeit;BZ-Wert mmol/l', ...lines, ...other].join('\n')
        const truth = rows.flatMap(([left, right], i) => [
          `${day(i)}T07:4${i} ${Number(left)} mmol/L`,
          ...(i < rows.length - 1 ? [`${day(i + 10)}T18:1${i} ${Number(right)} mmol/L`] : []),
        ])
        expect(readingsOf(logbookOf([text], { dates: 'dmy' })).sort()).toEqual(truth.sort())
      }),
      { numRuns: 40 },
    )
  })
})

describe('a quote that never closes', () => {
  it('leaves the decimals quoted before it whole, in the first row of a file without a header too', () => {
    fc.assert(
      fc.property(fc.array(fc.tuple(TENTHS, fc.boolean()), { minLength: 4, maxLength: 9 }), (rows) => {
        const text = rows
          .map(([value, open], i) => `${germanDay(i)},18:1${i},"${comma(value)}",${i === 0 || open ? '"' : ''}czw.`)
          .join('\n')
        const book = logbookOf([text], { unit: 'mmol/L', dates: 'dmy', columns: 'glucose=3' })
        expect(readingsOf(book)).toEqual(rows.map(([value], i) => `${day(i)}T18:1${i} ${Number(value)} mmol/L`))
      }),
      { numRuns: 40 },
    )
  }) // prettier-ignore
})

describe('a text with the delimiter in it', () => {
  const header = 'Weekday;Date;Fasting;Insulin fasting;After breakfast;Insulin after breakfast;Bedtime'
  const rows = [
    'Mon;2026-03-02;101;8;;2;155',
    'Wed; off work;2026-03-04;44;14;;;138',
    'Thu;2026-03-05;;;178;;',
  ]

  it('in front of the date moves no meal: every value of the row is read where it was written', () => {
    const readings = readingsOf(logbookOf([[header, ...rows].join('\n')]))
    expect(readings).toEqual([
      '2026-03-02 101 mg/dL',
      '2026-03-02 155 mg/dL',
      '2026-03-04 44 mg/dL',
      '2026-03-04 138 mg/dL',
      '2026-03-05 178 mg/dL',
    ])
  })

  it('in front of the value puts the line aside where blank columns at the end hide that it is too long', () => {
    const text = [
      'Date,Time,Note,Upload,No.,Glucose mmol/L,Insulin,',
      '2026-01-21,14:13,,2026-07-26,1,6.8,,',
      '2026-01-21,22:34,shaking, sweating,2026-07-26,2,3.7,,',
      '2026-01-22,06:59,,2026-07-26,4,10.4,,',
    ].join('\n')
    const book = logbookOf([text])
    expect(readingsOf(book)).toEqual(['2026-01-21T14:13 6.8 mmol/L', '2026-01-22T06:59 10.4 mmol/L'])
    expect(book.sources[0].setAside).toMatchObject([{ line: 3, reason: 'ragged-row', maybeLow: true }])
  })
})

describe('decimals that no quote holds together, in a column that few rows fill', () => {
  it('cost no other row its time: the lines they make too long are told', () => {
    const rows = Array.from({ length: 10 }, (_, i) => {
      const potassium = i % 3 === 0 ? '4,3' : ''
      return `${100 + i},${potassium},Fasting,${germanDay(i + 13)},07:4${i},`
    })
    const book = logbookOf([['Glucose mg/dl,Potassium,Meal,Day,Time of test,', ...rows].join('\n')])
    const fitting = Array.from({ length: 10 }, (_, i) => i).filter((i) => i % 3 !== 0)
    expect(readingsOf(book)).toEqual(fitting.map((i) => `${day(i + 13)}T07:4${i} ${100 + i} mg/dL`))
    expect(book.sources[0].setAside.map(({ line }) => line)).toEqual([2, 5, 8, 11])
  })
})

describe('a unit that is written twice in one row', () => {
  it('makes no meter of the second and no note of the meter: the line is told', () => {
    const text = [
      'Measured,Glucose,Unit,Serial number,Remark',
      '2026-03-02 07:00,6.8,mmol/L, mmol/L,K-2,',
      '2026-03-02 12:00,7.1,mmol/L,K-2,after a walk',
      '2026-03-02 18:00,7.4,mmol/L,K-1,',
    ].join('\n')
    const book = logbookOf([text])
    expect(book.readings.meters).toEqual(['K-2', 'K-1'])
    expect(book.sources[0].setAside).toMatchObject([{ line: 2, reason: 'ragged-row' }])
  })
})

describe('a closing line', () => {
  it('about the printing is no reading, though its date and its clock stand where date and value do', () => {
    const text = [
      'Weekday;Date;07:00;12:00;18:00;22:00',
      'Mo;14.4.2025;9,3;-;10,8;6,6',
      'Di;15.4.2025;4,6;10,1;-;5,6',
      'Ausdruck vom;27.6.2026;10.01',
    ].join('\n')
    const book = logbookOf([text])
    const values = ['9.3', '10.8', '6.6', '4.6', '10.1', '5.6']
    const read = readingsOf(book).map((text) => text.split(' ')[1])
    expect(read.sort()).toEqual([...values].sort())
    expect(book.sources[0].setAside).toContainEqual(expect.objectContaining({ line: 4, reason: 'footer' }))
  }) // prettier-ignore

  it('of a mean is no reading, though its decimal comma pushes its name out of the table', () => {
    const text = [
      'Day,Time,Glucose (mg/dL),Bolus,Note',
      '2026-03-02,02:33,65,,',
      '2026-03-02,06:27,146,14,',
      '2026-03-02,,105,5,,Average',
    ].join('\n')
    const book = logbookOf([text])
    expect(readingsOf(book)).toEqual(['2026-03-02T02:33 65 mg/dL', '2026-03-02T06:27 146 mg/dL'])
    expect(book.sources[0].setAside).toMatchObject([{ line: 4, reason: 'footer' }])
  })
})

describe('a row of units that names grams per litre', () => {
  it('stands below the header, whose hours and minutes tell the time', () => {
    const text = ['Date;Hour;Minute;Glucose;Weight', ';;;g/l;kg', '2026-03-19;6;8;1,08;57,3', '2026-03-20;18;0;1,70;57,6', '2026-03-21;2;52;0,49;57,4'].join('\n')
    expect(readingsOf(logbookOf([text]))).toEqual(['2026-03-19T06:08 108 mg/dL', '2026-03-20T18:00 170 mg/dL', '2026-03-21T02:52 49 mg/dL'])
  }) // prettier-ignore
})
