import type { Readings } from '../../log/readings'
import { HONEST_CHANGE_MG_DL_PER_MINUTE } from '../../reference/meter'
import { minutesBetween } from '../chronology'
import { allowedDifference, readingsAgree } from '../meterAgreement'
import type { ContradictedByRepeat } from '../technique'

/**
 * For each member of a repeat set, in the order given, the other member that it disagrees with most, or null
 * where it agrees with all of them.
 */
export function contradictions(
  readings: Readings,
  members: readonly number[],
): (ContradictedByRepeat | null)[] {
  const { mgDl } = readings
  const worst = new Int32Array(members.length).fill(-1)
  const excess = new Float64Array(members.length)
  const values = members.map((index) => mgDl[index])
  // Past this gap honest change alone covers any difference within the set.
  const longest = (values.reduce(larger) - values.reduce(smaller)) / HONEST_CHANGE_MG_DL_PER_MINUTE
  for (let i = 0; i < members.length; i++) {
    for (let j = i + 1; j < members.length; j++) {
      const minutes = minutesBetween(readings, members[i], members[j])
      if (minutes > longest) break
      if (readingsAgree(values[i], values[j], minutes)) continue
      const over = Math.abs(values[i] - values[j]) - allowedDifference(values[i], values[j], minutes)
      if (over > excess[i]) [excess[i], worst[i]] = [over, j]
      if (over > excess[j]) [excess[j], worst[j]] = [over, i]
    }
  }
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

function larger(a: number, b: number): number {
  return Math.max(a, b)
}

function smaller(a: number, b: number): number {
  return Math.min(a, b)
}
