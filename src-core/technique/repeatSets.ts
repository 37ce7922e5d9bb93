import { FLAG, hasFlag, type Readings } from '../log/readings'
import { secondsBetween } from './chronology'
import { SECONDS_PER_MINUTE } from '../units/wallClock'

/** Readings that tell nothing of others: without a time, of a sensor, made wrong on purpose, corrected by hand. */
export const NO_WITNESS = FLAG.dayOnly | FLAG.sensor | FLAG.changedConditions | FLAG.corrected

/** Whether a reading can tell of others: a finger-stick with a time, taken under usual conditions. */
export function isWitness(readings: Readings, index: number): boolean {
  return !hasFlag(readings, index, NO_WITNESS)
}

/**
 * Members of each repeat set, in the order in which they were taken: two or more finger-sticks, of any meter,
 * each at most `windowMinutes` after the one before it. `order` is `chronologicalOrder(readings)`.
 */
export function findRepeatSets(readings: Readings, order: Uint32Array, windowMinutes: number): number[][] {
  const sets: number[][] = []
  let current: number[] | null = null
  let previous = -1
  for (const index of order) {
    if (!isWitness(readings, index)) continue
    if (previous !== -1 && secondsBetween(readings, previous, index) <= windowMinutes * SECONDS_PER_MINUTE) {
      if (current === null) sets.push((current = [previous]))
      current.push(index)
    } else {
      current = null
    }
    previous = index
  }
  return sets
}
