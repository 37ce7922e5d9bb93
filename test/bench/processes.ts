import type { FixtureReading } from '../helpers/analysisFixture'
import { randomSource } from '../helpers/randomSource'
import { parseIsoDay, SECONDS_PER_DAY } from '../../src-core/units/wallClock'

// People whose glucose keeps its law for ever, so that what a log should show is known. Each process makes log glucose from a
// fixed shape of the day, a level that differs from day to day, and what differs within the day.

/** How the level moves from day to day. All are design choices about what open home logs show. */
export interface Process {
  readonly name: string
  /** SD of log glucose about the shape of the day, and the part of its variance that lies between days. */
  readonly sd: number
  readonly betweenDays: number
  /** Correlation of a day's level with that of the day before. */
  readonly likeness: number
  /** Bad spells: chance that one starts on a day, and that it lasts another day. */
  readonly spells?: { readonly start: number; readonly stays: number; readonly log: number }
  /** Log of what weekends are higher by. */
  readonly weekend?: number
}

export const TYPICAL: Process = { name: 'typical', sd: 0.38, betweenDays: 0.15, likeness: 0.5 }
export const STRONG: Process = { name: 'strong', sd: 0.33, betweenDays: 0.4, likeness: 0.6 }
export const ALIKE: Process = { name: 'no likeness', sd: 0.36, betweenDays: 0, likeness: 0 }
export const SPELLS: Process = {
  name: 'bad spells',
  sd: 0.34,
  betweenDays: 0.08,
  likeness: 0,
  spells: { start: 0.06, stays: 0.7, log: 0.35 },
}
export const WEEKLY: Process = { name: 'weekly', sd: 0.34, betweenDays: 0.1, likeness: 0.2, weekend: 0.15 }
/** A level that wanders for weeks before it comes back. */
export const DRIFTING: Process = { name: 'drifting', sd: 0.34, betweenDays: 0.15, likeness: 0.93 }

export const PROCESSES = [TYPICAL, STRONG, ALIKE, SPELLS, WEEKLY, DRIFTING]

/** One test of the day: hour of the clock, log of the shape there, and the log's tag. */
export interface Slot {
  readonly hour: number
  readonly log: number
  readonly meal: string
}

/** Five tests a day about 140 mg/dL, the shape known. */
export const FIVE_A_DAY: readonly Slot[] = [
  { hour: 7, log: -0.05, meal: 'before breakfast' },
  { hour: 9.5, log: 0.1, meal: 'after breakfast' },
  { hour: 12.5, log: -0.05, meal: 'before lunch' },
  { hour: 18.5, log: 0, meal: 'before dinner' },
  { hour: 22, log: 0, meal: 'bedtime' },
]
/** The same person without a shape: nothing to be found by hour or meal. */
export const FLAT: readonly Slot[] = FIVE_A_DAY.map((slot) => ({ ...slot, log: 0 }))

export interface Chance {
  (): number
  readonly normal: () => number
}

export function chanceOf(seed: number): Chance {
  const { next } = randomSource(seed, STREAM)
  const chance = () => next() / 2 ** 32
  return Object.assign(chance, {
    normal: () => Math.sqrt(-2 * Math.log(1 - chance())) * Math.cos(2 * Math.PI * chance()),
  })
}
const STREAM = 5

/** Logs of the level of each of `days` days from `firstDay` on, about 0. */
export function levels(process: Process, days: number, chance: Chance, firstDay = 0): Float64Array {
  const sd = process.sd * Math.sqrt(process.betweenDays)
  const fresh = Math.sqrt(1 - process.likeness ** 2)
  let level = chance.normal()
  let inSpell = false
  const { spells, weekend = 0 } = process
  if (spells) inSpell = chance() < spells.start / (spells.start + 1 - spells.stays)
  return Float64Array.from({ length: days }, (_, day) => {
    if (day > 0) level = process.likeness * level + fresh * chance.normal()
    if (spells && day > 0) inSpell = chance() < (inSpell ? spells.stays : spells.start)
    const isWeekend = (firstDay + day + 3) % 7 >= 5
    return sd * level + (inSpell && spells ? spells.log : 0) + (isWeekend ? weekend : 0)
  })
}

const FIRST_DAY = '2026-01-05'

export interface LogOptions {
  readonly days: number
  readonly slots?: readonly Slot[]
  /** Of the tests of `slots`, how many are made; 0 to 1. */
  readonly made?: number
  /** Log added on day `day` at a slot. */
  readonly added?: (day: number, slot: Slot) => number
  readonly firstDay?: string
  readonly centre?: number
}

/** A log of such a person. The same seed gives the same log. */
export function logOf(process: Process, seed: number, options: LogOptions): readonly FixtureReading[] {
  const { days, slots = FIVE_A_DAY, made = 1, added = () => 0, centre = 140 } = options
  const chance = chanceOf(seed)
  const first = parseIsoDay(options.firstDay ?? FIRST_DAY) ?? NaN
  const level = levels(process, days, chance, first)
  const within = process.sd * Math.sqrt(1 - process.betweenDays)
  const rows: FixtureReading[] = []
  for (let day = 0; day < days; day++) {
    for (const slot of slots) {
      const log = Math.log(centre) + slot.log + level[day] + within * chance.normal() + added(day, slot)
      const minute = Math.round(60 * slot.hour + 20 * chance.normal())
      if (chance() >= made) continue
      const value = Math.min(590, Math.max(21, Math.round(Math.exp(log))))
      rows.push({ at: momentOf(first + day, minute), value, meal: slot.meal })
    }
  }
  return rows
}

export function momentOf(day: number, minute: number): string {
  const text = new Date((day * SECONDS_PER_DAY + minute * 60) * 1000).toISOString()
  return `${text.slice(0, 10)} ${text.slice(11, 16)}`
}

/** 'x of n', and in percent. */
export function percent(count: number, n: number): string {
  return `${((100 * count) / n).toFixed(1)} %`
}
