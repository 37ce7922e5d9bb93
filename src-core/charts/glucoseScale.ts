import { fromMgDl, type GlucoseUnit, toMgDl } from '../units/glucose'

/**
 * A ratio scale: equal ratios of glucose are equal distances, so that a low shows as plainly as a high. From
 * 40 to 400 mg/dL the band 40 to 80 takes 30 % of the height (Bergenstal et al., J Diabetes Sci Technol
 * 2013;7:562-578, on glucose axes).
 */
export interface GlucoseScale {
  /** Lowest and highest value of the axis, mg/dL. */
  readonly low: number
  readonly high: number
  /** Distance from the top for a value in mg/dL, in points. */
  y(mgDl: number): number
}

/** Widest axis that is drawn without need, mg/dL. */
export const USUAL_AXIS = { low: 40, high: 400 } as const

/** Room beyond the outermost reading, as a ratio. */
const MARGIN_RATIO = 1.06

/** Round values in each unit, in the order of importance. */
const ROUND_VALUES: Readonly<Record<GlucoseUnit, readonly number[]>> = {
  'mg/dL': [100, 50, 200, 400, 20, 300, 150, 600, 30, 1000, 10, 5, 2],
  'mmol/L': [5, 10, 3, 20, 15, 7, 1, 30, 2, 50, 0.5, 0.2, 0.1],
}

/** A scale from `usual` limits, wider where the values are, over the span from `top` to `bottom` in points. */
export function glucoseScale(
  valuesMgDl: Iterable<number>,
  top: number,
  bottom: number,
  usual: { readonly low: number; readonly high: number } = USUAL_AXIS,
): GlucoseScale {
  let low = usual.low
  let high = usual.high
  for (const value of valuesMgDl) {
    low = Math.min(low, value / MARGIN_RATIO)
    high = Math.max(high, value * MARGIN_RATIO)
  }
  const pointsPerLog = (bottom - top) / Math.log(high / low)
  return { low, high, y: (mgDl) => bottom - Math.log(mgDl / low) * pointsPerLog }
}

/** A tick: its value in `unit` and its distance from the top. */
export interface Tick {
  readonly value: number
  readonly y: number
}

/** Round ticks of `unit` within the scale, at least `gap` points apart, from low to high. */
export function glucoseTicks(scale: GlucoseScale, unit: GlucoseUnit, gap: number): readonly Tick[] {
  const ticks: Tick[] = []
  for (const value of ROUND_VALUES[unit]) {
    const mgDl = toMgDl(value, unit)
    const y = scale.y(mgDl)
    const inside = value >= fromMgDl(scale.low, unit) && value <= fromMgDl(scale.high, unit)
    if (inside && ticks.every((tick) => Math.abs(tick.y - y) >= gap)) ticks.push({ value, y })
  }
  return ticks.sort((a, b) => a.value - b.value)
}
