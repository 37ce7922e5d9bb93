import { errorFunction } from 'simple-statistics'
import { METER_STANDARD } from '../reference/meter'
import { MODEL } from './doubtConstants'
import { GRID, LOG_MG_DL, MG_DL } from './glucoseGrid'

/** Density of a test's value, over its logarithm, at each true value, by what may have gone wrong. */
export interface ErrorDensities {
  readonly sound: Float64Array
  readonly up: Float64Array
  readonly down: Float64Array
}

/** SD of a sound reading's error on the log scale, at each true value. */
const NOISE = MG_DL.map(
  (mgDl) => (MODEL.meterCv * Math.max(mgDl, METER_STANDARD.proportionalFromMgDl)) / mgDl,
)

/** Density of an error of no known kind: any value on the grid. */
export const OTHER_DENSITY = 1 / (GRID.nodes * GRID.step)

/** Most values whose densities are kept, some 2 kB each: meters show about 600 in mg/dL, and as many in mmol/L. */
const MOST_KNOWN = 2_000
const known = new Map<number, ErrorDensities>()

/** The densities of a value; nobody's in particular, so that equal values are worked out once for all logs. */
export function errorDensities(mgDl: number): ErrorDensities {
  let densities = known.get(mgDl)
  if (densities === undefined) {
    if (known.size >= MOST_KNOWN) known.clear()
    known.set(mgDl, (densities = densitiesOf(mgDl)))
  }
  return densities
}

function densitiesOf(mgDl: number): ErrorDensities {
  const log = Math.log(mgDl)
  const errors = LOG_MG_DL.map((node) => log - node)
  return {
    sound: errors.map((error, k) => normalDensity(error / NOISE[k]) / NOISE[k]),
    up: errors.map((error, k) => blurredUniform(error, MODEL.upwards, NOISE[k])),
    down: errors.map((error, k) => blurredUniform(error, MODEL.downwards, NOISE[k])),
  }
}

/**
 * The same for a repeat while the sugar of the test before it stays on the finger: of that test's excess a
 * part is left.
 */
export function stayingDensity(mgDl: number, mgDlBefore: number): Float64Array {
  const log = Math.log(mgDl)
  const logBefore = Math.log(mgDlBefore)
  return LOG_MG_DL.map((node, k) => {
    const excess = logBefore - node
    if (excess <= 0.1) return 0
    const sd = Math.sqrt((MODEL.sugarLeft.sd * excess) ** 2 + 2 * NOISE[k] ** 2)
    return normalDensity((log - node - MODEL.sugarLeft.mean * excess) / sd) / sd
  })
}

function normalDensity(z: number): number {
  return Math.exp(-0.5 * z * z) / Math.sqrt(2 * Math.PI)
}

/** Density of a factor that is uniform on the log scale between two limits, with normal noise on top. */
function blurredUniform(error: number, limits: { least: number; most: number }, noise: number): number {
  const from = Math.log(limits.least)
  const to = Math.log(limits.most)
  const scale = noise * Math.SQRT2
  if (error < from - 4 * scale || error > to + 4 * scale) return 0
  const share = errorFunction((error - from) / scale) - errorFunction((error - to) / scale)
  // The library's approximation is good to 1e-7, so that the difference may fall below zero.
  return Math.max(0, share) / (2 * (to - from))
}
