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

  it('are never readings', () => {
    const { sources, readings } = logbookOf([
      'Date,Time,Glucose (mg/dL),Insulin\n2026-03-02,07:10,,6\n2026-03-02,07:10,104,\n',
    ])
    expect(readings.n).toBe(1)
    expect(sources[0].setAside.map(({ line, reason }) => [line, reason])).toEqual([[2, 'not-glucose']])
  })
})
