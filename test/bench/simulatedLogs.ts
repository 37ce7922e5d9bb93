import { randomSource } from '../helpers/randomSource'

/** A simulated finger-stick with what a real log never tells. */
export interface SimulatedTest {
  /** Minutes since the log's first midnight. */
  readonly minutes: number
  /** What the meter shows, mg/dL. */
  readonly mgDl: number
  readonly trueMgDl: number
  readonly fault: 'none' | 'sugar' | 'wet' | 'under-filled' | 'squeezed'
  /** Taken after a low reading that was treated at once. */
  readonly afterTreatedLow: boolean
}

export type Setting = 'mild' | 'harsh'

export const DAYS = 60
const MINUTES_PER_DAY = 1440

/** What differs from person to person. All values are design choices. */
interface Person {
  readonly level: number
  /** Log size of a meal's rise, of day-to-day shifts, and of the quick and slow unrest between them. */
  readonly meal: number
  readonly dayShift: number
  readonly unrest: number
  /** Chance of an overshooting correction after a meal, and its log depth. */
  readonly dip: number
  readonly dipDepth: number
  readonly testsAMeal: number
  readonly meterCv: number
  readonly faultShare: number
  readonly sugarShare: number
  readonly repeatsSurprise: number
  readonly repeatsAnyway: number
  /** Log difference from what the person expects that surprises. */
  readonly surprise: number
  /** How well the person feels the own glucose, as a log error; those who do not go by habit. */
  readonly feels: number
  readonly goesByHabit: boolean
  readonly sugarStays: number
  readonly treatsLows: number
  readonly rechecksLows: number
  readonly sugarOnRecheck: number
}

interface Chance {
  (): number
  readonly between: (low: number, high: number) => number
  readonly normal: () => number
}

function chanceOf(seed: number): Chance {
  const source = randomSource(seed)
  const draw = () => source.next() / 2 ** 32
  return Object.assign(draw, {
    between: (low: number, high: number) => low + (high - low) * draw(),
    normal: () => Math.sqrt(-2 * Math.log(1 - draw())) * Math.cos(2 * Math.PI * draw()),
  })
}

function drawPerson(chance: Chance, setting: Setting): Person {
  const { between } = chance
  const common = {
    meterCv: between(0.04, 0.07),
    surprise: between(0.18, 0.35),
    feels: between(0.08, 0.2),
    testsAMeal: between(0.9, 2),
  }
  if (setting === 'mild') {
    return {
      ...common,
      level: between(95, 170),
      meal: between(0.15, 0.45),
      dayShift: between(0.05, 0.15),
      unrest: between(0.04, 0.14),
      dip: between(0, 0.1),
      dipDepth: between(0.25, 0.6),
      faultShare: 0.03,
      sugarShare: 0.45,
      repeatsSurprise: between(0.6, 0.9),
      repeatsAnyway: between(0.005, 0.03),
      goesByHabit: chance() < 0.2,
      sugarStays: 0.1,
      treatsLows: 0.2,
      rechecksLows: between(0.1, 0.5),
      sugarOnRecheck: 0.1,
    }
  }
  return {
    ...common,
    level: between(110, 200),
    meal: between(0.25, 0.6),
    dayShift: between(0.1, 0.25),
    unrest: between(0.1, 0.25),
    dip: between(0.05, 0.3),
    dipDepth: between(0.4, 1),
    faultShare: between(0.01, 0.06),
    sugarShare: between(0.3, 0.7),
    repeatsSurprise: between(0.2, 0.9),
    repeatsAnyway: between(0, 0.15),
    goesByHabit: chance() < 0.4,
    sugarStays: between(0.2, 0.5),
    treatsLows: 0.5,
    rechecksLows: between(0.3, 0.9),
    sugarOnRecheck: between(0.1, 0.35),
  }
}

