import { hasClockTime, type Readings } from '../../log/readings'
import { calendarDate, clock, type DayNumber, dayOf } from '../../units/wallClock'
import type { Years } from '../../told/years'
import { FORMS } from './localForms'

/** Own, for the runtime's short names have changed from version to version, and pages are the same to the byte. */
const SHORT_MONTH_LETTERS = 3

/** '8 March' or '8 March 2026'. */
export function dayText(day: DayNumber, years: Years): string {
  const date = calendarDate(day)
  return `${date.day} ${FORMS.month(date.month)}${years === 'with-year' ? ` ${date.year}` : ''}`
}

/** '8 Mar' or '8 Mar 2026'. */
export function shortDayText(day: DayNumber, years: Years): string {
  const date = calendarDate(day)
  const month = FORMS.month(date.month).slice(0, SHORT_MONTH_LETTERS)
  return `${date.day} ${month}${years === 'with-year' ? ` ${date.year}` : ''}`
}

/** '8 March, 15:48'; the day alone where the log gives no time. */
export function readingMoment(readings: Readings, index: number, years: Years): string {
  const day = dayText(dayOf(readings.at[index]), years)
  return hasClockTime(readings, index) ? `${day}, ${clock(readings.at[index])}` : day
}

/** '8 March at 15:48'; the day alone where the log gives no time. */
export function readingMomentAt(readings: Readings, index: number, years: Years): string {
  const day = dayText(dayOf(readings.at[index]), years)
  return hasClockTime(readings, index) ? `${day} at ${clock(readings.at[index])}` : day
}

/** A run of days with its years: '1 to 31 May 2026', '2 March to 30 May 2026', '28 December 2025 to 3 January 2026'. */
export function spanText(from: DayNumber, to: DayNumber): string {
  if (from === to) return dayText(from, 'with-year')
  const [first, last] = [calendarDate(from), calendarDate(to)]
  const sameYear = first.year === last.year
  if (sameYear && first.month === last.month) return `${first.day} to ${dayText(to, 'with-year')}`
  return `${dayText(from, sameYear ? 'without-year' : 'with-year')} to ${dayText(to, 'with-year')}`
}

/** A run of days inside a period: '3–12 May', '28 April – 3 May'. */
export function gapText(from: DayNumber, to: DayNumber, years: Years): string {
  if (from === to) return dayText(from, years)
  const first = calendarDate(from)
  const last = calendarDate(to)
  if (first.month === last.month && first.year === last.year) return `${first.day}–${dayText(to, years)}`
  return `${dayText(from, years)} – ${dayText(to, years)}`
}

/** '06:00': an hour of the clock in a sentence, where a bare number could be taken for a reading. */
export function hourText(hour: number): string {
  return `${String(hour).padStart(2, '0')}:00`
}

const MINUTES_PER_HOUR = 60
const HOURS_PER_DAY = 24
/** From here on a time between two tests is told in whole hours, from there in days. */
const WHOLE_HOURS_FROM = 10
const DAYS_FROM_HOURS = 48

/** A length of time: 'under 1 min', '9 min', '2 h 40 min', '14 h', '3 days'. */
export function durationText(minutes: number): string {
  const whole = Math.round(minutes)
  if (whole === 0) return 'under 1 min'
  if (whole < MINUTES_PER_HOUR) return `${whole} min`
  const hours = whole / MINUTES_PER_HOUR
  if (hours >= DAYS_FROM_HOURS) return `${Math.round(hours / HOURS_PER_DAY)} days`
  if (hours >= WHOLE_HOURS_FROM) return `${Math.round(hours)} h`
  const rest = whole % MINUTES_PER_HOUR
  return rest === 0 ? `${Math.floor(hours)} h` : `${Math.floor(hours)} h ${rest} min`
}
