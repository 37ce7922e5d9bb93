import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import type { Logbook } from '../../../src-core/log/logbook'
import { loggedUnit, momentText } from '../../../src-core/log/readings'
import { logbookOf, refusalsOf } from '../../helpers/logs'

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

describe('decimals that no quote holds together, beside other measures', () => {
  const aside = (text: string): readonly string[] =>
    logbookOf([text]).sources[0].setAside.map(({ line, reason }) => `${line} ${reason}`)

  it('are those of the weight and the potassium where glucose has none, and no low is made of them', () => {
    const rows = ['83,4,143,123,,76018,4,7', '83,3,68,123,,76019,', '83,8,154,123,71,76020,4,6', '82,4,135,123,96,76023,4,4', '82,8,84,123,,76024,']
    const text = [
      'Day,Meal,Weight,Blood sugar,Goal,Heart rate,No.,Potassium,Unit,',
      ...rows.map((row, i) => `${day(i)} 07:10,Fasting,${row},mg/dl,`),
    ].join('\n')
    expect(readingsOf(logbookOf([text]))).toEqual([143, 68, 154, 135, 84].map((value, i) => `${day(i)}T07:10 ${value} mg/dL`))
  }) // prettier-ignore

  it('are those of the rows of glucose where rows of weight stand among them', () => {
    const text = [
      'Date,Time,Kind,Value,Note',
      '2026-03-02,12:06,Blood glucose,5,5,long walk',
      '2026-03-02,12:18,HbA1c,8,5,',
      '2026-03-02,12:20,Weight,91,6,',
      '2026-03-03,10:06,Blood glucose,7,9,',
      '2026-03-03,10:09,Weight,90,6,',
      '2026-03-04,06:27,Blood glucose,12,7,',
      '2026-03-04,06:35,Weight,91,2,',
    ].join('\n')
    expect(readingsOf(logbookOf([text]))).toEqual([
      '2026-03-02T12:06 5.5 mmol/L',
      '2026-03-03T10:06 7.9 mmol/L',
      '2026-03-04T06:27 12.7 mmol/L',
    ])
  })

  it('are those of the readings between doses, though the doses would take them as well', () => {
    const text = [
      'Day (mmol/L),Before breakfast,Insulin dose before breakfast,After lunch,Insulin dose after lunch,Before dinner,Insulin dose before dinner',
      '14.10.2024,-,,9,6,8,-,9',
      '16.10.2024,14,3,,-,,-,11',
      '17.10.2024,-,3,9,1,18,-,17',
      '20.10.2024,11,6,7,-,9,-,',
      '21.10.2024,-,,-,,3,3,3',
    ].join('\n')
    expect(readingsOf(logbookOf([text]))).toEqual([
      '2024-10-14 9.6 mmol/L',
      '2024-10-16 14.3 mmol/L',
      '2024-10-17 9.1 mmol/L',
      '2024-10-20 11.6 mmol/L',
      '2024-10-21 3.3 mmol/L',
    ])
  })

  it('are those of the moments that a spreadsheet counts: no time is lost', () => {
    const rows = ['"7,3 mmol/L",46084,486111,,Glucose', '"84,1 kg",46084,493056,,Weight', '"8,0 mmol/L",46084,275000,,Glucose', '"5,4 mmol/L",46083,593056,tired,Glucose']
    // 0.486111, 0.275 and 0.593056 of a day are 11:40, 06:36 and 14:14; 46083 is 2 March 2026 (dates of a spreadsheet).
    expect(readingsOf(logbookOf([['Value,Time of measurement,Comment,Kind', ...rows].join('\n')])).map((reading) => reading.replace(/:\d\d /, ' '))).toEqual([
      '2026-03-02T14:14 5.4 mmol/L',
      '2026-03-03T06:36 8 mmol/L',
      '2026-03-03T11:40 7.3 mmol/L',
    ])
  }) // prettier-ignore

  it('are told and nothing read where they may be of the weight as well as of the glucose', () => {
    const text = [
      'Date,Time,Weight,Glucose,Note',
      ...['68', '84', '91', '75'].map((value, i) => `${day(i)},07:10,83,${i + 2},${value},`),
    ].join('\n')
    expect(refusalsOf(text).map(({ code }) => code)).toEqual(['no-readings'])
  })

  it('of one row alone are told, also where nothing but its blank note is too much', () => {
    const rows = ['07:10,104,', '12:10,7,9,', '18:10,96,calm', '22:10,112,']
    const text = ['Date,Time,Glucose,Note', ...rows.map((row) => `2026-03-02,${row}`)].join('\n')
    expect(aside(text)).toEqual(['3 ragged-row'])
  })
})

