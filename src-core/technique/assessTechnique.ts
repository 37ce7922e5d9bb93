import type { Settings } from '../analysis/settings'
import { isLow, type Readings } from '../log/readings'
import { mean } from '../statistics/moments'
import { quantileR7 } from '../statistics/quantile'
import type { Evidence } from './doubtModel'
import { logDoubts } from './logDoubts'
import { contradictions } from './reasons/contradictedByRepeat'
import { repeatability } from './repeatability'
import { findRepeatSets } from './repeatSets'
import type { DoubtfulReading, DoubtReason, RepeatSet, Technique } from './technique'

/**
 * How far the readings of the whole logbook can be trusted: repeat sets, doubts and their reasons. `order` is
 * `chronologicalOrder(readings)`; `evidence`, by index, is what notes and controls tell of errors.
 */
export function assessTechnique(
  readings: Readings,
  order: Uint32Array,
  settings: Settings,
  evidence?: Evidence,
): Technique {
  const sets = findRepeatSets(readings, order, settings.repeatWindowMinutes)
  const doubts = logDoubts(readings, order, settings.repeatWindowMinutes, evidence)
  const against = new Map<number, DoubtReason>()
  const agree = sets.map((members) => {
    const reasons = contradictions(readings, members)
    reasons.forEach((reason, i) => reason !== null && against.set(members[i], reason))
    return reasons.every((reason) => reason === null)
  })
  const doubtful: DoubtfulReading[] = []
  for (let index = 0; index < readings.n; index++) {
    const reason = against.get(index)
    const doubt = doubts.doubt[index]
    if (isDoubtful(doubt, isLow(readings, index), reason !== undefined, settings)) {
      doubtful.push({ index, doubt, reasons: reason === undefined ? [] : [reason] })
    }
  }
  const isListed = new Set(doubtful.map(({ index }) => index))
  const repeatSets = sets.map((members, i) =>
    describeSet(
      readings,
      members,
      members.filter((index) => !isListed.has(index)),
      agree[i],
    ),
  )
  return {
    ...doubts,
    doubtful,
    repeatSets,
    repeatability: repeatability(readings, repeatSets),
    meters: countByMeter(readings),
  }
}

/** A low is flagged only where a repeat contradicts it: what is unusual in it may be the person's danger. */
function isDoubtful(doubt: number, low: boolean, contradicted: boolean, settings: Settings): boolean {
  return low ? contradicted && doubt >= settings.doubtThresholdLow : doubt >= settings.doubtThreshold
}

function describeSet(
  readings: Readings,
  members: readonly number[],
  sound: readonly number[],
  agree: boolean,
): RepeatSet {
  const values = Float64Array.from(members, (index) => readings.mgDl[index]).sort()
  const average = mean(values) as number
  const aMemberIsDoubtful = sound.length < members.length
  const soundDecide = sound.length > 0 && (agree || aMemberIsDoubtful)
  return {
    members,
    meanMgDl: average,
    consensusMgDl: soundDecide
      ? (mean(Float64Array.from(sound, (index) => readings.mgDl[index])) as number)
      : (quantileR7(values, 0.5) as number),
    spreadPercent: (100 * (values[values.length - 1] - values[0])) / average,
    agree,
    holdsLow: members.some((index) => isLow(readings, index)),
  }
}

/** Meters in the order in which they appear, with their readings. */
function countByMeter(readings: Readings): { meter: string; n: number }[] {
  const counts = new Uint32Array(readings.meters.length)
  for (let i = 0; i < readings.n; i++) counts[readings.meter[i]]++
  return readings.meters.map((meter, i) => ({ meter, n: counts[i] })).filter(({ n }) => n > 0)
}
