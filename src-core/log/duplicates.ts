import type { ReadingsBuilder } from './readings'
import { isSameReading, SameReadings } from './sameReading'

/** A reading that stands in the logs twice. Places are those of the builder. */
export interface Duplicate {
  readonly place: number
  /** The one that is kept. */
  readonly of: number
}

/** Up to so many readings of one minute are compared each with each, which is quicker. */
const FEW = 32

/**
 * The same minute, meter and value again: the row of the later log, or the later row of one log, is the
 * duplicate. `order` holds places in order of time; those of `left` are no longer readings.
 */
export function findDuplicates(
  readings: ReadingsBuilder,
  order: Uint32Array,
  left: Uint8Array,
  few = FEW,
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
      if (group.length > 1)
        for (const found of duplicatesInMinute(readings, group, few)) duplicates.push(found)
    }
    start = end
  }
  return duplicates
}

/** Readings of one minute, compared in the order of logs and lines. */
function duplicatesInMinute(readings: ReadingsBuilder, group: number[], few: number): readonly Duplicate[] {
  const { source, line } = readings
  group.sort((a, b) => source[a] - source[b] || line[a] - line[b])
  const finder = (ofOneLog: boolean): Finder =>
    group.length <= few ? new EachWithEach(readings) : new SameReadings(readings, group, ofOneLog)
  const duplicates: Duplicate[] = []
  const rootOf = new Map<number, number>()
  const kept = finder(false)
  for (let start = 0; start < group.length;) {
    const log = source[group[start]]
    const own = finder(true)
    const newHere: number[] = []
    let end = start
    for (; end < group.length && source[group[end]] === log; end++) {
      const place = group[end]
      const repeated = own.first(place)
      const same = repeated === undefined ? kept.first(place) : (rootOf.get(repeated) ?? repeated)
      // One of thousands of equal rows finds all the others.
      if (repeated === undefined || !isEqual(readings, repeated, place)) own.add(place)
      if (same === undefined) {
        newHere.push(place)
        continue
      }
      kept.take(same, log)
      rootOf.set(place, same)
      duplicates.push({ place, of: same })
    }
    // Two rows of one log are two readings, or equal.
    if (end < group.length) for (const place of newHere) kept.add(place)
    start = end
  }
  return duplicates
}

/** Readings in which the same one is looked for; a reading stands for one of each other log, which takes it. */
type Finder = Pick<SameReadings, 'add' | 'first' | 'take'>

class EachWithEach implements Finder {
  readonly #places: number[] = []
  readonly #takenBy = new Map<number, number>()

  constructor(private readonly readings: ReadingsBuilder) {}

  add(place: number): void {
    this.#places.push(place)
  }

  first(place: number): number | undefined {
    const log = this.readings.source[place]
    return this.#places.find(
      (other) => this.#takenBy.get(other) !== log && isSameReading(this.readings, other, place),
    )
  }

  take(place: number, log: number): void {
    this.#takenBy.set(place, log)
  }
}

function isEqual({ at, logged, flags, offset, meter }: ReadingsBuilder, a: number, b: number): boolean {
  return [at, logged, flags, offset, meter].every((column) => column[a] === column[b])
}
