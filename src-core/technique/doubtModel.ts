import { errorFunction } from 'simple-statistics'
import { HONEST_CHANGE_MG_DL_PER_MINUTE, METER_STANDARD, Z95 } from '../reference/meter'

/**
 * The model's constants. All are design choices: round figures in keeping with the published sizes named
 * beside them, not fitted to any log.
 */
const MODEL = {
  /** A reading is off where its true value lies beyond a factor of 1.3 either way. */
  offFactor: 1.3,
  /** Coefficient of variation of a sound reading from 100 mg/dL on; below, the same in mg/dL. Repeatability
   *  found in tests of meters is 2.4 to 3.9 % (ISO 15197:2013 evaluations); strips and fingers add to it. */
  meterCv: 0.05,
  /** Contamination: from a fifth to three times too high. Sugar from fruit on the finger: Hirose et al.,
   *  Diabetes Care 2011;34:596-597. */
  upwards: { least: 1.2, most: 3 },
  /** Dilution and under-filling: from a tenth to two fifths too low. */
  downwards: { least: 0.6, most: 0.9 },
  /** Share of gross errors that go upwards. */
  upwardsShare: 0.6,
  /** Chance of an error of no known kind and any size. */
  faultOther: 0.001,
  /** Chance of a gross error in a set's first reading: it was repeated for a reason. */
  faultFirst: 0.25,
  /** In a later reading, and in a first one that is low, which explains the repeat by itself. */
  faultLater: 0.03,
  /** Chance that a test after a low of its set is contaminated: sugar was just in hand. */
  contaminationAfterLow: 0.15,
  /** Honest rise or fall after a low, mg/dL per minute: sugar may have been taken. */
  changeAfterLow: 4,
  /** Smallest spread of a person's true values, natural logarithm; few readings tell less. */
  leastSpread: 0.3,
} as const

/** Grid of true values, 8 to 1,000 mg/dL, natural logarithms. The step is half a sound reading's noise. */
const GRID = { from: Math.log(8), step: 0.025, nodes: 194 } as const
const TRUE_MG_DL = Float64Array.from({ length: GRID.nodes }, (_, k) => Math.exp(GRID.from + k * GRID.step))

/** Sets are taken in pieces of this length, which bounds the memory of an endless one. */
const LONGEST_PIECE = 500

/** Where a person's true values lie: centre and spread of their natural logarithms (mg/dL). */
export interface PersonalRange {
  readonly centre: number
  readonly spread: number
}

/** One test of a repeat set as the model sees it. */
export interface RepeatTest {
  readonly mgDl: number
  /** Minutes since the test before it in the set; 0 for the first. */
  readonly gapMinutes: number
  readonly low: boolean
}

/** Centre and robust spread of sorted values of a person's readings, mg/dL; null without any. */
export function personalRange(sortedMgDl: Float64Array): PersonalRange | null {
  if (sortedMgDl.length === 0) return null
  const logs = sortedMgDl.map(Math.log)
  const centre = middle(logs)
  const deviations = logs.map((value) => Math.abs(value - centre)).sort()
  // 1.4826 turns the median absolute deviation into the standard deviation of a normal distribution.
  return { centre, spread: Math.max(MODEL.leastSpread, 1.4826 * middle(deviations)) }
}

/**
 * For each test of a repeat set, in the order taken, the probability that it is off by more than 30 %.
 *
 * The true value is a chain: it starts where this person's values lie and drifts from test to test by as much
 * as glucose honestly changes. A test shows it with a sound meter's noise or with a gross error, which is
 * likelier in the first test than in the ones that check it. Forward and backward passes over a grid of true
 * values give each test's true value in the light of the whole set.
 */
export function createDoubtModel(range: PersonalRange): (set: readonly RepeatTest[]) => Float64Array {
  const prior = priorOn(range)
  const known = new Map<string, Drift>()
  const driftOf = (gapMinutes: number, rate: number) => {
    const key = `${gapMinutes} ${rate}`
    let drift = known.get(key)
    if (drift === undefined) known.set(key, (drift = makeDrift(gapMinutes, rate)))
    return drift
  }

  return (set) => {
    const doubts = new Float64Array(set.length)
    for (let start = 0; start < set.length; start += LONGEST_PIECE) {
      const piece = set.slice(start, start + LONGEST_PIECE)
      doubts.set(doubtsOfPiece(piece, start === 0), start)
    }
    return doubts
  }

  function doubtsOfPiece(set: readonly RepeatTest[], holdsFirst: boolean): Float64Array {
    // Likelihood of test i; drift into it; weights of its true value given the tests up to and including it.
    const likelihoods: Float64Array[] = []
    const drifts: Drift[] = []
    const forward: Float64Array[] = []
    let afterLow = false
    set.forEach((test, i) => {
      const rate = afterLow ? MODEL.changeAfterLow : HONEST_CHANGE_MG_DL_PER_MINUTE
      drifts.push(driftOf(Math.round(test.gapMinutes), rate))
      likelihoods.push(likelihood(test, holdsFirst && i === 0, afterLow))
      forward.push(product(i === 0 ? prior : ahead(drifts[i], forward[i - 1]), likelihoods[i]))
      afterLow ||= test.low
    })
    const doubts = new Float64Array(set.length)
    let later: Float64Array = new Float64Array(GRID.nodes).fill(1)
    for (let i = set.length - 1; i >= 0; i--) {
      doubts[i] = shareOff(product(forward[i], later), set[i].mgDl)
      later = back(drifts[i], product(later, likelihoods[i]))
    }
    return doubts
  }
}

