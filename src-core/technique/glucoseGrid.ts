import { quantileR7 } from '../statistics/quantile'
import { MODEL } from './doubtConstants'

/** Grid of true values, 12 to 800 mg/dL, natural logarithms. */
export const GRID = { from: Math.log(12), step: 0.045, nodes: 94 } as const
export const LOG_MG_DL = Float64Array.from({ length: GRID.nodes }, (_, k) => GRID.from + k * GRID.step)
export const MG_DL = LOG_MG_DL.map(Math.exp)

/** Weights over the grid's nodes, mostly with a sum of 1. */
export type Weights = Float64Array

/** Where a person's true values lie. */
export interface PersonalRange {
  /** Centre of the natural logarithms, and their spread above it. */
  readonly centre: number
  readonly spreadAbove: number
  /** The law of true values at any moment. */
  readonly weights: Weights
  /** Each node as a standard normal score of that law. */
  readonly scores: Float64Array
}

/** Tenth and ninetieth percentile of the standard normal distribution. */
const Z_TENTH = 1.281552

/**
 * Of a person's readings, mg/dL, in any order. Each side of the median has its own spread, from a quantile that
 * a few gross errors do not move; few readings tell less than what is usual among people. `wide`: with the tails of
 * Student's t between and beyond the same quantiles.
 */
export function personalRange(mgDl: Float64Array, tails: 'usual' | 'wide' = 'usual'): PersonalRange {
  const logs = mgDl.map(Math.log).sort()
  const n = logs.length
  const { priorCentre, priorSpread, priorReadings, leastSpread } = MODEL
  const trust = n / (n + priorReadings)
  const median = quantileR7(logs, 0.5) ?? priorCentre
  const centre = trust * median + (1 - trust) * priorCentre
  const spreadTo = (share: number) => {
    const own = Math.abs((quantileR7(logs, share) ?? median) - median) / Z_TENTH
    return Math.hypot(Math.sqrt(trust) * Math.max(leastSpread, own), Math.sqrt(1 - trust) * priorSpread)
  }
  const spreadBelow = spreadTo(0.1)
  const spreadAbove = spreadTo(0.9)

  const z = LOG_MG_DL.map((log) => (log - centre) / (log < centre ? spreadBelow : spreadAbove))
  const { df, tTenth } = MODEL.wide
  const weights = z.map((value) =>
    tails === 'usual'
      ? Math.exp(-0.5 * value * value)
      : (1 + ((value * tTenth) / Z_TENTH) ** 2 / df) ** (-(df + 1) / 2),
  )
  scaleTo(weights, 1 - MODEL.broadShare - MODEL.lowShare)
  // Student's t with 4 degrees of freedom: a real low far below the usual range is rare, not impossible.
  const broad = z.map((value) => (1 + (value / MODEL.broadFactor) ** 2 / 4) ** -2.5)
  scaleTo(broad, MODEL.broadShare)
  const lows = MG_DL.map((value) => Number(value >= MODEL.lows.from && value < MODEL.lows.to))
  scaleTo(lows, MODEL.lowShare)
  let below = 0
  const scores = new Float64Array(GRID.nodes)
  for (let k = 0; k < GRID.nodes; k++) {
    weights[k] += broad[k] + lows[k]
    scores[k] = normalScore(below + weights[k] / 2)
    below += weights[k]
  }
  return { centre, spreadAbove, weights, scores }
}

/** Scales the weights to this sum, in place; returns what the sum was. */
export function scaleTo(weights: Weights, sum: number): number {
  let total = 0
  for (const weight of weights) total += weight
  if (total > 0) for (let k = 0; k < weights.length; k++) weights[k] *= sum / total
  return total
}

/** Normal score of a share (Abramowitz and Stegun 26.2.23, good to 4.5e-4). */
function normalScore(share: number): number {
  const tail = Math.max(1e-12, Math.min(share, 1 - share))
  const t = Math.sqrt(-2 * Math.log(tail))
  const z =
    t -
    (2.515517 + 0.802853 * t + 0.010328 * t * t) / (1 + 1.432788 * t + 0.189269 * t * t + 0.001308 * t ** 3)
  return share < 0.5 ? -z : z
}

/** Where the true value may go from each node: weights of the nodes `from[k]` to `to[k]` in row k. */
export interface Drift {
  readonly from: Int32Array
  readonly to: Int32Array
  readonly weights: Float64Array
}

/** Weights below this change nothing that is shown. */
const NEGLIGIBLE = 1e-12

/** Correlation from which on two moments have nothing to do with each other. */
const NO_MEMORY = 0.05

/** Gaps are rounded to this many steps to a doubling, so that few drifts are made. */
const STEPS_TO_A_DOUBLING = 3

type DriftOf = (gapMinutes: number, afterLow: boolean) => Drift | null

const driftsOfRanges = new WeakMap<PersonalRange, Map<number, DriftOf>>()

/**
 * Drifts of a person's glucose over gaps of time, each worked out once for a range; null where the gap has outlasted all
 * memory. `memoryFactor`: of the usual memory.
 */
