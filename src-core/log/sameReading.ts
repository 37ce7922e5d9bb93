import { fromMgDl, type GlucoseUnit, toMgDl } from '../units/glucose'
import { roundHalfAway } from '../units/rounding'
import { FLAG, type ReadingsBuilder } from './readings'

/** What two readings have in common outright: a finger-stick beside a sensor's of the same minute is its own. */
const KIND = FLAG.sensor | FLAG.dayOnly | FLAG.aboveRange | FLAG.belowRange

/** Whether two readings of one minute, places of the builder, are the same one. */
export function isSameReading(readings: ReadingsBuilder, a: number, b: number): boolean {
  const { at, flags, source, offset, meter } = readings
  const both = flags[a] & flags[b]
  if ((flags[a] & KIND) !== (flags[b] & KIND)) return false
  if (both & FLAG.dayOnly && source[a] === source[b]) return false
  if (both & FLAG.seconds && at[a] !== at[b]) return false
  if (both & FLAG.offset && offset[a] !== offset[b]) return false
  if (isNamed(readings, a) && isNamed(readings, b) && meter[a] !== meter[b]) return false
  return isSameValue(readings, a, b)
}

function isNamed({ meter, meters }: ReadingsBuilder, place: number): boolean {
  return meters.values[meter[place]] !== ''
}

/** Whether two values are one, as logged or after rounding the finer to the other's step. */
function isSameValue(readings: ReadingsBuilder, a: number, b: number): boolean {
  const { logged, source } = readings
  if (unitOf(readings, a) === unitOf(readings, b) && logged[a] === logged[b]) return true
  if (source[a] === source[b]) return false
  return roundsTo(readings, a, b) || roundsTo(readings, b, a)
}

function roundsTo(readings: ReadingsBuilder, finer: number, coarser: number): boolean {
  if (!isCoarse(readings, coarser)) return false
  return rounded(readings, finer, unitOf(readings, coarser)) === readings.logged[coarser]
}

const UNITS: readonly GlucoseUnit[] = ['mg/dL', 'mmol/L']
/** One decimal of mmol/L is coarser than a whole mg/dL. */
const STEP_DECIMALS = { 'mg/dL': 0, 'mmol/L': 1 } as const

function isCoarse(readings: ReadingsBuilder, place: number): boolean {
  return decimalsOf(readings.logged[place]) <= STEP_DECIMALS[unitOf(readings, place)]
}

function rounded(readings: ReadingsBuilder, place: number, unit: GlucoseUnit): number {
  const own = unitOf(readings, place)
  const logged = readings.logged[place]
  return roundHalfAway(own === unit ? logged : fromMgDl(toMgDl(logged, own), unit), STEP_DECIMALS[unit])
}

function unitOf({ flags }: ReadingsBuilder, place: number): GlucoseUnit {
  return flags[place] & FLAG.mmol ? 'mmol/L' : 'mg/dL'
}

function decimalsOf(value: number): number {
  const text = String(value)
  const point = text.indexOf('.')
  return point < 0 ? 0 : text.length - point - 1
}

const UNKNOWN = '?'
const ANY = '*'

interface Listed {
  readonly places: number[]
  /** The first that the log asked for last had not taken. */
  from: number
  log: number
}

/**
 * Finds the earliest reading that `isSameReading` in a minute with thousands, without comparing each with each: one is
 * kept under a key for every way in which another can be the same.
 */
export class SameReadings {
  readonly #listed = new Map<string, Listed>()
  readonly #takenBy = new Map<number, number>()
  /** Of second, offset and meter: whether some readings know it and some do not. */
  readonly #isMixed: readonly boolean[]

