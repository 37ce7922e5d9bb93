// Wall-clock time without any zone: seconds, minutes and days since 1970-01-01T00:00 on the meter's own
// clock. Every day has 24 hours; nothing here knows of daylight saving.

export const SECONDS_PER_MINUTE = 60
export const SECONDS_PER_DAY = 86_400
export const MINUTES_PER_DAY = 1_440

/** Seconds of wall-clock time since 1970-01-01T00:00. */
export type WallSeconds = number
/** Whole days since 1970-01-01. */
export type DayNumber = number

/** Day number of a calendar date, or null where that date does not exist (30 February). Month is 1 to 12. */
export function dayNumber(year: number, month: number, day: number): DayNumber | null {
  if (!Number.isInteger(year) || year < 1 || year > 9999) return null
  if (!Number.isInteger(month) || month < 1 || month > 12) return null
  if (!Number.isInteger(day) || day < 1 || day > daysInMonth(year, month)) return null
  const date = new Date(0)
  // Unlike Date.UTC, this takes the years 1 to 99 as written.
  date.setUTCFullYear(year, month - 1, day)
  return date.getTime() / (SECONDS_PER_DAY * 1000)
}

function daysInMonth(year: number, month: number): number {
  if (month === 2) return (year % 4 === 0 && year % 100 !== 0) || year % 400 === 0 ? 29 : 28
  return month === 4 || month === 6 || month === 9 || month === 11 ? 30 : 31
}

/** Year, month (1 to 12) and day of a day number. */
export function calendarDate(day: DayNumber): { year: number; month: number; day: number } {
  const date = new Date(day * SECONDS_PER_DAY * 1000)
  return { year: date.getUTCFullYear(), month: date.getUTCMonth() + 1, day: date.getUTCDate() }
}

/** The day that holds a moment. */
export function dayOf(at: WallSeconds): DayNumber {
  return Math.floor(at / SECONDS_PER_DAY)
}

/** Seconds from the day's 00:00 to a moment, 0 to 86,399. */
export function secondOfDay(at: WallSeconds): number {
  return at - dayOf(at) * SECONDS_PER_DAY
}

/** Day of the week, 0 = Monday to 6 = Sunday. 1970-01-01 was a Thursday. */
export function weekday(day: DayNumber): number {
  return (((day + 3) % 7) + 7) % 7
}

/** Parses `YYYY-MM-DD`; null where it is something else or no such day exists. */
export function parseIsoDay(text: string): DayNumber | null {
  const match = /^(\d{4})-(\d{2})-(\d{2})$/.exec(text)
  return match ? dayNumber(Number(match[1]), Number(match[2]), Number(match[3])) : null
}

/** `YYYY-MM-DD`. */
export function isoDay(day: DayNumber): string {
  const { year, month, day: dayOfMonth } = calendarDate(day)
  return `${String(year).padStart(4, '0')}-${two(month)}-${two(dayOfMonth)}`
}

/** `YYYY-MM-DDTHH:MM`, with `:SS` where asked. */
export function isoMoment(at: WallSeconds, withSeconds = false): string {
  return `${isoDay(dayOf(at))}T${clock(at, withSeconds)}`
}

/** `HH:MM`, with `:SS` where asked. */
export function clock(at: WallSeconds, withSeconds = false): string {
  const second = Math.floor(secondOfDay(at))
  const hoursAndMinutes = `${two(Math.floor(second / 3600))}:${two(Math.floor(second / 60) % 60)}`
  return withSeconds ? `${hoursAndMinutes}:${two(second % 60)}` : hoursAndMinutes
}

function two(value: number): string {
  return String(value).padStart(2, '0')
}

/** Minutes from one moment to a later one. */
export function minutesBetween(from: WallSeconds, to: WallSeconds): number {
  return (to - from) / SECONDS_PER_MINUTE
}

/** The day of a date that is known to be one: '2026-03-02'. */
export function dayOfDate(isoDate: string): DayNumber {
  return parseIsoDay(isoDate) as DayNumber
}