describe('a text parted in front of several readings', () => {
  it('puts the whole line aside, not the reading alone on which the text stands', () => {
    const text = [
      'Date;Weekday;07:00;18:00;22:00;Note',
      '18/12/2025;Thu; off;;;12,3;',
      '19/12/2025;Fri; off;8,8;;5,7;',
      ...['15,7;5,2;2,9;tired', '6,8;;13,5;', '8,6;11,4;;', '2,4;7,1;8,8;'].map((cells, i) => `${20 + i}/12/2025;Sat;${cells}`),
    ].join('\n')
    const book = logbookOf([text])
    expect(readingsOf(book).filter((reading) => /^2025-12-1/.test(reading))).toEqual([])
    expect(readingsOf(book)).toHaveLength(10)
    expect(new Set(book.sources[0].setAside.map(({ line, reason }) => `${line} ${reason}`))).toEqual(new Set(['2 ragged-row', '3 ragged-row']))
  }) // prettier-ignore

  it('is seen in a word where numbers stand in every other row, and in a weekday that stands twice', () => {
    const rows = ['Mon,7.4,5.7,5,', 'Mon, Mon,7.4,6.9,2,apple', 'Mon,7.4,6.0,4,', 'Tue,7.4,8.1,2,bed time', 'Tue,7.4,3.1,5,']
    const dated = rows.map((row, i) => `2026-03-0${2 + i},07:10,${row}`)
    for (const weekday of ['Weekday', 'Place']) {
      const text = [`Date,Time,${weekday},Target,Bld gluc (mmol/l),Mood,Remarks`, ...dated].join('\n')
      const named = weekday === 'Place' ? text.replaceAll(/Mon|Tue/g, 'at home') : text
      const book = logbookOf([named])
      expect(readingsOf(book).map((reading) => reading.split(' ')[1])).toEqual(['5.7', '6', '8.1', '3.1'])
      expect(book.sources[0].setAside).toMatchObject([{ line: 3, reason: 'ragged-row' }])
    }
  }) // prettier-ignore

  it('is seen in a word where doses stand', () => {
    const text = [
      'Date;Weekday;Insulin;07:00;18:00;Note',
      '2025-12-18;Thu; off;4;88;;',
      ...['6;157;92;', '5;68;135;', '8;86;114;', '4;124;71;'].map((cells, i) => `2025-12-2${i};Sat;${cells}`),
    ].join('\n')
    const book = logbookOf([text])
    expect(readingsOf(book)).toHaveLength(8)
    expect(readingsOf(book).some((reading) => reading.startsWith('2025-12-18'))).toBe(false)
  })
})

describe('decimals parted by a comma in front of the unit', () => {
  it('are no unit: a weight is no reading of its whole number', () => {
    const text = [
      'Date,Time,Kind,Value,Unit,Note',
      '2026-03-02,07:00,Blood glucose,112,mg/dL,',
      '2026-03-02,07:05,Weight,82,5,kg,',
      '2026-03-02,12:00,Blood glucose,131,mg/dL,',
    ].join('\n')
    expect(readingsOf(logbookOf([text]))).toEqual([
      '2026-03-02T07:00 112 mg/dL',
      '2026-03-02T12:00 131 mg/dL',
    ])
    const unnamed = text.replace(',Kind', ',Meal').replace('Weight', 'before breakfast')
    const [{ setAside }] = logbookOf([unnamed]).sources
    expect(setAside).toMatchObject([{ line: 3, reason: 'ragged-row' }])
  })
})

describe('a unit in a note', () => {
  it('gives the decimals of glucose to no other column', () => {
    const rows = ['8,9', '8,6', '4,4', '6,6', '5,6', '5,7'].map(
      (value, i) => `${i === 4 ? 'mg/dL' : ''},${81 + i},${value},2026-03-0${i + 1} 07:1${i}`,
    )
    const readings = readingsOf(
      logbookOf([['Remarques,Pouls,Résultat mmol/L,Date/heure', ...rows].join('\n')]),
    )
    expect(readings.map((each) => each.split(' ')[1])).toEqual(['8.9', '8.6', '4.4', '6.6', '5.6', '5.7'])
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

  it('puts no mean where the glucose stands: the line is told', () => {
    const text = [
      'Measured,Weight kg,Unit,Mean of the day in mmol/L,Glucose,Lot,Remark',
      '2026-03-02 18:24,77.8,mmol/L,6.8,9.0,L45624,',
      '2026-03-02 22:37,77.5,mmol/L, mmol/L,8.4,13.6,L45624,',
      '2026-03-03 20:03,78.1,mmol/L,9.3,5.7,L45624,',
    ].join('\n')
    const book = logbookOf([text])
    expect(readingsOf(book)).toEqual(['2026-03-02T18:24 9 mmol/L', '2026-03-03T20:03 5.7 mmol/L'])
    expect(book.sources[0].setAside).toMatchObject([{ line: 3, reason: 'ragged-row' }])
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

describe('decimals of another measure that their comma parts in few rows', () => {
  it('push the time of their row on: the row is named, and keeps no day without it', () => {
    const rows = Array.from({ length: 12 }, (_, i) =>
      i % 4 === 1
        ? `mg/dL,11${i % 10},${germanDay(i)},5,2,,07:1${i % 10},`
        : `mg/dL,11${i % 10},${germanDay(i)},,,07:1${i % 10},`,
    )
    const book = logbookOf(
      [['Einheit,Blutzucker,Datum,Kalium (mmol/L),Insulin (IE),Uhrzeit,KH (g)', ...rows].join('\n')],
      { dates: 'dmy' },
    )
    expect(readingsOf(book)).toHaveLength(9)
    expect(readingsOf(book).every((each) => each.includes('T07:1'))).toBe(true)
    expect(book.sources[0].setAside.map(({ line, reason }) => `${line} ${reason}`)).toEqual([
      '3 ragged-row',
      '7 ragged-row',
      '11 ragged-row',
    ])
  })
})
