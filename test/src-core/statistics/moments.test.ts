import { existsSync, readFileSync } from 'node:fs'
import { describe, expect, it } from 'vitest'
import { mean, sampleSd } from '../../../src-core/statistics/moments'

// NIST Statistical Reference Datasets, univariate summary statistics: certified values of each data set.

/** Michelson's speed of light in air, 1879, millions of metres per second. */
const MICHELSON = [
  299.85, 299.74, 299.9, 300.07, 299.93, 299.85, 299.95, 299.98, 299.98, 299.88, 300.0, 299.98, 299.93,
  299.65, 299.76, 299.81, 300.0, 300.0, 299.96, 299.96, 299.96, 299.94, 299.96, 299.94, 299.88, 299.8, 299.85,
  299.88, 299.9, 299.84, 299.83, 299.79, 299.81, 299.88, 299.88, 299.83, 299.8, 299.79, 299.76, 299.8, 299.88,
  299.88, 299.88, 299.86, 299.72, 299.72, 299.62, 299.86, 299.97, 299.95, 299.88, 299.91, 299.85, 299.87,
  299.84, 299.84, 299.85, 299.84, 299.84, 299.84, 299.89, 299.81, 299.81, 299.82, 299.8, 299.77, 299.76,
  299.74, 299.75, 299.76, 299.91, 299.92, 299.89, 299.86, 299.88, 299.72, 299.84, 299.85, 299.85, 299.78,
  299.89, 299.84, 299.78, 299.81, 299.76, 299.81, 299.79, 299.81, 299.82, 299.85, 299.87, 299.87, 299.81,
  299.74, 299.81, 299.94, 299.95, 299.8, 299.81, 299.87,
]

/** The centre once, then 500 times the value below and the value above it: 1001 observations. */
function alternating(centre: number, below: number, above: number): number[] {
  return [centre, ...Array.from({ length: 1000 }, (_, i) => (i % 2 === 0 ? below : above))]
}

/** Correct digits of a figure, as the data sets' own documentation measures them. */
function correctDigits(figure: number | null, certified: number): number {
  if (figure === null) return 0
  const error = Math.abs(figure - certified) / Math.abs(certified)
  return error === 0 ? 16 : -Math.log10(error)
}

describe('mean and standard deviation of the NIST reference data', () => {
  it.each([
    ['NumAcc1', [10000001, 10000003, 10000002], 10000002, 1],
    ['NumAcc2', alternating(1.2, 1.1, 1.3), 1.2, 0.1],
    ['NumAcc3', alternating(1000000.2, 1000000.1, 1000000.3), 1000000.2, 0.1],
    ['NumAcc4', alternating(10000000.2, 10000000.1, 10000000.3), 10000000.2, 0.1],
    ['Michelso', MICHELSON, 299.8524, 0.0790105478190518],
  ])('%s has its certified values', (_, values, certifiedMean, certifiedSd) => {
    const numbers = Float64Array.from(values)
    expect(correctDigits(mean(numbers), certifiedMean)).toBeGreaterThan(14)
    // The decimals of NumAcc3 and NumAcc4 are no binary fractions: the data themselves keep 9 and 8 digits.
    expect(correctDigits(sampleSd(numbers), certifiedSd)).toBeGreaterThan(8)
  })

  it('NumAcc1, NumAcc2 and Michelso keep nearly every digit of the standard deviation', () => {
    expect(sampleSd(Float64Array.from([10000001, 10000003, 10000002]))).toBe(1)
    expect(correctDigits(sampleSd(Float64Array.from(alternating(1.2, 1.1, 1.3))), 0.1)).toBeGreaterThan(14)
    expect(correctDigits(sampleSd(Float64Array.from(MICHELSON)), 0.0790105478190518)).toBeGreaterThan(12)
  })

  const folder = new URL('../../../../shared/open-data/nist-strd/', import.meta.url)
  it
    .skipIf(!existsSync(folder))
    .each(['Lew', 'Lottery', 'Mavro', 'Michelso', 'NumAcc1', 'NumAcc2', 'NumAcc3', 'NumAcc4'])(
    '%s, read from the published file, has its certified values (skipped without ../shared)',
    (name) => {
      const text = readFileSync(new URL(`${name}.dat`, folder), 'utf8')
      const certified = (label: string) =>
        Number(new RegExp(`Sample ${label}.*:\\s+(-?[\\d.]+)`).exec(text)?.[1])
      const data = text.slice(text.indexOf('Data: Y')).split('\n').slice(2)
      const numbers = Float64Array.from(data.filter((line) => line.trim() !== '').map(Number))
      expect(numbers.length).toBe(Number(/Number of Observations:\s+(\d+)/.exec(text)?.[1]))
      expect(correctDigits(mean(numbers), certified('Mean'))).toBeGreaterThan(13)
      expect(correctDigits(sampleSd(numbers), certified('Standard Deviation'))).toBeGreaterThan(8)
    },
  )
})

describe('mean and standard deviation', () => {
  it('of equal values are that value and exactly zero', () => {
    const equal = new Float64Array(1000).fill(5.3 * 18.0156)
    expect(mean(equal)).toBe(5.3 * 18.0156)
    expect(sampleSd(equal)).toBe(0)
  })

  it('keep the small value between two large ones', () => {
    expect(mean(Float64Array.from([0, 1e16, 3, -1e16]))).toBe(0.75)
  })

  it('exist from one and from two values on', () => {
    expect(mean(new Float64Array(0))).toBeNull()
    expect(sampleSd(Float64Array.from([120]))).toBeNull()
    expect(mean(Float64Array.from([120]))).toBe(120)
    expect(sampleSd(Float64Array.from([100, 104]))).toBeCloseTo(Math.SQRT2 * 2, 12)
  })
})