  /** `group` holds all readings that are added and looked for; `ofOneLog` says that all of these are of one log. */
  constructor(
    private readonly readings: ReadingsBuilder,
    group: readonly number[],
    private readonly ofOneLog: boolean,
  ) {
    this.#isMixed = [0, 1, 2].map((fact) => {
      const unknown = group.filter((place) => this.#factsOf(place)[fact] === UNKNOWN).length
      return unknown > 0 && unknown < group.length
    })
  }

  /** To be called in the order of logs and lines. */
  add(place: number): void {
    for (const value of this.#valuesKept(place)) {
      for (const key of this.#keys(place, value, (fact) => [fact, ANY])) {
        const listed = this.#listed.get(key)
        if (listed === undefined) this.#listed.set(key, { places: [place], from: 0, log: -1 })
        // Of one log none is ever taken, so that the first hides the others.
        else if (!this.ofOneLog) listed.places.push(place)
      }
    }
  }

  /** The earliest that is the same and that the log of `place` has not taken. */
  first(place: number): number | undefined {
    let first: number | undefined
    for (const value of this.#valuesSought(place)) {
      for (const key of this.#keys(place, value, (fact) => (fact === UNKNOWN ? [ANY] : [fact, UNKNOWN]))) {
        const found = this.#firstListed(key, this.readings.source[place])
        if (found !== undefined && (first === undefined || this.#isBefore(found, first))) first = found
      }
    }
    return first
  }

  /** A reading stands for one of each other log. */
  take(place: number, log: number): void {
    this.#takenBy.set(place, log)
  }

  #firstListed(key: string, log: number): number | undefined {
    const listed = this.#listed.get(key)
    if (listed === undefined) return undefined
    if (listed.log !== log) Object.assign(listed, { log, from: 0 })
    while (this.#takenBy.get(listed.places[listed.from]) === log) listed.from++
    return listed.places[listed.from]
  }

  #isBefore(one: number, other: number): boolean {
    const { source, line } = this.readings
    return (source[one] - source[other] || line[one] - line[other]) < 0
  }

  #factsOf(place: number): readonly [string, string, string] {
    const { at, flags, offset, meter } = this.readings
    return [
      flags[place] & FLAG.seconds ? String(at[place]) : UNKNOWN,
      flags[place] & FLAG.offset ? String(offset[place]) : UNKNOWN,
      isNamed(this.readings, place) ? String(meter[place]) : UNKNOWN,
    ]
  }

  /** What is known or unknown of all needs no two ways. */
  #keys(place: number, value: string, waysOf: (fact: string) => readonly string[]): readonly string[] {
    let keys = [`${this.readings.flags[place] & KIND} ${value}`]
    this.#factsOf(place).forEach((fact, i) => {
      const ways = this.#isMixed[i] ? waysOf(fact) : [fact]
      keys = ways.flatMap((way) => keys.map((key) => `${key} ${way}`))
    })
    return keys
  }

  #valuesKept(place: number): readonly string[] {
    const own = exactly(unitOf(this.readings, place), this.readings.logged[place])
    if (this.ofOneLog) return this.#isDayOnly(place) ? [] : [own]
    return [own, ...UNITS.map((unit) => onceRounded(unit, rounded(this.readings, place, unit)))]
  }

  #valuesSought(place: number): readonly string[] {
    const unit = unitOf(this.readings, place)
    const own = exactly(unit, this.readings.logged[place])
    if (this.ofOneLog) return this.#isDayOnly(place) ? [] : [own]
    // What rounding gives is coarse itself.
    const coarser = UNITS.map((other) => exactly(other, rounded(this.readings, place, other)))
    const finer = isCoarse(this.readings, place) ? [onceRounded(unit, this.readings.logged[place])] : []
    return [own, ...coarser, ...finer]
  }

  #isDayOnly(place: number): boolean {
    return (this.readings.flags[place] & FLAG.dayOnly) !== 0
  }
}

function exactly(unit: GlucoseUnit, value: number): string {
  return `${unit} ${value}`
}

function onceRounded(unit: GlucoseUnit, value: number): string {
  return `rounded ${unit} ${value}`
}
