import { describe, expect, it } from 'vitest'
import { FLAG } from '../../../src-core/log/readings'
import { dayNumber } from '../../../src-core/units/wallClock'
import {
  dayText,
  durationText,
  gapText,
  readingMoment,
  readingMomentAt,
  shortDayText,
  spanText,
} from '../../../src-core/wording/english/dates'
import { readingsOf, row } from '../analysis/readingsOf'
import { yearsFor } from '../../../src-core/told/years'

function day(text: string): number {
  const [year, month, dayOfMonth] = text.split('-').map(Number)
  const number = dayNumber(year, month, dayOfMonth)
  if (number === null) throw new Error(`no such day: ${text}`)
  return number
}

describe('a span of days', () => {
  it.each([
    { from: '2026-03-02', to: '2026-05-30', text: '2 March to 30 May 2026' },
    { from: '2025-12-28', to: '2026-01-03', text: '28 December 2025 to 3 January 2026' },
    { from: '2026-03-02', to: '2026-03-09', text: '2 to 9 March 2026' },
    { from: '2026-03-02', to: '2026-03-02', text: '2 March 2026' },
    { from: '2024-02-29', to: '2024-03-01', text: '29 February to 1 March 2024' },
  ])('always carries its year: $text', ({ from, to, text }) => {
    expect(spanText(day(from), day(to))).toBe(text)
  })
})

describe('a gap within a period', () => {
  it.each([
    { from: '2026-05-03', to: '2026-05-12', years: 'without-year', text: '3–12 May' },
    { from: '2026-04-28', to: '2026-05-03', years: 'without-year', text: '28 April – 3 May' },
    { from: '2026-05-03', to: '2026-05-03', years: 'without-year', text: '3 May' },
    { from: '2026-05-03', to: '2026-05-12', years: 'with-year', text: '3–12 May 2026' },
    // The same month of two years is no run within one month.
    { from: '2025-05-03', to: '2026-05-12', years: 'with-year', text: '3 May 2025 – 12 May 2026' },
  ] as const)('is as short as it can be: $text', ({ from, to, years, text }) => {
    expect(gapText(day(from), day(to), years)).toBe(text)
  })
})

describe('years', () => {
  it('stand beside dates once the log holds a date twice', () => {
    expect(yearsFor(day('2025-03-02'), day('2026-03-01'))).toBe('without-year')
    expect(yearsFor(day('2025-03-02'), day('2026-03-02'))).toBe('with-year')
  })

  it('are written out or left out, in long and short dates', () => {
    expect(dayText(day('2026-03-08'), 'without-year')).toBe('8 March')
    expect(dayText(day('2026-03-08'), 'with-year')).toBe('8 March 2026')
    expect(shortDayText(day('2026-09-08'), 'without-year')).toBe('8 Sep')
    expect(shortDayText(day('2026-05-31'), 'with-year')).toBe('31 May 2026')
  })
})

describe('the moment of a reading', () => {
  const readings = readingsOf([
    row('2026-03-08 00:00', 104, { flags: FLAG.dayOnly }),
    row('2026-03-08 00:00', 104),
    row('2026-03-08 15:48:31', 110, { flags: FLAG.seconds }),
  ])

  it('is the meter’s wall clock to the minute', () => {
    expect(readingMoment(readings, 1, 'without-year')).toBe('8 March, 00:00')
    expect(readingMoment(readings, 2, 'with-year')).toBe('8 March 2026, 15:48')
    expect(readingMomentAt(readings, 2, 'without-year')).toBe('8 March at 15:48')
  })

  it('claims no midnight where the log gives the day alone', () => {
    expect(readingMoment(readings, 0, 'without-year')).toBe('8 March')
    expect(readingMomentAt(readings, 0, 'without-year')).toBe('8 March')
  })
})

describe('a length of time', () => {
  it.each([
    [9, '9 min'],
    [0, 'under 1 min'],
    [0.4, 'under 1 min'],
    [59.4, '59 min'],
    [59.6, '1 h'],
    [60, '1 h'],
    [160, '2 h 40 min'],
    [599, '9 h 59 min'],
    [600, '10 h'],
    [14 * 60 + 31, '15 h'],
    [47 * 60, '47 h'],
    [48 * 60, '2 days'],
    [73 * 60, '3 days'],
  ])('of %d minutes is %s', (minutes, text) => {
    expect(durationText(minutes)).toBe(text)
  })
})
