import { describe, expect, it } from 'vitest'
import { loggedUnit, momentText } from '../../../src-core/log/readings'
import { logbookOf, notesOf, refusalsOf } from '../../helpers/logs'

// Sheets of a month: its name and year stand above the table, the rows give the number of the day.

function read(lines: readonly string[]): { readonly readings: readonly string[]; readonly aside: readonly string[]; readonly notes: readonly string[] } {
  const { readings, sources } = logbookOf([lines.join('\n')])
  return {
    readings: Array.from({ length: readings.n }, (_, i) => `${momentText(readings, i)} ${readings.logged[i]} ${loggedUnit(readings, i)}`),
    aside: [...new Set(sources[0].setAside.map(({ line, reason }) => `${line} ${reason}`))],
    notes: notesOf(sources[0]),
  }
} // prettier-ignore

describe('a month that stands above the rows', () => {
  it('is the month of their days, and is told', () => {
    const { readings, notes } = read([
      'Blood glucose mg/dL - March 2026',
      'Day;Time;Glucose',
      '1;07:10;104',
      '1;12:10;48',
      '2;07:12;110',
    ])
    expect(readings).toEqual([
      '2026-03-01T07:10 104 mg/dL',
      '2026-03-01T12:10 48 mg/dL',
      '2026-03-02T07:12 110 mg/dL',
    ])
    expect(notes.join(' ')).toContain('month')
  })

  it('gives way to the next one; a day that it does not have, and a mean, are told', () => {
    const { readings, aside } = read([
      'März 2026',
      'Tag;Früh;Mittag;Abend',
      '1.;104;132;98',
      'Mittel;104;132;98',
      '',
      'April 2026',
      'Tag;Früh;Mittag;Abend',
      '1.;44;132;99',
      '31.;111;;140',
    ])
    expect([...readings].sort()).toEqual([
      '2026-03-01 104 mg/dL',
      '2026-03-01 132 mg/dL',
      '2026-03-01 98 mg/dL',
      '2026-04-01 132 mg/dL',
      '2026-04-01 44 mg/dL',
      '2026-04-01 99 mg/dL',
    ])
    expect(aside).toEqual(expect.arrayContaining(['4 footer', '9 unreadable-date']))
  })

  it.each(['Marie 2026', 'March', 'March and April 2026', '2026'])(
    'is asked for, not guessed, where the line above says another thing: %s',
    (title) => {
      const lines = [title, 'Day;Breakfast;Lunch;Dinner', '1;104;132;98', '2;110;120;140']
      expect(refusalsOf(lines.join('\n')).length).toBeGreaterThan(0)
    },
  )

  it('changes no date that is written in full', () => {
    const { readings } = read([
      'March 2026',
      'Date;Visit day;Glucose mg/dL',
      '2026-04-02;1;104',
      '2026-04-03;2;98',
    ])
    expect(readings).toEqual(['2026-04-02 104 mg/dL', '2026-04-03 98 mg/dL'])
  })
})
