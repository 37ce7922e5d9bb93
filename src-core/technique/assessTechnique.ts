import type { Settings } from '../analysis/settings'
import { FLAG, isLow, type Readings } from '../log/readings'
import { mean } from '../statistics/moments'
import { quantileR7 } from '../statistics/quantile'
import { minutesBetween } from './chronology'
import { createDoubtModel, personalRange, type RepeatTest } from './doubtModel'
import { contradictions } from './reasons/contradictedByRepeat'
import { repeatability } from './repeatability'
import { findRepeatSets } from './repeatSets'
import type { DoubtfulReading, RepeatSet, Technique } from './technique'

/**
 * How far the readings of the whole logbook can be trusted: repeat sets, doubts and their reasons. `order` is
 * `chronologicalOrder(readings)`.
 */
export function assessTechnique(readings: Readings, order: Uint32Array, settings: Settings): Technique {
  const sets = findRepeatSets(readings, order, settings.repeatWindowMinutes)
  const doubt = doubtsOf(readings, sets)
  const doubtful: DoubtfulReading[] = []
  const repeatSets: RepeatSet[] = []
  for (const members of sets) {
    const against = contradictions(readings, members)
    const sound: number[] = []
    members.forEach((index, position) => {
      const reason = against[position]
      const threshold = isLow(readings, index) ? settings.doubtThresholdLow : settings.doubtThreshold
      if (doubt[index] >= threshold) {
        doubtful.push({ index, doubt: doubt[index], reasons: reason === null ? [] : [reason] })
      } else {
        sound.push(index)
      }
    })
    const agree = against.every((reason) => reason === null)
    repeatSets.push(describeSet(readings, members, sound, agree))
  }
  return {
    doubt,
    doubtful: doubtful.sort((a, b) => a.index - b.index),
    repeatSets,
    repeatability: repeatability(readings, repeatSets),
    meters: countByMeter(readings),
  }
}

/** Doubt of each reading by the repeats around it; NaN outside repeat sets. */
function doubtsOf(readings: Readings, sets: readonly (readonly number[])[]): Float64Array {
  const doubt = new Float64Array(readings.n).fill(NaN)
  const range = sets.length === 0 ? null : personalRange(sortedFingerSticks(readings))
  if (range === null) return doubt
  const doubtsOfSet = createDoubtModel(range)
  for (const members of sets) {
    const tests: RepeatTest[] = members.map((index, i) => ({
      mgDl: readings.mgDl[index],
      gapMinutes: i === 0 ? 0 : minutesBetween(readings, members[i - 1], index),
      low: isLow(readings, index),
    }))
    doubtsOfSet(tests).forEach((value, i) => (doubt[members[i]] = value))
  }
  return doubt
}

function sortedFingerSticks(readings: Readings): Float64Array {
  const values = new Float64Array(readings.n)
  let n = 0
  for (let i = 0; i < readings.n; i++) {
    if ((readings.flags[i] & FLAG.sensor) === 0) values[n++] = readings.mgDl[i]
  }
  return values.subarray(0, n).sort()
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
