import { afresh, type Keep } from '../model/keep'
import type { Settings } from '../model/settings'
import { isLow, type Readings } from '../log/readings'
import { mean } from '../statistics/moments'
import { quantileR7 } from '../statistics/quantile'
import { clockOffsets } from './clockOffsets'
import { doubtClusters } from './doubtClusters'
import { doubtfulReadings } from './doubtfulReadings'
import type { Evidence as ErrorOdds } from './doubtModel'
import { isDoubtfulByEquipment } from './equipmentStretches'
import { logDoubts } from './logDoubts'
import { meterPairs } from './meterPairs'
import { type NoteTelling, TELLS_NOTHING } from './notes/classes'
import { readNote } from './notes/readNote'
import { contradictions } from './reasons/contradictedByRepeat'
import { type EquipmentTold, NO_EQUIPMENT } from './reasons/evidence'
import { noteOdds } from './reasons/noteTellsOfTechnique'
import { repeatability } from './repeatability'
import { findRepeatSets } from './repeatSets'
import type { DecidedReading, RepeatSet, Technique } from './technique'
import { ownScatter, trialFigures, type TrialSeries } from './trials'

/** What is known beside the readings themselves. */
export interface TechniqueContext {
  /** `findTrials`; their changed steps are marked in the readings. */
  readonly trials?: readonly TrialSeries[]
  readonly equipment?: EquipmentTold
  /** What the person decided, by index. */
  readonly decisions?: ReadonlyMap<number, Omit<DecidedReading, 'index' | 'flagged'>>
  readonly keep?: Keep
}

/**
 * How far the readings of the whole logbook can be trusted: repeat sets, doubts and their reasons, meters, trials.
 * `order` is `chronologicalOrder(readings)`.
 */
export function assessTechnique(
  readings: Readings,
  order: Uint32Array,
  settings: Settings,
  { trials = [], equipment = NO_EQUIPMENT, decisions = new Map(), keep = afresh }: TechniqueContext = {},
): Technique {
  const { sets, doubts, flagged, notDoubtfulForMisfit } = keep(
    'doubts',
    [readings, order, settings, equipment],
    () => findDoubts(readings, order, settings, equipment),
  )
  const isFlagged = new Set(flagged.map(({ index }) => index))
  const isKept = ({ index }: { index: number }) => decisions.get(index)?.choice === 'keep'
  const doubtful = flagged.filter((reading) => !isKept(reading))
  const decided = [...decisions]
    .map(([index, { choice, reason, correctedTo, decidedAt }]) => ({
      index,
      choice,
      reason,
      ...(correctedTo && { correctedTo }),
      decidedAt,
      flagged: isFlagged.has(index),
    }))
    .sort((a, b) => a.index - b.index)
  const isDoubtful = new Set(
    [...doubtful, ...decided.filter(({ choice }) => choice === 'leave-out')].map(({ index }) => index),
  )
  const repeatSets = sets.map((members) => {
    const sound = members.filter((index) => !isDoubtful.has(index))
    const agree = contradictions(readings, members).every((reason) => reason === null)
    const notLeftOut = members.filter((index) => decisions.get(index)?.choice !== 'leave-out')
    return describeSet(readings, members, { sound, notLeftOut, agree })
  })
  const repeats = repeatability(readings, repeatSets)
  const scatter = ownScatter(readings, repeatSets, trials)
  const ofThemselves = doubtful.filter((one) => !isDoubtfulByEquipment(one, readings, settings))
  const { doubt, expectedLow, expectedHigh, misfit } = doubts
  return {
    doubt,
    expectedLow,
    expectedHigh,
    misfit,
    notDoubtfulForMisfit,
    doubtful,
    doubtClusters: doubtClusters(readings, new Set(ofThemselves.map(({ index }) => index)), equipment),
    kept: flagged.filter(isKept),
    decided,
    repeatSets,
    repeatability: repeats,
    meters: countByMeter(readings),
    meterPairs: keep('meter pairs', [readings, order], () => meterPairs(readings, order)),
    clockOffsets: keep('clock offsets', [readings, order], () => clockOffsets(readings, order)),
    trials: trialFigures(readings, trials, scatter),
    ownScatter: scatter,
  }
}

/** What the logbook alone makes doubtful, before anything is decided. */
function findDoubts(readings: Readings, order: Uint32Array, settings: Settings, equipment: EquipmentTold) {
  const tellings = noteTellings(readings)
  const sets = findRepeatSets(readings, order, settings.repeatWindowMinutes)
  const doubts = logDoubts(readings, order, settings.repeatWindowMinutes, errorOdds(readings, tellings))
  const reasons = {
    readings,
    order,
    repeatSets: sets,
    telling: (index: number) => tellings.get(index) ?? TELLS_NOTHING,
    expected: { low: doubts.expectedLow, high: doubts.expectedHigh },
    equipment,
  }
  const flagged = doubtfulReadings(reasons, doubts.doubt, settings)
  const isFlagged = new Set(flagged.map(({ index }) => index))
  const notDoubtfulForMisfit =
    doubts.usualDoubt === null
      ? []
      : doubtfulReadings(reasons, doubts.usualDoubt, settings)
          .map(({ index }) => index)
          .filter((index) => !isFlagged.has(index))
  return { sets, doubts, flagged, notDoubtfulForMisfit }
}

/** Members that are neither doubtful nor left out, those that the person did not leave out, and whether all agree. */
interface SetMembers {
  readonly sound: readonly number[]
  readonly notLeftOut: readonly number[]
  readonly agree: boolean
}

function describeSet(
  readings: Readings,
  members: readonly number[],
  { sound, notLeftOut, agree }: SetMembers,
): RepeatSet {
  const valuesOf = (indexes: readonly number[]) =>
    Float64Array.from(indexes, (index) => readings.mgDl[index]).sort()
  const values = valuesOf(members)
  const average = mean(values) as number
  const aMemberIsDoubtful = sound.length < members.length
  const soundDecide = sound.length > 0 && (agree || aMemberIsDoubtful)
  return {
    members,
    meanMgDl: average,
    consensusMgDl: soundDecide
      ? (mean(valuesOf(sound)) as number)
      : (quantileR7(notLeftOut.length > 0 ? valuesOf(notLeftOut) : values, 0.5) as number),
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

/** What the notes tell, of the readings that have one. */
function noteTellings(readings: Readings): ReadonlyMap<number, NoteTelling> {
  const byNote = new Map<string, NoteTelling>()
  const tellings = new Map<number, NoteTelling>()
  for (let i = 0; i < readings.n; i++) {
    const note = readings.note(i)
    if (note === '') continue
    let telling = byNote.get(note)
    if (telling === undefined) byNote.set(note, (telling = readNote(note)))
    tellings.set(i, telling)
  }
  return tellings
}

/** By how much the notes change the odds of an error. */
function errorOdds(readings: Readings, tellings: ReadonlyMap<number, NoteTelling>): ErrorOdds | undefined {
  const telling = [...tellings].filter(([, { faults, washed }]) => faults.length > 0 || washed)
  if (telling.length === 0) return undefined
  const odds = { up: new Float64Array(readings.n).fill(1), down: new Float64Array(readings.n).fill(1) }
  for (const [index, note] of telling) {
    odds.up[index] = noteOdds(note, 'too-high')
    odds.down[index] = noteOdds(note, 'too-low')
  }
  return odds
}
