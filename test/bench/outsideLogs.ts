import { type Chance, chanceOf, levels, type Process, DRIFTING, SPELLS, TYPICAL, WEEKLY } from './processes'

// Finger-sticks of people whose glucose goes other ways than the doubt model's, with errors and repeats as people make them.
// What a real log never tells, the true value, is kept beside each test.

/** A test as the meter shows it, and the truth. */
export interface OutsideTest {
  /** Minutes since the log's first midnight. */
  readonly minutes: number
  readonly mgDl: number
  readonly trueMgDl: number
}

/** A person: the level's way from day to day, the shape of the day, and how far single moments lie from it. */
export interface Outside {
  readonly name: string
  readonly process: Process
  /** Log of a meal's rise, an hour after it. */
  readonly meal: number
  /** Weeks of nights at work: shape of the day turned by half a day, and the level higher by so much of a log. */
  readonly shifts?: { readonly log: number }
  /** Degrees of freedom of what differs within the day; Student's t, by the same variance. */
  readonly tails?: number
  /** Minutes in which the unrest within the day is forgotten; 80 unless it says so. */
  readonly memory?: number
  /** Share of tests after which another is made 15 to 60 minutes later. */
  readonly soonAgain?: number
  /** Single days that go wrong as a whole (a pump, a fever): chance of one, and its log. */
  readonly badDays?: { readonly chance: number; readonly log: number }
}

const CALM: Process = { name: 'calm', sd: 0.3, betweenDays: 0.1, likeness: 0.3 }
const TWO_SHIFTS: Process = { name: 'shifts', sd: 0.26, betweenDays: 0.1, likeness: 0.3 }

export const OUTSIDE: readonly Outside[] = [
  { name: 'typical', process: TYPICAL, meal: 0.25 },
  { name: 'bad spells', process: SPELLS, meal: 0.25 },
  { name: 'weekly', process: WEEKLY, meal: 0.25 },
  { name: 'drifting', process: DRIFTING, meal: 0.25 },
  { name: 'two shifts', process: TWO_SHIFTS, meal: 0.25, shifts: { log: 0.45 } },
  { name: 'heavy tails', process: CALM, meal: 0.25, tails: 2.5 },
  { name: 'quick swings', process: CALM, meal: 0.4, memory: 30, soonAgain: 0.3 },
  { name: 'bad days', process: CALM, meal: 0.25, badDays: { chance: 0.06, log: 0.75 } },
]

/** What errors and repeats are like: shares of tests. */
export interface Habits {
  readonly faults: number
  readonly repeatsSurprise: number
}
export const USUAL: Habits = { faults: 0.03, repeatsSurprise: 0.75 }
export const CLEAN: Habits = { faults: 0, repeatsSurprise: 0.5 }

const DAY = 1440
const MEMORY = 80

