import { Z95 } from '../reference/meter'

/** y = intercept + slope x, with 95 % intervals. */
export interface RegressionLine {
  readonly slope: number
  readonly slopeCi95: readonly [number, number]
  readonly intercept: number
  readonly interceptCi95: readonly [number, number]
}

/** Slopes this close to -1 count as -1: binary fractions miss it by less. */
const TOLERANCE = 1e-9

/**
 * Passing and Bablok's line through paired measurements of two methods, neither of which is taken to be free of error;
 * null where no slope can be computed. J Clin Chem Clin Biochem 1983;21:709-720.
 */
export function passingBablok(x: readonly number[], y: readonly number[]): RegressionLine | null {
  const n = x.length
  const slopes: number[] = []
  for (let i = 0; i < n; i++) {
    for (let j = i + 1; j < n; j++) {
      const slope = slopeBetween(x[j] - x[i], y[j] - y[i])
      if (slope !== null) slopes.push(slope)
    }
  }
  const count = slopes.length
  const sorted = Float64Array.from(slopes).sort()
  const offset = slopes.filter((slope) => slope < -1).length
  const at = (rank: number) => sorted[rank - 1 + offset]
  const reach = Z95 * Math.sqrt((n * (n - 1) * (2 * n + 5)) / 18)
  const lowest = Math.round((count - reach) / 2)
  if (count === 0 || lowest < 1) return null
  const slope = count % 2 === 1 ? at((count + 1) / 2) : (at(count / 2) + at(count / 2 + 1)) / 2
  const slopeCi95 = [at(lowest), at(count - lowest + 1)] as const
  const interceptAt = (b: number) => middle(x.map((value, i) => y[i] - b * value))
  const line = {
    slope,
    slopeCi95,
    intercept: interceptAt(slope),
    interceptCi95: [interceptAt(slopeCi95[1]), interceptAt(slopeCi95[0])] as const,
  }
  const figures = [slope, line.intercept, ...slopeCi95, ...line.interceptCi95]
  return figures.every(Number.isFinite) ? line : null
}

/** Null where two points are the same or the slope is -1; vertical ones are infinite. */
function slopeBetween(dx: number, dy: number): number | null {
  if (dx === 0) return dy === 0 ? null : dy > 0 ? Infinity : -Infinity
  const slope = dy / dx
  return Math.abs(slope + 1) < TOLERANCE ? null : slope
}

function middle(values: number[]): number {
  values.sort((a, b) => a - b)
  const half = values.length >> 1
  return values.length % 2 === 1 ? values[half] : (values[half - 1] + values[half]) / 2
}
