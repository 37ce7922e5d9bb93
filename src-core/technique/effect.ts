import { isLow, type Readings } from '../log/readings'
import type { Technique } from './technique'

/** What leaving one reading out does to the mean and the SD. */
export interface Effect {
  readonly index: number
  /** Mean and SD without the reading minus those with it, mg/dL. */
  readonly mean: number
  readonly sd: number
}

/**
 * The readings that `checked` leaves out, each with what it alone does to mean and SD of the readings at `indexes`; those
 * that move the mean most first. Nothing below three readings.
 */
export function effects(
  readings: Readings,
  indexes: readonly number[],
  technique: Technique,
): readonly Effect[] {
  const n = indexes.length
  if (n < 3) return []
  const mean = indexes.reduce((sum, index) => sum + readings.mgDl[index], 0) / n
  const squares = indexes.reduce((sum, index) => sum + (readings.mgDl[index] - mean) ** 2, 0)
  const sd = Math.sqrt(squares / (n - 1))
  const leftOut = leftOutReadings(readings, technique)
  return indexes
    .filter((index) => leftOut.has(index))
    .map((index) => {
      const deviation = readings.mgDl[index] - mean
      // One value less: the mean moves by d / (n - 1), the sum of squares falls by d² n / (n - 1).
      const rest = Math.max(0, squares - (deviation ** 2 * n) / (n - 1))
      return { index, mean: -deviation / (n - 1), sd: Math.sqrt(rest / (n - 2)) - sd }
    })
    .sort((a, b) => Math.abs(b.mean) - Math.abs(a.mean) || a.index - b.index)
}

/** Doubtful readings that are no lows, and what the person leaves out. */
export function leftOutReadings(readings: Readings, { doubtful, decided }: Technique): ReadonlySet<number> {
  return new Set([
    ...doubtful.filter(({ index }) => !isLow(readings, index)).map(({ index }) => index),
    ...decided.filter(({ choice }) => choice === 'leave-out').map(({ index }) => index),
  ])
}
