import { describe, expect, it } from 'vitest'
import { passingBablok } from '../../../src-core/statistics/passingBablok'

// Thirty pairs of two methods whose line is slope 1.00, intercept -0.15 (check data of an implementation of the
// method, to a hundredth); intervals computed apart from this program from the paper's formulas, Passing and Bablok, J Clin Chem
// Clin Biochem 1983;21:709-720. One pair of points has a slope of -1 but for binary fractions.
const X = [
  69.3, 27.1, 61.3, 50.8, 34.4, 92.3, 57.5, 45.5, 33.3, 60.9, 56.3, 49.9, 89.7, 28.9, 96.3, 76.6, 83.2, 79.4,
  51.7, 32.5, 14.2, 99.1, 76.8, 95.4, 84.1, 48.8, 80.4, 84.5, 61.4, 26.9,
]
const Y = [
  69.1, 26.7, 61.4, 51.2, 34.7, 88.5, 57.9, 45.1, 33.4, 60.8, 66.5, 48.2, 88.3, 29.3, 96.4, 77.1, 82.7, 78.9,
  51.6, 28.8, 12.7, 98.6, 77.3, 94.9, 83.3, 47.0, 80.9, 84.7, 61.3, 26.7,
]

describe('the line of Passing and Bablok', () => {
  it('has the slope and intercept of the thirty pairs, and their intervals', () => {
    const line = passingBablok(X, Y)
    expect(line?.slope).toBeCloseTo(1.0, 2)
    expect(line?.intercept).toBeCloseTo(-0.15, 2)
    expect(line?.slopeCi95[0]).toBeCloseTo(0.987635, 6)
    expect(line?.slopeCi95[1]).toBeCloseTo(1.012315, 6)
    expect(line?.interceptCi95[0]).toBeCloseTo(-0.853079, 6)
    expect(line?.interceptCi95[1]).toBeCloseTo(0.654946, 6)
  })

  it('has those of ten pairs that are printed in manuals of method comparison', () => {
    const line = passingBablok(
      [7, 8.3, 10.5, 9, 5.1, 8.2, 10.2, 10.3, 7.1, 5.9],
      [7.9, 8.2, 9.6, 9, 6.5, 7.3, 10.2, 10.6, 6.3, 5.2],
    )
    // Computed apart from this program: N 45, K 4, ranks 12 and 34.
    expect(line?.slope).toBeCloseTo(1.0, 6)
    expect(line?.intercept).toBeCloseTo(-0.05, 6)
    expect(line?.slopeCi95[0]).toBeCloseTo(0.71875, 6)
    expect(line?.slopeCi95[1]).toBeCloseTo(1.421053, 6)
    expect(line?.interceptCi95[0]).toBeCloseTo(-3.789474, 6)
    expect(line?.interceptCi95[1]).toBeCloseTo(2.382813, 6)
  })

  it('is none through fewer points than its interval needs, or through one point', () => {
    expect(passingBablok([], [])).toBeNull()
    expect(passingBablok([100, 120], [101, 119])).toBeNull()
    expect(passingBablok(Array<number>(30).fill(100), Array<number>(30).fill(100))).toBeNull()
  })
})
