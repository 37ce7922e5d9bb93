import type { Readings } from '../../log/readings'
import { NO_WITNESS } from '../repeatSets'

/** For each reading its place among those that can witness, in the order taken; -1 for the others. */
export interface Witnesses {
  readonly order: readonly number[]
  readonly place: Int32Array
}

export function witnesses(readings: Readings, order: Uint32Array): Witnesses {
  const witnessing: number[] = []
  const place = new Int32Array(readings.n).fill(-1)
  for (const index of order) {
    if (readings.flags[index] & NO_WITNESS) continue
    place[index] = witnessing.push(index) - 1
  }
  return { order: witnessing, place }
}
