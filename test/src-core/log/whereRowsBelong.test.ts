import { describe, expect, it } from 'vitest'
import type { Logbook } from '../../../src-core/log/logbook'
import { loggedUnit, momentText } from '../../../src-core/log/readings'
import { logbookOf, refusalsOf } from '../../helpers/logs'

// Small logs whose readings are written down first: what a note, a closing line or another table says changes no reading.

function readingsOf({ readings }: Logbook): string[] {
  return Array.from(
    { length: readings.n },
    (_, i) => `${momentText(readings, i)} ${readings.logged[i]} ${loggedUnit(readings, i)}`,
  )
}

const read = (...lines: readonly string[]): string[] => readingsOf(logbookOf([lines.join('\n')]))
const aside = (...lines: readonly string[]): readonly string[] =>
  logbookOf([lines.join('\n')]).sources[0].setAside.map(({ line, reason }) => `${line} ${reason}`)
const day = (i: number): string => new Date(Date.UTC(2025, 0, 1 + i)).toISOString().slice(0, 10)

describe('tests with a time of their own, side by side', () => {
  it('are all read where the note of the row speaks of an average day', () => {
    const rows = [
      'Date,Time 1,Glucose 1,Time 2,Glucose 2,Time 3,Glucose 3,Note',
      '2026-03-02,02:12,118,12:43,64,20:54,80,the average day',
      '2026-03-03,02:37,107,,,,,',
    ]
    expect(read(...rows)).toEqual([
      '2026-03-02T02:12 118 mg/dL',
      '2026-03-02T12:43 64 mg/dL',
      '2026-03-02T20:54 80 mg/dL',
      '2026-03-03T02:37 107 mg/dL',
    ])
  })

  it('are all read where only the last of many rows fills more than the first', () => {
    const rows = Array.from({ length: 300 }, (_, i) => `${day(i)},07:10,${100 + (i % 50)},,,,`)
    const last = `${day(300)},07:10,131,12:30,44,18:20,152`
    const readings = read('Date,Time 1,Glucose 1,Time 2,Glucose 2,Time 3,Glucose 3', ...rows, last)
    expect(readings).toHaveLength(303)
    expect(readings.slice(-3)).toEqual([
      `${day(300)}T07:10 131 mg/dL`,
      `${day(300)}T12:30 44 mg/dL`,
      `${day(300)}T18:20 152 mg/dL`,
    ])
  })

  it('are all read where their headers write one unit in two ways and one holds a limit alone', () => {
    expect(
      read(
        'Day|Time|GLUCOSE IN MG/DL|Time|GLUCOSE (MG/DL)',
        '2026-03-02|06:01|HI|14:30|LO',
        '2026-03-03|02:47|110||',
      ),
    ).toEqual(['2026-03-02T06:01 600 mg/dL', '2026-03-02T14:30 20 mg/dL', '2026-03-03T02:47 110 mg/dL'])
  })
})

describe('two columns of glucose of one time', () => {
  it('are not the same glucose where the second holds nothing but a low', () => {
    const text = [
      'Date,Time,Glucose left hand,Glucose right hand',
      '2026-03-02,07:10,104,',
      '2026-03-03,07:15,,LO',
    ]
    expect(read(...text)).toEqual(['2026-03-02T07:10 104 mg/dL', '2026-03-03T07:15 20 mg/dL'])
  })
})

