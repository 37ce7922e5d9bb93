import { FLAG, hasFlag, type Readings } from '../../log/readings'
import { SECONDS_PER_MINUTE } from '../../units/wallClock'
import { minutesBetween } from '../chronology'
import { allowedDifference, disagreement } from '../meterAgreement'
import { FarthestInTime } from './farthestInTime'
import type { ReasonDefinition } from './definition'

/** Two repeats that cannot both be right: evidence of 'contradicted-by-repeat'. mg/dL, minutes. */
export interface ContradictedByRepeat {
  readonly code: 'contradicted-by-repeat'
  readonly evidence: {
    /** Index of the reading that contradicts this one. */
    readonly other: number
    readonly otherMgDl: number
    /** Signed: positive where the other came later. */
    readonly minutes: number
    readonly differenceMgDl: number
    /** What the meter standard and honest change allow between the two. */
    readonly allowedMgDl: number
    readonly membersOfSet: number
  }
}

/** A member of a repeat set that another one contradicts. */
export const CONTRADICTED_BY_REPEAT: ReasonDefinition<ContradictedByRepeat> = {
  code: 'contradicted-by-repeat',
  standsAlone: false,
  mayFlagLow: true,
  finder: ({ readings, repeatSets }) => {
    const found = new Map(
      repeatSets.flatMap((members) =>
        contradictions(readings, members).map((reason, i) => [members[i], reason] as const),
      ),
    )
    return (index) => found.get(index) ?? null
  },
}

/** Sets up to this size are compared each with each, which is quicker. */
const FEW = 32

/**
 * For each member of a repeat set, in the order given, the other member that it disagrees with most (the earlier of
 * two), or null where it agrees with all of them.
 */
export function contradictions(
  readings: Readings,
  members: readonly number[],
  few = FEW,
): (ContradictedByRepeat | null)[] {
  const { mgDl } = readings
  const worst = members.length <= few ? worstOfFew(readings, members) : worstOfMany(readings, members)
  return members.map((index, i) => {
    if (worst[i] === -1) return null
    const other = members[worst[i]]
    const minutes = minutesBetween(readings, index, other)
    return {
      code: 'contradicted-by-repeat',
      evidence: {
        other,
        otherMgDl: mgDl[other],
        minutes,
        differenceMgDl: Math.abs(mgDl[index] - mgDl[other]),
        allowedMgDl: allowedDifference(mgDl[index], mgDl[other], minutes),
        membersOfSet: members.length,
      },
    }
  })
}

/** Place of the member that each disagrees with most, -1 where it agrees with all. */
function worstOfFew(readings: Readings, members: readonly number[]): Int32Array {
  const { mgDl } = readings
  const worst = new Int32Array(members.length).fill(-1)
  const most = new Float64Array(members.length)
  for (let i = 0; i < members.length; i++) {
    for (let j = i + 1; j < members.length; j++) {
      const minutes = minutesBetween(readings, members[i], members[j])
      const over = disagreement(mgDl[members[i]], mgDl[members[j]], minutes)
      if (over > most[i]) [most[i], worst[i]] = [over, j]
      if (over > most[j]) [most[j], worst[j]] = [over, i]
    }
  }
  return worst
}

/** The same for sets of thousands, in time that grows little faster than their size. */
function worstOfMany(readings: Readings, members: readonly number[]): Int32Array {
  const { at, mgDl, offsetMinutes } = readings
  const worst = new Int32Array(members.length).fill(-1)
  const most = new Float64Array(members.length)
  const places = Array.from(members, (_, place) => place)
  const hasOffset = (place: number) => hasFlag(readings, members[place], FLAG.offset)
  const [withOffset, without] = [places.filter(hasOffset), places.filter((place) => !hasOffset(place))]
  const wall = (place: number) => at[members[place]]
  const instant = (place: number) => wall(place) - offsetMinutes[members[place]] * SECONDS_PER_MINUTE
  // Instants count between two that tell them, else the clock on the wall, as in `secondsBetween`.
  compare(withOffset, withOffset, instant)
  compare(places, without, wall)
  compare(without, withOffset, wall)
  return worst

  function compare(
    each: readonly number[],
    others: readonly number[],
    secondsOf: (place: number) => number,
  ): void {
    const farthest = new FarthestInTime(
      others.map((place) => ({ seconds: secondsOf(place), value: mgDl[members[place]], id: place })),
    )
    for (const place of each) {
      const value = mgDl[members[place]]
      const measure = (other: number, seconds: number) =>
        disagreement(value, other, seconds / SECONDS_PER_MINUTE)
      const found = farthest.find(secondsOf(place), measure, { id: worst[place], measured: most[place] })
      worst[place] = found.id
      most[place] = found.measured
    }
  }
}