/** A log of so many days. The same seed gives the same log. */
export function outsideLog(
  person: Outside,
  seed: number,
  days: number,
  habits: Habits = USUAL,
): OutsideTest[] {
  const chance = chanceOf(seed)
  const between = (low: number, high: number) => low + (high - low) * chance()
  const { process, meal, shifts, badDays, memory = MEMORY, soonAgain = 0 } = person
  const level = levels(process, days, chance)
  const within = process.sd * Math.sqrt(1 - process.betweenDays)
  const centre = Math.log(between(110, 160))
  const bad = Array.from({ length: days }, () => (badDays && chance() < badDays.chance ? badDays.log : 0))
  const surprise = between(0.18, 0.35)
  const meterCv = between(0.04, 0.07)
  const tests: OutsideTest[] = []
  let unrest = unrestOf(person, chance)
  let last = -Infinity

  function truthAt(minutes: number): number {
    const day = Math.max(0, Math.min(days - 1, Math.floor(minutes / DAY)))
    const keeps = Math.exp(-(((minutes - last) / memory) ** 1.7))
    if (minutes > last) {
      // Where it is forgotten, the next one is drawn as it comes, tails and all.
      const fresh = unrestOf(person, chance)
      unrest = keeps * unrest + Math.sqrt(1 - keeps ** 2) * fresh
      last = minutes
    }
    const atNight = shifts !== undefined && Math.floor(day / 7) % 2 === 1
    const clock = (minutes % DAY) + (atNight ? DAY / 2 : 0)
    const sinceMeal = Math.min(...MEALS.map((at) => (clock - at + DAY) % DAY))
    const rise = sinceMeal < 240 ? meal * (sinceMeal / 60) * Math.exp(1 - sinceMeal / 60) : 0
    const log = centre + level[day] + bad[day] + (atNight ? shifts.log : 0) + rise + within * unrest
    return Math.min(560, Math.max(32, Math.exp(log)))
  }

  function stick(minutes: number, before: number | null): { factor: number; log: number } {
    const trueMgDl = truthAt(minutes)
    const factor = before ?? (chance() < habits.faults ? faultOf(chance) : 1)
    const mgDl = trueMgDl * factor + meterCv * Math.max(trueMgDl, 100) * chance.normal()
    const shown = Math.round(Math.min(595, Math.max(22, mgDl)))
    tests.push({ minutes: Math.floor(minutes), mgDl: shown, trueMgDl })
    return { factor, log: Math.log(shown / trueMgDl) }
  }

  const planned: number[] = []
  for (let day = 0; day < days; day++) {
    for (const [hour, made] of SLOTS) {
      if (chance() < made) planned.push(day * DAY + 60 * hour + 25 * chance.normal())
      if (soonAgain > 0 && chance() < soonAgain) planned.push(day * DAY + 60 * hour + between(15, 60))
    }
  }
  for (const at of planned.sort((a, b) => a - b)) {
    let minutes = Math.max(at, last + 11)
    if (minutes < 0 || minutes >= days * DAY) continue
    let shown = stick(minutes, null)
    for (let more = 0; more < 3; more++) {
      const felt = shown.log + between(0.08, 0.2) * chance.normal()
      const again = Math.abs(felt) > surprise ? habits.repeatsSurprise : 0.02
      if (chance() >= again * 0.5 ** more) break
      minutes += between(1, 5)
      const stays = shown.factor > 1.15 && chance() < 0.15
      shown = stick(minutes, stays ? 1 + (shown.factor - 1) * between(0.4, 1) : null)
    }
  }
  return tests
}

const MEALS = [7.25 * 60, 12.75 * 60, 18.75 * 60]
/** Hours of the clock, and how often there is a test. */
const SLOTS: readonly (readonly [number, number])[] = [
  [7, 0.9],
  [9, 0.5],
  [12.5, 0.8],
  [14.5, 0.3],
  [18.5, 0.85],
  [20.5, 0.3],
  [22.3, 0.7],
]

/** Of variance 1. */
function unrestOf({ tails }: Outside, chance: Chance): number {
  const normal = chance.normal()
  if (tails === undefined) return normal
  // A chi-square with half degrees of freedom too: the sum of squares of normals, the last one by its share.
  let squares = 0
  for (let i = 0; i < Math.floor(tails); i++) squares += chance.normal() ** 2
  squares += (tails % 1) * chance.normal() ** 2
  return (normal / Math.sqrt(squares / tails)) * Math.sqrt((tails - 2) / tails)
}

function faultOf(chance: Chance): number {
  const between = (low: number, high: number) => low + (high - low) * chance()
  if (chance() < 0.45) return between(1.2, 3)
  const kind = chance()
  return kind < 0.35 ? between(0.7, 0.9) : kind < 0.7 ? between(0.6, 0.9) : between(0.8, 0.92)
}

/** Off by more than 30 %, as the contract defines it. */
export function isOffBy30({ mgDl, trueMgDl }: OutsideTest): boolean {
  return trueMgDl < mgDl / 1.3 || trueMgDl > mgDl * 1.3
}