/** A rise (or dip) that starts, peaks after `peak` minutes and dies away: t e^(1 - t) to a power. */
interface Wave {
  readonly start: number
  readonly peak: number
  readonly size: number
  readonly power: number
}

/** Glucose from meals, overshooting corrections, restless days and treated lows; no process with a kernel. */
class TrueGlucose {
  readonly mealTimes: number[] = []
  private readonly wavesByDay: Wave[][] = Array.from({ length: DAYS + 3 }, () => [])
  private readonly sugar: { start: number; rise: number; over: number }[] = []
  private readonly ripples: { period: number; phase: number; size: number }[] = []
  private readonly shifts: number[] = []

  constructor(
    private readonly person: Person,
    chance: Chance,
  ) {
    const { between } = chance
    const quick = between(40, 120)
    for (let i = 0; i < 24; i++) {
      const period = i % 2 === 0 ? quick * between(0.8, 3) : between(180, 900)
      this.ripples.push({ period, phase: between(0, 2 * Math.PI), size: person.unrest / 3 })
    }
    let shift = 0
    for (let day = 0; day <= DAYS; day++) {
      shift = 0.6 * shift + 0.8 * person.dayShift * chance.normal()
      this.shifts.push(shift)
      for (const hour of [7, 12.5, 18.7, ...(chance() < 0.4 ? [between(14, 22)] : [])]) {
        const start = day * MINUTES_PER_DAY + hour * 60 + 35 * chance.normal()
        this.mealTimes.push(start)
        const size = person.meal * between(0.3, 1.7)
        this.addWave({ start, peak: between(35, 80), size, power: between(1, 2.5) })
        if (chance() < person.dip) {
          const depth = -person.dipDepth * between(0.4, 1.2)
          this.addWave({
            start: start + between(30, 120),
            peak: between(50, 110),
            size: depth,
            power: between(1.5, 3),
          })
        }
      }
    }
  }

  /** A wave is over after some hours: today and tomorrow see it. */
  private addWave(wave: Wave): void {
    const day = Math.floor(wave.start / MINUTES_PER_DAY)
    this.wavesByDay[day]?.push(wave)
    this.wavesByDay[day + 1]?.push(wave)
  }

  /** Sugar eaten: so many mg/dL more within so many minutes, gone after hours. */
  eatSugar(start: number, rise: number, over: number): void {
    this.sugar.push({ start, rise, over })
  }

  at(minutes: number): number {
    const day = minutes / MINUTES_PER_DAY
    const before = Math.max(0, Math.min(DAYS - 1, Math.floor(day - 0.5)))
    const part = Math.max(0, Math.min(1, day - 0.5 - before))
    const smooth = part * part * (3 - 2 * part)
    let log =
      Math.log(this.person.level) + this.shifts[before] * (1 - smooth) + this.shifts[before + 1] * smooth
    log += 0.06 * Math.cos(2 * Math.PI * (day - 0.25))
    for (const { start, peak, size, power } of this.wavesByDay[Math.floor(day)] ?? []) {
      const t = (minutes - start) / peak
      if (t > 0 && t < 12) log += size * (t * Math.exp(1 - t)) ** power
    }
    for (const { period, phase, size } of this.ripples) {
      log += size * Math.SQRT2 * Math.sin((2 * Math.PI * minutes) / period + phase)
    }
    let mgDl = Math.exp(log)
    for (const { start, rise, over } of this.sugar) {
      const t = (minutes - start) / over
      if (t > 0 && t < 20) mgDl += (rise * (1 - Math.exp(-t * t * 2))) / (1 + (t / 8) ** 4)
    }
    return Math.min(580, Math.max(28, mgDl))
  }
}

