import type { Settings } from '../analysis/settings'
import { FLAG, isLow, type Readings } from '../log/readings'
import { mean } from '../statistics/moments'
import { quantileR7 } from '../statistics/quantile'
import { minutesBetween } from './chronology'
import { createDoubtModel, personalRange, type RepeatTest } from './doubtModel'
import { doubtfulReadings } from './doubtfulReadings'
import { meterPairs } from './meterPairs'
import { readNote } from './notes/readNote'
import { contradictions } from './reasons/contradictedByRepeat'
import { type EquipmentTold, NO_EQUIPMENT } from './reasons/evidence'
import { repeatability } from './repeatability'
import { findRepeatSets } from './repeatSets'
import type { RepeatSet, Technique } from './technique'
import { trialFigures, type TrialSeries } from './trials'

/** What is known beside the readings themselves. */
export interface TechniqueContext {
  /** `findTrials`; their changed steps are marked in the readings. */
  readonly trials?: readonly TrialSeries[]
  readonly equipment?: EquipmentTold
}

/**
 * How far the readings of the whole logbook can be trusted: repeat sets, doubts and their reasons, meters, trials.
 * `order` is `chronologicalOrder(readings)`.
 */
export function assessTechnique(
  readings: Readings,
  order: Uint32Array,
  settings: Settings,
  { trials = [], equipment = NO_EQUIPMENT }: TechniqueContext = {},
): Technique {
  const telling = (index: number) => readNote(readings.note(index))
  const sets = findRepeatSets(readings, order, settings.repeatWindowMinutes)
  const doubt = doubtsOf(readings, sets)
  const doubtful = doubtfulReadings(
    { readings, order, repeatSets: sets, telling, expected: null, equipment },
    doubt,
    settings,
  )
  const isDoubtful = new Set(doubtful.map(({ index }) => index))
  const repeatSets = sets.map((members) => {
    const sound = members.filter((index) => !isDoubtful.has(index))
    const agree = contradictions(readings, members).every((reason) => reason === null)
    return describeSet(readings, members, sound, agree)
  })
  const repeats = repeatability(readings, repeatSets)
  return {
    doubt,
    doubtful,
    repeatSets,
    repeatability: repeats,
    meters: countByMeter(readings),
    meterPairs: meterPairs(readings, order),
    trials: trialFigures(readings, trials, repeats),
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
