import { describe, expect, it } from 'vitest'
import { isoMoment } from '../../../src-core/units/wallClock'
import { logbookOf } from '../../helpers/logs'

function entriesOf(...logs: string[]): string[] {
  return logbookOf(logs).entries.map(
    ({ at, dayOnly, line, label, text }) =>
      `${dayOnly ? isoMoment(at).slice(0, 10) : isoMoment(at)} line ${line} ${label}: ${text}`,
  )
}

describe('insulin, carbohydrates and events', () => {
  it('are kept as text from columns of their own, beside a reading or alone', () => {
    const log = [
      'Date,Time,Glucose (mg/dL),Insulin (U),Carbs (g)',
      '2026-03-02,12:00,98,4.5,60',
      '2026-03-02,07:10,,"6 + 1",',
      '2026-03-02,22:00,120,,',
    ].join('\n')
    expect(entriesOf(log)).toEqual([
      '2026-03-02T07:10 line 3 Insulin (U): 6 + 1',
      '2026-03-02T12:00 line 2 Insulin (U): 4.5',
      '2026-03-02T12:00 line 2 Carbs (g): 60',
    ])
  })

  it('are kept from rows of another kind, with their unit; readings and control tests are none', () => {
    const log = [
      'Date;Zeit;Art;Wert;Einheit',
      '2026-03-02;07:10;Blutzucker;104;mg/dL',
      '2026-03-02;07:12;Insulin;6;IE',
      '2026-03-02;07:15;Kohlenhydrate;45;g',
      '2026-03-02;07:20;Kontrolllösung;116;mg/dL',
    ].join('\n')
    expect(entriesOf(log)).toEqual([
      '2026-03-02T07:12 line 3 Insulin: 6 IE',
      '2026-03-02T07:15 line 4 Kohlenhydrate: 45 g',
    ])
  })

  it('stand once where a row was exported twice, and on a day where there is no time', () => {
    const log = 'Date,Glucose (mg/dL),Insulin\n2026-03-02,104,6\n'
    expect(entriesOf(log, log)).toEqual(['2026-03-02 line 2 Insulin: 6'])
  })

  it('stand as often as the log that holds them most often, however many logs hold them', () => {
    const log = (...times: string[]): string =>
      [
        'Date,Time,Glucose (mg/dL),Insulin',
        '2026-03-02,07:00,104,',
        ...times.map((time) => `2026-03-02,${time},,18`),
      ].join('\n')
    const once = log('22:00')
    const twice = log('08:00', '22:00', '22:00')
    expect(entriesOf(once, once, once)).toEqual(['2026-03-02T22:00 line 3 Insulin: 18'])
    expect(entriesOf(twice)).toHaveLength(3)
    expect(entriesOf(twice, twice)).toEqual(entriesOf(twice))
    expect(entriesOf(twice, once)).toEqual(entriesOf(twice))
    expect(entriesOf(once, twice)).toEqual([
      '2026-03-02T08:00 line 3 Insulin: 18',
      '2026-03-02T22:00 line 3 Insulin: 18',
      '2026-03-02T22:00 line 5 Insulin: 18',
    ])
  })

  it('are one across logs of different forms where minute, kind and text are the same', () => {
    const columns = 'Date,Time,Glucose (mg/dL),Insulin\n2026-03-02,22:00,120,18\n2026-03-02,22:30,,4\n'
    const kinds =
      'Timestamp;Type;Value;Unit\n2026-03-02T22:00:40;Glucose;120;mg/dL\n2026-03-02T22:00:40; insulin;18.0;\n' +
      '2026-03-02T22:30:00;Insulin;6;\n2026-03-02T22:30:00;Carbs;4;\n'
    expect(entriesOf(columns, kinds)).toEqual([
      '2026-03-02T22:00 line 2 Insulin: 18',
      '2026-03-02T22:30 line 3 Insulin: 4',
      '2026-03-02T22:30 line 4 Insulin: 6',
      '2026-03-02T22:30 line 5 Carbs: 4',
    ])
    expect(entriesOf(kinds, kinds)).toEqual(entriesOf(kinds))
  })

  it('of a reading that stands twice are kept where they differ', () => {
    const log = (insulin: string, carbs: string): string =>
      `Date,Time,Glucose (mg/dL),Insulin,Carbs\n2026-03-02,12:00,98,${insulin},${carbs}\n`
    expect(entriesOf(log('6', ''), log('6', '60'))).toEqual([
      '2026-03-02T12:00 line 2 Insulin: 6',
      '2026-03-02T12:00 line 2 Carbs: 60',
    ])
  })

  it('of a row that a log repeats are given once, and an equal entry beside it stays', () => {
    const row = '2026-03-02,12:00,98,6'
    const log = ['Date,Time,Glucose (mg/dL),Insulin', row, row, '2026-03-02,12:00,,6', row].join('\n')
    const told = ['2026-03-02T12:00 line 2 Insulin: 6', '2026-03-02T12:00 line 4 Insulin: 6']
    expect(entriesOf(log)).toEqual(told)
    expect(entriesOf(log, log)).toEqual(told)
    const earlier = 'Date,Time,Glucose (mg/dL)\n2026-03-02,12:00,98\n'
    expect(entriesOf(earlier, log)).toEqual(told)
  })

  it('are never readings', () => {
    const { sources, readings } = logbookOf([
      'Date,Time,Glucose (mg/dL),Insulin\n2026-03-02,07:10,,6\n2026-03-02,07:10,104,\n',
    ])
    expect(readings.n).toBe(1)
    expect(sources[0].setAside.map(({ line, reason }) => [line, reason])).toEqual([[2, 'not-glucose']])
  })
})