/** A log of 60 days. The same seed and setting give the same log. */
export function simulateLog(seed: number, setting: Setting): SimulatedTest[] {
  const chance = chanceOf(seed)
  const { between } = chance
  const person = drawPerson(chance, setting)
  const truth = new TrueGlucose(person, chance)
  const usual = Math.log(person.level) + person.meal * 0.3

  const tests: SimulatedTest[] = []
  let busyUntil = -1

  /** One finger-stick; `sugar` is the factor of what stuck to the finger, if anything did. */
  function stick(minutes: number, sugar: number | null, afterTreatedLow: boolean) {
    const trueMgDl = truth.at(minutes)
    let fault: SimulatedTest['fault'] = 'none'
    let factor = 1
    if (sugar !== null) [fault, factor] = ['sugar', sugar]
    else if (chance() < person.faultShare) [fault, factor] = drawFault()
    const noise = person.meterCv * Math.max(trueMgDl, 100) * chance.normal()
    const mgDl = Math.round(Math.min(600, Math.max(20, trueMgDl * factor + noise)))
    tests.push({ minutes: Math.floor(minutes), mgDl, trueMgDl, fault, afterTreatedLow })
    busyUntil = minutes
    return { mgDl, fault, factor }
  }

  function drawFault(): [SimulatedTest['fault'], number] {
    if (chance() < person.sugarShare) return ['sugar', between(1.2, 3)]
    const kind = chance()
    if (kind < 0.35) return ['wet', between(0.7, 0.9)]
    if (kind < 0.7) return ['under-filled', between(0.6, 0.9)]
    return ['squeezed', between(0.8, 0.92)]
  }

  /** A planned test and what follows from it. */
  function testAt(planned: number): void {
    let minutes = Math.max(planned, busyUntil + 11)
    let last = stick(minutes, null, false)
    let treated = false
    for (let more = 0; more < 4; more++) {
      const low = last.mgDl < 70
      if (low && !treated && chance() < person.treatsLows) {
        treated = true
        truth.eatSugar(minutes + between(0, 3), between(25, 70), between(8, 20))
        if (chance() >= person.rechecksLows) return
        minutes += between(3, 18)
        const sugar = chance() < person.sugarOnRecheck ? between(1.2, 2.5) : null
        last = stick(minutes, sugar, true)
        continue
      }
      const expected = person.goesByHabit
        ? usual
        : Math.log(truth.at(minutes)) + person.feels * chance.normal()
      const away = Math.abs(Math.log(last.mgDl) - expected)
      const bar = person.goesByHabit ? 2.2 * person.surprise : person.surprise
      const again = low ? 0.4 : away > bar ? person.repeatsSurprise : person.repeatsAnyway
      if (chance() >= again * 0.5 ** more) return
      minutes += between(1, 5)
      const stays = last.fault === 'sugar' && chance() < person.sugarStays
      last = stick(minutes, stays ? 1 + (last.factor - 1) * between(0.4, 1) : null, treated)
    }
  }

  const planned: number[] = []
  for (const meal of truth.mealTimes) {
    if (chance() < person.testsAMeal / 1.5) planned.push(meal - between(2, 25))
    if (chance() < person.testsAMeal / 3) planned.push(meal + between(60, 150))
  }
  for (let day = 0; day < DAYS; day++) {
    const midnight = day * MINUTES_PER_DAY
    if (chance() < 0.5) planned.push(midnight + between(1290, 1410))
    if (chance() < 0.06) planned.push(midnight + between(60, 300))
    // Felt lows are tested more often than chance would have it.
    for (let minutes = midnight + 360; minutes < midnight + 1380; minutes += 30) {
      if (truth.at(minutes) < 65 && chance() < 0.25) planned.push(minutes + between(0, 30))
    }
  }
  for (const minutes of planned.sort((a, b) => a - b)) {
    if (minutes >= 0 && minutes > busyUntil && minutes < DAYS * MINUTES_PER_DAY) testAt(minutes)
  }
  return tests
}

/** Off by more than 30 %, as the contract defines it. */
export function isOff({ mgDl, trueMgDl }: SimulatedTest): boolean {
  return trueMgDl < mgDl / 1.3 || trueMgDl > mgDl * 1.3
}