function middle(sorted: Float64Array): number {
  const half = sorted.length >> 1
  return sorted.length % 2 === 1 ? sorted[half] : (sorted[half - 1] + sorted[half]) / 2
}

/** Student's t with 4 degrees of freedom: a real low far below the usual range is rare, not impossible. */
function priorOn({ centre, spread }: PersonalRange): Float64Array {
  return TRUE_MG_DL.map((_, k) => {
    const z = (GRID.from + k * GRID.step - centre) / spread
    return (1 + (z * z) / 4) ** -2.5
  })
}

/** How likely the test's value is under each true value. */
function likelihood(test: RepeatTest, first: boolean, afterLow: boolean): Float64Array {
  const fault = first && !test.low ? MODEL.faultFirst : MODEL.faultLater
  const up = afterLow ? MODEL.contaminationAfterLow : fault * MODEL.upwardsShare
  const down = fault * (1 - MODEL.upwardsShare)
  const logValue = Math.log(test.mgDl)
  return TRUE_MG_DL.map((mgDl, k) => {
    const error = logValue - (GRID.from + k * GRID.step)
    const noise = noiseAt(mgDl)
    return (
      ((1 - up - down - MODEL.faultOther) * normalDensity(error / noise)) / noise +
      MODEL.faultOther / (GRID.nodes * GRID.step) +
      up * blurredUniform(error, MODEL.upwards, noise) +
      down * blurredUniform(error, MODEL.downwards, noise)
    )
  })
}

/** SD of a sound reading's error on the log scale. */
function noiseAt(mgDl: number): number {
  const { proportionalFromMgDl } = METER_STANDARD
  return (MODEL.meterCv * Math.max(mgDl, proportionalFromMgDl)) / mgDl
}

function normalDensity(z: number): number {
  return Math.exp(-0.5 * z * z) / Math.sqrt(2 * Math.PI)
}

/** Density of a factor that is uniform on the log scale between two limits, with normal noise on top. */
function blurredUniform(error: number, limits: { least: number; most: number }, noise: number): number {
  const from = Math.log(limits.least)
  const to = Math.log(limits.most)
  const scale = noise * Math.SQRT2
  const share = errorFunction((error - from) / scale) - errorFunction((error - to) / scale)
  // The library's approximation is good to 1e-7, so that the difference may fall below zero.
  return Math.max(0, share) / (2 * (to - from))
}

/** Where the true value may go from each node: weights of the nodes `from[k]` to `to[k]` in row k. */
interface Drift {
  readonly from: Int32Array
  readonly to: Int32Array
  readonly weights: Float64Array
}

/** Drift over a gap; `rate`, mg/dL per minute, is read as the 95 % band of honest change. */
function makeDrift(gapMinutes: number, rate: number): Drift {
  const { nodes, step } = GRID
  const drift = {
    from: new Int32Array(nodes),
    to: new Int32Array(nodes),
    weights: new Float64Array(nodes * nodes),
  }
  for (let k = 0; k < nodes; k++) {
    const sd = (rate * gapMinutes) / Z95 / TRUE_MG_DL[k] / step
    const reach = Math.min(nodes, Math.ceil(4 * sd))
    drift.from[k] = Math.max(0, k - reach)
    drift.to[k] = Math.min(nodes - 1, k + reach)
    let total = 0
    for (let to = drift.from[k]; to <= drift.to[k]; to++) {
      const weight = to === k ? 1 : Math.exp(-0.5 * ((to - k) / sd) ** 2)
      drift.weights[k * nodes + to] = weight
      total += weight
    }
    for (let to = drift.from[k]; to <= drift.to[k]; to++) drift.weights[k * nodes + to] /= total
  }
  return drift
}

function ahead({ from, to, weights }: Drift, now: Float64Array): Float64Array {
  const next = new Float64Array(GRID.nodes)
  for (let k = 0; k < GRID.nodes; k++) {
    for (let j = from[k]; j <= to[k]; j++) next[j] += now[k] * weights[k * GRID.nodes + j]
  }
  return next
}

function back({ from, to, weights }: Drift, next: Float64Array): Float64Array {
  const now = new Float64Array(GRID.nodes)
  for (let k = 0; k < GRID.nodes; k++) {
    for (let j = from[k]; j <= to[k]; j++) now[k] += next[j] * weights[k * GRID.nodes + j]
  }
  return now
}

/** Product of two weightings, scaled to a sum of 1. */
function product(a: Float64Array, b: Float64Array): Float64Array {
  const both = new Float64Array(a.length)
  let total = 0
  for (let k = 0; k < a.length; k++) total += both[k] = a[k] * b[k]
  for (let k = 0; k < a.length; k++) both[k] /= total
  return both
}

/** Share of the weight on true values from which `mgDl` is off; a node stands for the step around it. */
function shareOff(weights: Float64Array, mgDl: number): number {
  const limit = Math.log(MODEL.offFactor)
  let off = 0
  for (let k = 0; k < weights.length; k++) {
    const distance = Math.abs(Math.log(mgDl) - (GRID.from + k * GRID.step))
    off += weights[k] * Math.min(1, Math.max(0, (distance - limit) / GRID.step + 0.5))
  }
  return Math.min(1, off)
}