describe('days above their rows', () => {
  it('are the days of the rows, whatever day a note names', () => {
    const text = [
      'Time;Glucose;Unit;Note',
      '2026-03-04',
      '02:53;190;mg/dL;pulse 72',
      '12:29;99;mg/dL;3 U',
      '13:36;152;mg/dL;2026-01-05',
    ]
    const readings = ['2026-03-04T02:53 190 mg/dL', '2026-03-04T12:29 99 mg/dL', '2026-03-04T13:36 152 mg/dL']
    expect(read(...text)).toEqual(readings)
    expect(read(...text.slice(0, 2), text[4])).toEqual([readings[2]])
    expect(read(...text.slice(0, 3), '2026-03-05', text[4])).toEqual([
      readings[0],
      '2026-03-05T13:36 152 mg/dL',
    ])
  })

  it('leave the rows their times where closing lines stand below few of them', () => {
    const text = [
      'Time of day;Glucose (mmol/L)',
      'Thursday 2026-01-22',
      '0159;3.2',
      '0632;7.4',
      '0859;9.7',
      'Readings;5',
      'A1C;2026-01-17;6.9 %',
    ]
    expect(read(...text)).toEqual([
      '2026-01-22T01:59 3.2 mmol/L',
      '2026-01-22T06:32 7.4 mmol/L',
      '2026-01-22T08:59 9.7 mmol/L',
    ])
    expect(aside(...text)).toContain('6 footer')
  })
})

describe('the unit above a table', () => {
  const rows = ['Date;Time;Blood sugar', '2026-03-02;13:47;1,19', '2026-03-03;07:18;0,61', '2026-03-04;07:20;1,44']

  it('is of that table, not the one of ketones above it', () => {
    const readings = ['2026-03-02T13:47 119 mg/dL', '2026-03-03T07:18 61 mg/dL', '2026-03-04T07:20 144 mg/dL']
    const ketones = ['Date;Time;Ketones in mmol/L', '2026-03-02;17:47;0,5', '2026-03-03;17:40;0,9']
    expect(read(...ketones, 'Glucose diary', 'Unit;g/l', '', ...rows)).toEqual(readings)
    expect(read(...ketones, 'Unit;g/l', ...rows)).toEqual(readings)
  })

  it('is asked for where the only one stands in the header of ketones', () => {
    const text = ['Date;Time;Ketones in mmol/L', '2026-03-02;17:47;0,5', '2026-03-03;17:40;0,9', '', ...rows]
    expect(refusalsOf(text.join('\n')).map(({ code }) => code)).toEqual(['unit-unknown'])
  })
}) // prettier-ignore

describe('before and after a meal', () => {
  it('are both read in Dutch, where ‘na’ alone could be sodium', () => {
    const text = [
      'Glucosemetingen',
      'Datum,Moment,Voor,Na',
      '2026-03-02,Ontbijt,203,147',
      '2026-03-02,Avondeten,57,',
      '2026-03-03,Ontbijt,,131',
      '2026-03-04,Lunch,,131',
    ]
    expect(read(...text)).toEqual([
      '2026-03-02 203 mg/dL',
      '2026-03-02 147 mg/dL',
      '2026-03-02 57 mg/dL',
      '2026-03-03 131 mg/dL',
      '2026-03-04 131 mg/dL',
    ])
  })

  it('are asked about where the one beside it has a name that nobody knows', () => {
    const text = [
      'Glucose readings',
      'Date,Moment,Before,Qrx',
      '2026-03-02,Breakfast,203,147',
      '2026-03-02,Dinner,57,',
      '2026-03-03,Breakfast,,131',
      '2026-03-04,Lunch,,131',
      '2026-03-05,Lunch,,123',
    ]
    expect(refusalsOf(text.join('\n')).map(({ code }) => code)).toEqual(['no-glucose-column'])
  })
})

describe('the order of day and month', () => {
  it('is not told by the sequence of two tables: another table need not go on where the first ends', () => {
    const text = [
      'Meter kitchen',
      'Date,Time,Glucose (mmol/L)',
      '04/07/2024,07:05,6.9',
      '04/07/2024,02:13,3.9',
      '',
      'Meter bedroom',
      'Date,Time,Glucose (mmol/L),Mean of the day (mmol/L)',
      '03/12/2024,18:12,8.6,9.0',
      '03/12/2024,07:05,7.4,10.4',
    ]
    const [{ code, question }] = refusalsOf(text.join('\n'))
    expect(code).toBe('date-order-unknown')
    expect(question?.choices.map(({ answer }) => answer).sort()).toEqual(['dmy', 'mdy'])
  })
})
