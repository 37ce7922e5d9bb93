import type { Chance } from './chance'

export type Unit = 'mg/dL' | 'mmol/L'

/** One invented reading: `day` in days since 1970, `minute` of that day. */
export interface Reading {
  readonly day: number
  readonly minute: number
  readonly value: number
  /** A meter that wrote HI ('above') or LO ('below') instead of a number. */
  readonly limit: '' | 'above' | 'below'
  readonly unit: Unit
  /** 0, or 1 for the second of two meters. */
  readonly meter: number
}

/** What a file tells of a reading; `at` is a day alone where it gives no time. */
export interface Truth {
  readonly at: string
  readonly value: number
  readonly limit: Reading['limit']
  readonly unit: Unit
}

/** The moment that counts as now; every reading lies before it. */
export const NOW_MS = Date.UTC(2026, 10, 28, 12)
export const LAST_DAY = NOW_MS / 86_400_000 - 2.5
const FIRST_DAY = Date.UTC(2024, 2, 1) / 86_400_000

const two = (n: number): string => String(n).padStart(2, '0')

export function isoDay(day: number): string {
  return new Date(day * 86_400_000).toISOString().slice(0, 10)
}

export function isoClock(minute: number): string {
  return `${two(Math.floor(minute / 60))}:${two(minute % 60)}`
}

/** What is known of a reading from a file that gives its time, or its day alone. */
export function truthOf({ day, minute, value, limit, unit }: Reading, timed = true): Truth {
  return { at: timed ? `${isoDay(day)}T${isoClock(minute)}` : isoDay(day), value, limit, unit }
}

/** A plausible value of a person with diabetes, lows and highs included. */
export function inventValue(chance: Chance, unit: Unit): number {
  const low = chance.odds(0.07)
  const mgDl = low
    ? chance.between(38, 69)
    : Math.min(480, Math.max(45, 145 * Math.exp(0.35 * chance.normal())))
  return unit === 'mg/dL' ? Math.round(mgDl) : Math.round((mgDl / 18.0156) * 10) / 10
}

const HABITS = [400, 425, 560, 720, 850, 1080, 1200, 1330, 140]

/** The days and minutes of a log: some each day, at habitual times, no minute twice. */
export function inventMoments(chance: Chance, count: number): { day: number; minute: number }[] {
  const perDay = chance.between(1, 6)
  const length = Math.ceil(count / perDay) * (chance.odds(0.2) ? 3 : 1)
  let day = chance.between(FIRST_DAY, LAST_DAY - length)
  const moments: { day: number; minute: number }[] = []
  while (moments.length < count) {
    const minutes = chance
      .some(HABITS, perDay)
      .map((habit) => Math.min(1439, Math.max(0, habit + Math.round(25 * chance.normal()))))
      .sort((a, b) => a - b)
    for (const minute of new Set(minutes)) if (moments.length < count) moments.push({ day, minute })
    day = Math.min(LAST_DAY, day + (length > count / perDay + 1 ? chance.between(1, 3) : 1))
    if (day === LAST_DAY && moments.at(-1)?.day === LAST_DAY) break
  }
  return moments
}

/** Readings in the order of time. */
export function inventReadings(
  chance: Chance,
  unit: Unit,
  count = readingCount(chance),
  withMarkers = false,
): Reading[] {
  const markers = withMarkers || chance.odds(0.05)
  return inventMoments(chance, count).map((moment) => {
    const limit = markers && chance.odds(0.1) ? chance.pick(['above', 'below'] as const) : ''
    return { ...moment, value: inventValue(chance, unit), limit, unit, meter: 0 }
  })
}

function readingCount(chance: Chance): number {
  return chance.odds(0.15) ? chance.between(2, 6) : chance.between(5, 60)
}
