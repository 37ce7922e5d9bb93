import { describe, expect, it } from 'vitest'
import {
  calendarDate,
  clock,
  dayNumber,
  dayOf,
  isoDay,
  isoMoment,
  parseIsoDay,
  secondOfDay,
  weekday,
} from '../../../src-core/units/wallClock'

describe('days', () => {
  it('counts from 1 January 1970', () => {
    expect(dayNumber(1970, 1, 1)).toBe(0)
    // Meeus, Astronomical Algorithms (1998), chapter 7: 2000 January 1.5 is Julian day 2451545.0,
    // 1970 January 1.0 is 2440587.5, 1600 January 1.0 is 2305447.5.
    expect(dayNumber(2000, 1, 1)).toBe(2451544.5 - 2440587.5)
    expect(dayNumber(1600, 1, 1)).toBe(2305447.5 - 2440587.5)
  })

  it('knows the leap years of the Gregorian calendar', () => {
    expect(dayNumber(2024, 2, 29)).not.toBeNull()
    expect(dayNumber(2000, 2, 29)).not.toBeNull()
    expect(dayNumber(1900, 2, 29)).toBeNull()
    expect(dayNumber(2026, 2, 29)).toBeNull()
  })

  it('refuses days that do not exist', () => {
    expect(dayNumber(2026, 4, 31)).toBeNull()
    expect(dayNumber(2026, 13, 1)).toBeNull()
    expect(dayNumber(2026, 0, 1)).toBeNull()
    expect(parseIsoDay('2026-02-30')).toBeNull()
    expect(parseIsoDay('26-02-03')).toBeNull()
  })

  it('finds the calendar date of a day again', () => {
    for (const [year, month, day] of [
      [1969, 12, 31],
      [1999, 12, 31],
      [2024, 2, 29],
      [2026, 11, 25],
    ]) {
      expect(calendarDate(dayNumber(year, month, day) as number)).toEqual({ year, month, day })
    }
  })

  it('gives the day of the week from Monday on', () => {
    // Meeus, Astronomical Algorithms (1998), chapter 7: 1954 June 30 was a Wednesday.
    expect(weekday(dayNumber(1954, 6, 30) as number)).toBe(2)
    // The first Apollo landing, 20 July 1969, fell on a Sunday.
    expect(weekday(dayNumber(1969, 7, 20) as number)).toBe(6)
  })
})

describe('moments', () => {
  const moment = (dayNumber(2026, 3, 7) as number) * 86_400 + 20 * 3600 + 28 * 60 + 5

  it('are written with seconds only where asked', () => {
    expect(isoMoment(moment)).toBe('2026-03-07T20:28')
    expect(isoMoment(moment, true)).toBe('2026-03-07T20:28:05')
    expect(clock(moment)).toBe('20:28')
  })

  it('before 1970 fall on the right day', () => {
    expect(isoDay(dayOf(-1))).toBe('1969-12-31')
    expect(secondOfDay(-1)).toBe(86_399)
  })
})
