// Wall-clock time as whole minutes since 1970-01-01T00:00, without any zone.

export const MINUTES_PER_DAY = 1440

/** Minutes of 'YYYY-MM-DD' and 'HH:MM'. */
export function minuteOf(day, time = '00:00') {
  return Date.parse(`${day}T${time}:00Z`) / 60_000
}

/** 'YYYY-MM-DD' of a minute. */
export function isoDay(minute) {
  return new Date(minute * 60_000).toISOString().slice(0, 10)
}

/** 'HH:MM' of a minute. */
export function clock(minute) {
  return new Date(minute * 60_000).toISOString().slice(11, 16)
}
