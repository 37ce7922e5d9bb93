import { isMarker, type Readings } from '../../log/readings'
import { Z95_ROUNDED } from '../../reference/meter'
import { minutesBetween } from '../chronology'
import { type Witnesses, witnesses } from './neighbours'
import type { ReasonDefinition } from './definition'

/** A neighbour from which glucose would have had to change faster than it does. */
export interface FasterThanGlucoseChanges {
  readonly code: 'faster-than-glucose-changes'
  readonly evidence: {
    /** Index of the neighbour. */
    readonly other: number
    readonly otherMgDl: number
    /** Signed: positive where the other came later. */
    readonly minutes: number
    /** mg/dL per minute, both readings' noise taken off. */
    readonly ratePerMinute: number
    readonly fastestPerMinute: number
  }
}

export const FASTER_THAN_GLUCOSE_CHANGES: ReasonDefinition<FasterThanGlucoseChanges> = {
  code: 'faster-than-glucose-changes',
  standsAlone: false,
  // No neighbour speaks against a low, whatever its doubt.
  mayFlagLow: false,
  finder: ({ readings, order, repeatSets }) => {
    const near = witnesses(readings, order)
    const setOf = new Map(repeatSets.flatMap((members) => members.map((index) => [index, members])))
    return (index) => fasterThanGlucoseChanges(readings, near, setOf.get(index) ?? [], index)
  },
}

/** Noise of a sound reading, as a share of it. Design choice, as in the doubt model. */
const METER_CV = 0.05
/**
 * Faster than this, mg/dL per minute, is not believed: well under 1 % of time even in type 1 diabetes, where the SD of the
 * rate is 1.09 (Christensen et al., J Diabetes Sci Technol 2024;18:795-799). The limit itself is a design choice.
 */
const FASTEST_PER_MINUTE = 4
const FURTHEST_MINUTES = 60
/** Clocks tell minutes: two tests of the same minute may be a minute apart. */
const LEAST_MINUTES = 1

/** Rate of change between two readings, mg/dL per minute, after the noise of both is taken off. */
export function adjustedRate(first: number, second: number, minutes: number): number {
  const noise = Z95_ROUNDED * METER_CV * Math.hypot(first, second)
  return Math.max(0, Math.abs(second - first) - noise) / Math.max(LEAST_MINUTES, Math.abs(minutes))
}

/**
 * The nearest neighbour outside the reading's own repeat set (empty where it is in none), within an hour either way,
 * from which glucose would have had to change too fast; the set itself is judged by 'contradicted-by-repeat'. Null where
 * there is none.
 */
export function fasterThanGlucoseChanges(
  readings: Readings,
  { order, place }: Witnesses,
  set: readonly number[],
  index: number,
): FasterThanGlucoseChanges | null {
  if (place[index] === -1) return null
  let worst: FasterThanGlucoseChanges | null = null
  // A set's members follow one another in the order taken.
  const [first, last] = set.length === 0 ? [index, index] : [set[0], set[set.length - 1]]
  for (const other of [order[place[first] - 1], order[place[last] + 1]]) {
    if (other === undefined) continue
    const minutes = minutesBetween(readings, index, other)
    if (Math.abs(minutes) > FURTHEST_MINUTES) continue
    const ratePerMinute = adjustedRate(readings.mgDl[index], readings.mgDl[other], minutes)
    // A marker's true value lies beyond its limit: two of them on one side tell of no change.
    if (isMarker(readings, index) && isMarker(readings, other)) continue
    if (ratePerMinute <= FASTEST_PER_MINUTE || ratePerMinute <= (worst?.evidence.ratePerMinute ?? 0)) continue
    worst = {
      code: 'faster-than-glucose-changes',
      evidence: {
        other,
        otherMgDl: readings.mgDl[other],
        minutes,
        ratePerMinute,
        fastestPerMinute: FASTEST_PER_MINUTE,
      },
    }
  }
  return worst
}
