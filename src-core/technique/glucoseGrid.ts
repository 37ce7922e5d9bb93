import { MODEL } from './doubtConstants'

/** Grid of true values, 12 to 800 mg/dL, natural logarithms. */
export const GRID = { from: Math.log(12), step: 0.035, nodes: 121 } as const
export const LOG_MG_DL = Float64Array.from({ length: GRID.nodes }, (_, k) => GRID.from + k * GRID.step)
export const MG_DL = LOG_MG_DL.map(Math.exp)

/** Weights over the grid's nodes, mostly with a sum of 1. */
export type Weights = Float64Array

/** Where a person's true values lie. */
export interface PersonalRange {
  /** Centre and spread of the natural logarithms, robust. */
  readonly centre: number
  readonly spread: number
  /** The law of true values at any moment. */
  readonly weights: Weights
  /** Each node as a standard normal score of that law. */
  readonly scores: Float64Array
}

/** Of a person's readings, mg/dL, in any order. */
export function personalRange(mgDl: Float64Array): PersonalRange {
  const logs = mgDl.map(Math.log).sort()
  const n = logs.length
  const { priorCentre, priorSpread, priorReadings } = MODEL
  const trust = n / (n + priorReadings)
  const middleLog = n === 0 ? priorCentre : middle(logs)
  const centre = trust * middleLog + (1 - trust) * priorCentre
  const deviations = logs.map((log) => Math.abs(log - middleLog)).sort()
  // 1.4826 turns the median absolute deviation into the standard deviation of a normal distribution.
  const own = n === 0 ? priorSpread : Math.max(0.12, 1.4826 * middle(deviations))
  const spread = Math.sqrt(trust * own ** 2 + (1 - trust) * priorSpread ** 2)

  const weights = new Float64Array(GRID.nodes)
  // Silverman's rule of thumb for the width of a kernel.
  const width = Math.max(0.06, 1.06 * spread * Math.max(1, n) ** -0.2)
  const counts = new Float64Array(GRID.nodes)
  for (const log of logs) counts[nodeOf(log)]++
  for (let k = 0; k < GRID.nodes; k++) {
    if (counts[k] === 0) continue
    for (let j = 0; j < GRID.nodes; j++) {
      const z = (LOG_MG_DL[j] - LOG_MG_DL[k]) / width
      if (Math.abs(z) < 6) weights[j] += counts[k] * Math.exp(-0.5 * z * z)
    }
  }
  scaleTo(weights, trust * (1 - MODEL.broadShare))
  // Student's t with 4 degrees of freedom: a real low far below the usual range is rare, not impossible.
  const broad = LOG_MG_DL.map((log) => (1 + ((log - centre) / (1.2 * spread)) ** 2 / 4) ** -2.5)
  scaleTo(broad, 1 - trust * (1 - MODEL.broadShare))
  for (let k = 0; k < GRID.nodes; k++) weights[k] += broad[k]
  let below = 0
  const scores = weights.map((weight) => {
    below += weight
    return normalScore(below - weight / 2)
  })
  return { centre, spread, weights, scores }
}

function nodeOf(log: number): number {
  return Math.max(0, Math.min(GRID.nodes - 1, Math.round((log - GRID.from) / GRID.step)))
}

function middle(sorted: Float64Array): number {
  const half = sorted.length >> 1
  return sorted.length % 2 === 1 ? sorted[half] : (sorted[half - 1] + sorted[half]) / 2
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

/** Gaps are rounded to this many steps to a doubling, so that few drifts are made. */
const STEPS_TO_A_DOUBLING = 5

/** Drifts of a person's glucose over gaps of time; null where the gap has outlasted all memory. */
export function createDrifts(range: PersonalRange): (gapMinutes: number, afterLow: boolean) => Drift | null {
  const known = new Map<number, Drift | null>()
  return (gapMinutes, afterLow) => {
    const bin = gapMinutes < 0.25 ? -100 : Math.round(STEPS_TO_A_DOUBLING * Math.log2(gapMinutes))
    const key = afterLow ? bin + 0.5 : bin
    let drift = known.get(key)
    if (drift === undefined) {
      const gap = bin === -100 ? 0 : 2 ** (bin / STEPS_TO_A_DOUBLING)
      drift = correlation(gap, 1) < 0.03 ? null : makeDrift(range, gap, afterLow)
      known.set(key, drift)
    }
    return drift
  }
}

function correlation(gapMinutes: number, factor: number): number {
  return Math.exp(-((gapMinutes / (MODEL.memoryMinutes * factor)) ** MODEL.memoryPower))
}

function makeDrift({ weights, scores }: PersonalRange, gapMinutes: number, afterLow: boolean): Drift {
  const { nodes } = GRID
  const drift = {
    from: new Int32Array(nodes),
    to: new Int32Array(nodes),
    weights: new Float64Array(nodes * nodes),
  }
  const usual = correlation(gapMinutes, 1)
  const quick = correlation(gapMinutes, MODEL.quickFactor)
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
      if (row[j] < 1e-9) continue
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
        part[j] =
          variance === 0
            ? Number(j === k)
            : weights[j] * Math.exp((-0.5 * (z * z)) / variance + 0.5 * scores[j] ** 2)
      }
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

/** What follows from the weights `now` once the drift has passed. */
export function ahead(drift: Drift | null, now: Weights, range: PersonalRange): Weights {
  const next = new Float64Array(GRID.nodes)
  if (drift === null) {
    let total = 0
    for (const weight of now) total += weight
    for (let j = 0; j < GRID.nodes; j++) next[j] = total * range.weights[j]
    return next
  }
  const { from, to, weights } = drift
  for (let k = 0; k < GRID.nodes; k++) {
    const weight = now[k]
    if (weight < 1e-14) continue
    const row = k * GRID.nodes
    for (let j = from[k], end = to[k]; j <= end; j++) next[j] += weight * weights[row + j]
  }
  return next
}

/** How likely each node makes what is known of the time after the drift. */
export function back(drift: Drift | null, next: Weights, range: PersonalRange): Weights {
  const now = new Float64Array(GRID.nodes)
  if (drift === null) {
    let total = 0
    for (let j = 0; j < GRID.nodes; j++) total += next[j] * range.weights[j]
    return now.fill(total)
  }
  const { from, to, weights } = drift
  for (let k = 0; k < GRID.nodes; k++) {
    const row = k * GRID.nodes
    let total = 0
    for (let j = from[k], end = to[k]; j <= end; j++) total += next[j] * weights[row + j]
    now[k] = total
  }
  return now
}
