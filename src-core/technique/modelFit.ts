import { MODEL } from './doubtConstants'
import { ahead, driftsOf, GRID, LOG_MG_DL, personalRange, type PersonalRange } from './glucoseGrid'
import { errorDensities, OTHER_DENSITY } from './testErrors'

/** Finger-sticks in the order in which they were taken. */
export interface Tests {
  /** Minutes since any moment, never falling. */
  readonly minutes: Float64Array
  readonly mgDl: Float64Array
  /** 1 where the reading is a low. */
  readonly low: Uint8Array
}

const K = GRID.nodes

/**
 * What of the doubt model fits this person's readings badly. `wide`: values far from the middle are commoner than it takes
 * them to be; `quick`: tests an hour apart have less to do with each other.
 */
export interface ModelMisfit {
  readonly wide: boolean
  readonly quick: boolean
}

/** A person's range and memory of glucose. */
export interface PersonalModel {
  readonly range: PersonalRange
  /** Of the usual memory. */
  readonly memoryFactor: number
}

/** The model with its usual laws, and with those that the readings themselves bear out; the same where they fit. */
export interface ModelFit {
  readonly usual: PersonalModel
  readonly fitted: PersonalModel
  readonly misfit: ModelMisfit
}

/** A person's range by the usual law and by the wide one. */
export interface PersonalRanges {
  readonly usual: PersonalRange
  readonly broad: PersonalRange
}

/** Of a person's tests, in any order. */
export function personalRanges(mgDl: Float64Array): PersonalRanges {
  return { usual: personalRange(mgDl), broad: personalRange(mgDl, 'wide') }
}

/** `inSet(i)`: whether the test i is a repeat of the one before it. */
export function fitModel(
  tests: Tests,
  inSet: (i: number) => boolean,
  { usual, broad }: PersonalRanges,
): ModelFit {
  const densityOf = densities()
  const wide = evidenceForWide(tests, inSet, [usual, broad], densityOf) > MODEL.wide.evidence
  const range = wide ? broad : usual
  const quick = evidenceForQuick(tests, inSet, range, densityOf) > MODEL.quick.evidence
  return {
    usual: { range: usual, memoryFactor: 1 },
    fitted: { range, memoryFactor: quick ? MODEL.quick.factor : 1 },
    misfit: { wide, quick },
  }
}

/**
 * Logarithm of how much likelier the values are by the wide law than by the usual one, errors taken in. Of a set of repeats
 * the last alone counts, so that every occasion has one voice however often an error was tested again; that a value was not
 * repeated speaks against a large error.
 */
function evidenceForWide(
  { mgDl }: Tests,
  inSet: (i: number) => boolean,
  [usual, broad]: readonly [PersonalRange, PersonalRange],
  densityOf: DensityOf,
): number {
  const { chance, from, to } = MODEL.repeatSurprise
  const known = [new Map<number, number>(), new Map<number, number>()] as const
  let evidence = 0
  let occasions = 0
  for (let i = 0; i < mgDl.length; i++) {
    if (inSet(i + 1)) continue
    occasions++
    const isRepeat = inSet(i)
    const of = known[isRepeat ? 1 : 0]
    let ratio = of.get(mgDl[i])
    if (ratio === undefined) {
      const density = densityOf(mgDl[i])
      const log = Math.log(mgDl[i])
      let [byUsual, byBroad] = [0, 0]
      for (let k = 0; k < K; k++) {
        const surprise = Math.min(1, Math.max(0, (Math.abs(log - LOG_MG_DL[k]) - from) / (to - from)))
        const here = density[k] * (isRepeat ? 1 : 1 - chance * surprise)
        byUsual += usual.weights[k] * here
        byBroad += broad.weights[k] * here
      }
      of.set(mgDl[i], (ratio = Math.log(byBroad / byUsual)))
    }
    evidence += ratio
  }
  return occasions < MODEL.wide.fewest ? -Infinity : evidence
}

/** The same for a shorter memory, by pairs of tests that follow each other within an hour or two and are no repeats. */
function evidenceForQuick(
  { minutes, mgDl, low }: Tests,
  inSet: (i: number) => boolean,
  range: PersonalRange,
  densityOf: DensityOf,
): number {
  const { furthestMinutes, mostPairs, fewest, factor } = MODEL.quick
  const pairs: number[] = []
  for (let i = 1; i < mgDl.length; i++) {
    // After a low sugar is taken, whatever the memory.
    if (inSet(i) || low[i - 1] || minutes[i] - minutes[i - 1] > furthestMinutes) continue
    pairs.push(i)
  }
  if (pairs.length < fewest) return -Infinity
  const laws = [driftsOf(range), driftsOf(range, factor)] as const
  const now = new Float64Array(K)
  const next = new Float64Array(K)
  // Enough of them, spread over the log, tell as well as all.
  const step = Math.max(1, pairs.length / mostPairs)
  let evidence = 0
  for (let at = 0; at < pairs.length; at += step) {
    const i = pairs[Math.floor(at)]
    const first = densityOf(mgDl[i - 1])
    const second = densityOf(mgDl[i])
    for (let k = 0; k < K; k++) now[k] = range.weights[k] * first[k]
    const [byUsual, byQuick] = laws.map((driftOf) => {
      ahead(driftOf(minutes[i] - minutes[i - 1], false), now, range, next)
      let total = 0
      for (let k = 0; k < K; k++) total += next[k] * second[k]
      return total
    })
    evidence += Math.log(byQuick / byUsual)
  }
  return evidence
}

type DensityOf = (mgDl: number) => Float64Array

/** Density of a value at each true value, whatever may have gone wrong. */
function densities(): DensityOf {
  const known = new Map<number, Float64Array>()
  const sound = 1 - MODEL.up - MODEL.down - MODEL.other
  return (mgDl) => {
    let all = known.get(mgDl)
    if (all === undefined) {
      const of = errorDensities(mgDl)
      all = of.sound.map(
        (value, k) =>
          sound * value + MODEL.up * of.up[k] + MODEL.down * of.down[k] + MODEL.other * OTHER_DENSITY,
      )
      known.set(mgDl, all)
    }
    return all
  }
}