export function driftsOf(range: PersonalRange, memoryFactor = 1): DriftOf {
  const ofRange = driftsOfRanges.get(range) ?? new Map<number, DriftOf>()
  driftsOfRanges.set(range, ofRange)
  const driftOf = ofRange.get(memoryFactor) ?? createDrifts(range, memoryFactor)
  ofRange.set(memoryFactor, driftOf)
  return driftOf
}

function createDrifts(range: PersonalRange, memoryFactor: number): DriftOf {
  const known = new Map<number, Drift | null>()
  return (gapMinutes, afterLow) => {
    const bin = gapMinutes < 0.25 ? -100 : Math.round(STEPS_TO_A_DOUBLING * Math.log2(gapMinutes))
    const key = afterLow ? bin + 0.5 : bin
    let drift = known.get(key)
    if (drift === undefined) {
      const gap = bin === -100 ? 0 : 2 ** (bin / STEPS_TO_A_DOUBLING)
      drift =
        correlation(gap, memoryFactor) < NO_MEMORY ? null : makeDrift(range, gap, afterLow, memoryFactor)
      known.set(key, drift)
    }
    return drift
  }
}

function correlation(gapMinutes: number, factor: number): number {
  return Math.exp(-((gapMinutes / (MODEL.memoryMinutes * factor)) ** MODEL.memoryPower))
}

function makeDrift(
  { weights, scores }: PersonalRange,
  gapMinutes: number,
  afterLow: boolean,
  memoryFactor: number,
): Drift {
  const { nodes } = GRID
  const drift = {
    from: new Int32Array(nodes),
    to: new Int32Array(nodes),
    weights: new Float64Array(nodes * nodes),
  }
  const usual = correlation(gapMinutes, memoryFactor)
  const quick = correlation(gapMinutes, memoryFactor * MODEL.quickFactor)
  // The law of the values over that of their scores.
  const lifts = weights.map((weight, j) => weight * Math.exp(0.5 * scores[j] ** 2))
  const row = new Float64Array(nodes)
  const part = new Float64Array(nodes)
  for (let k = 0; k < nodes; k++) {
    row.fill(0)
    addScores(usual, 1 - MODEL.quickShare)
    addScores(quick, MODEL.quickShare)
    if (afterLow) addRise()
    let from = k
    let to = k
    for (let j = 0; j < nodes; j++) {
      if (row[j] < 1e-8) continue
      from = Math.min(from, j)
      to = Math.max(to, j)
    }
    drift.from[k] = from
    drift.to[k] = to
    for (let j = from; j <= to; j++) drift.weights[k * nodes + j] = row[j]

    function addScores(rho: number, share: number): void {
      const variance = 1 - rho * rho
      for (let j = 0; j < nodes; j++) {
        const z = scores[j] - rho * scores[k]
        part[j] = z * z < 50 * variance ? lifts[j] * Math.exp((-0.5 * (z * z)) / variance) : 0
      }
      // A step too small for the grid leaves the value where it is.
      if (scaleTo(part, share) === 0) part[k] = share
      for (let j = 0; j < nodes; j++) row[j] += part[j]
    }
    function addRise(): void {
      const most = Math.min(MODEL.riseMost, MODEL.riseRate * gapMinutes)
      for (let j = 0; j < nodes; j++) {
        const rise = MG_DL[j] - MG_DL[k]
        // A density over mg/dL is one over the logarithm times mg/dL.
        part[j] = j === k || (rise > 0 && rise <= most) ? MG_DL[j] : 0
      }
      scaleTo(part, MODEL.riseShare)
      for (let j = 0; j < nodes; j++) row[j] = (1 - MODEL.riseShare) * row[j] + part[j]
    }
  }
  return drift
}

/** Fills `next` with what follows from the weights `now` once the drift has passed. */
export function ahead(drift: Drift | null, now: Weights, range: PersonalRange, next: Weights): void {
  if (drift === null) {
    let total = 0
    for (let k = 0; k < GRID.nodes; k++) total += now[k]
    for (let j = 0; j < GRID.nodes; j++) next[j] = total * range.weights[j]
    return
  }
  next.fill(0)
  const { from, to, weights } = drift
  for (let k = 0; k < GRID.nodes; k++) {
    const weight = now[k]
    if (weight < NEGLIGIBLE) continue
    const row = k * GRID.nodes
    for (let j = from[k], end = to[k]; j <= end; j++) next[j] += weight * weights[row + j]
  }
}

/** Fills `now` with how likely each node makes what `next` tells of the time after the drift. */
export function back(drift: Drift | null, next: Weights, range: PersonalRange, now: Weights): void {
  if (drift === null) {
    let total = 0
    for (let j = 0; j < GRID.nodes; j++) total += next[j] * range.weights[j]
    now.fill(total)
    return
  }
  const { from, to, weights } = drift
  for (let k = 0; k < GRID.nodes; k++) {
    const row = k * GRID.nodes
    let total = 0
    for (let j = from[k], end = to[k]; j <= end; j++) total += next[j] * weights[row + j]
    now[k] = total
  }
}
