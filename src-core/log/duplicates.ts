import { fromMgDl, type GlucoseUnit, toMgDl } from '../units/glucose'
import { roundHalfAway } from '../units/rounding'
import { FLAG, type ReadingsBuilder } from './readings'

/** A reading that stands in the logs twice. Places are those of the builder. */
export interface Duplicate {
  readonly place: number
  /** The one that is kept. */
  readonly of: number
}

const MARKERS = FLAG.aboveRange | FLAG.belowRange
/** From so many readings of one minute on they are compared by value first. */
const CROWDED = 32

/**
 * The same minute, meter and value again: the row of the later log, or the later row of one log, is the
 * duplicate. `order` holds places in order of time; those of `left` are no longer readings.
 */
export function findDuplicates(
  readings: ReadingsBuilder,
  order: Uint32Array,
  left: Uint8Array,
): readonly Duplicate[] {
  const duplicates: Duplicate[] = []
  const { at } = readings
  for (let start = 0; start < order.length;) {
    const minute = Math.floor(at[order[start]] / 60)
    let end = start + 1
    while (end < order.length && Math.floor(at[order[end]] / 60) === minute) end++
    if (end - start > 1) {
      const group = Array.from(order.subarray(start, end)).filter((place) => left[place] === 0)
      // One by one: a minute may hold more than an argument list can.
      if (group.length > 1) for (const found of duplicatesInMinute(readings, group)) duplicates.push(found)
    }
    start = end
  }
  return duplicates
}

/** Readings of one minute, compared in the order of logs and lines. */
function duplicatesInMinute(readings: ReadingsBuilder, group: number[]): readonly Duplicate[] {
  const { source, line } = readings
  group.sort((a, b) => source[a] - source[b] || line[a] - line[b])
  const duplicates: Duplicate[] = []
  const crowded = group.length > CROWDED
  const kept = new KeptInMinute(readings, crowded)
  const rootOf = new Map<number, number>()
  // A reading can stand for one of each other log: two rows of one log are two readings, or equal.
  const taken = new Set<string>()
  let own = new KeptInMinute(readings, crowded)
  let log = -1
  for (const place of group) {
    if (source[place] !== log) {
      log = source[place]
      own = new KeptInMinute(readings, crowded)
    }
    const repeated = own.near(place).find((other) => isSameReading(readings, other, place))
    const same =
      repeated === undefined
        ? kept.near(place).find((other) => isOfAnotherLog(other) && isSameReading(readings, other, place))
        : (rootOf.get(repeated) ?? repeated)
    // Thousands of equal rows: one of them finds all the others.
    if (repeated === undefined || !isEqual(readings, repeated, place)) own.add(place)
    if (same === undefined) {
      kept.add(place)
      continue
    }
    taken.add(`${same} ${log}`)
    rootOf.set(place, same)
    duplicates.push({ place, of: same })
  }
  return duplicates

  function isOfAnotherLog(other: number): boolean {
    return source[other] !== log && !taken.has(`${other} ${log}`)
  }
}

/** The kept readings of a minute; where they are many, found by their value to the next mg/dL or two. */
class KeptInMinute {
  readonly #all: number[] = []
  readonly #byValue = new Map<number, number[]>()

  constructor(
    private readonly readings: ReadingsBuilder,
    private readonly crowded: boolean,
  ) {}

  add(place: number): void {
    if (!this.crowded) {
      this.#all.push(place)
      return
    }
    const bucket = this.#bucketOf(place)
    const others = this.#byValue.get(bucket)
    if (others) others.push(place)
    else this.#byValue.set(bucket, [place])
  }

  near(place: number): readonly number[] {
    if (!this.crowded) return this.#all
    const bucket = this.#bucketOf(place)
    return [bucket - 1, bucket, bucket + 1].flatMap((near) => this.#byValue.get(near) ?? [])
  }

  /** Two values that are one after rounding lie in the same bucket or in neighbours. */
  #bucketOf(place: number): number {
    return Math.floor(toMgDl(this.readings.logged[place], unitOf(this.readings, place)) / 2)
  }
}

function isEqual({ at, logged, flags, offset, meter }: ReadingsBuilder, a: number, b: number): boolean {
  return [at, logged, flags, offset, meter].every((column) => column[a] === column[b])
}

function isDayOnly({ flags }: ReadingsBuilder, place: number): boolean {
  return (flags[place] & FLAG.dayOnly) !== 0
}

function unitOf({ flags }: ReadingsBuilder, place: number): GlucoseUnit {
  return flags[place] & FLAG.mmol ? 'mmol/L' : 'mg/dL'
}

function isSameReading(readings: ReadingsBuilder, a: number, b: number): boolean {
  const { at, flags, source, offset, meter, meters } = readings
  const both = flags[a] & flags[b]
  // A finger-stick beside a sensor's reading of the same minute is a reading of its own.
  if ((flags[a] & FLAG.sensor) !== (flags[b] & FLAG.sensor)) return false
  if (isDayOnly(readings, a) !== isDayOnly(readings, b)) return false
  if (isDayOnly(readings, a) && source[a] === source[b]) return false
  if (both & FLAG.seconds && at[a] !== at[b]) return false
  if (both & FLAG.offset && offset[a] !== offset[b]) return false
  if ((flags[a] & MARKERS) !== (flags[b] & MARKERS)) return false
  const named = meters.values[meter[a]] !== '' && meters.values[meter[b]] !== ''
  if (named && meter[a] !== meter[b]) return false
  return isSameValue(readings, a, b)
}

/** Whether two values are one, as logged or after rounding the finer to the other's step. */
function isSameValue(readings: ReadingsBuilder, a: number, b: number): boolean {
  const { logged, source } = readings
  if (unitOf(readings, a) === unitOf(readings, b) && logged[a] === logged[b]) return true
  if (source[a] === source[b]) return false
  return roundsTo(readings, a, b) || roundsTo(readings, b, a)
}

function roundsTo(readings: ReadingsBuilder, finer: number, coarser: number): boolean {
  const unit = unitOf(readings, coarser)
  const step = unit === 'mmol/L' ? 1 : 0
  const { logged } = readings
  // One decimal of mmol/L is coarser than a whole mg/dL.
  if (decimalsOf(logged[coarser]) > step) return false
  const own = unitOf(readings, finer)
  const value = own === unit ? logged[finer] : fromMgDl(toMgDl(logged[finer], own), unit)
  return roundHalfAway(value, step) === logged[coarser]
}

function decimalsOf(value: number): number {
  const text = String(value)
  const point = text.indexOf('.')
  return point < 0 ? 0 : text.length - point - 1
}
