import { describe, expect, it } from 'vitest'
import { benjaminiHochberg } from '../../../src-core/statistics/benjaminiHochberg'

// The fifteen p values of the example in Benjamini and Hochberg, JRSS B 1995;57:289-300.
const PS = [
  0.0001, 0.0004, 0.0019, 0.0095, 0.0201, 0.0278, 0.0298, 0.0344, 0.0459, 0.324, 0.4262, 0.5719, 0.6528,
  0.759, 1,
]

describe('p values adjusted for looking at several', () => {
  it('keep the four that the published example keeps at 0.05', () => {
    const adjusted = benjaminiHochberg(PS)
    expect(adjusted.filter((p) => p <= 0.05)).toHaveLength(4)
    expect(adjusted[3]).toBeCloseTo((0.0095 * 15) / 4, 12)
    expect(adjusted[4]).toBeCloseTo((0.0201 * 15) / 5, 12)
    // 0.0278 x 15 / 6 is more than 0.0298 x 15 / 7, which bounds it.
    expect(adjusted[5]).toBeCloseTo((0.0298 * 15) / 7, 12)
  })

  it('are those that R’s p.adjust gives for the example', () => {
    const adjusted = [
      0.0015, 0.003, 0.0095, 0.035625, 0.0603, 0.063857, 0.063857, 0.0645, 0.0765, 0.486, 0.581182, 0.714875,
      0.753231, 0.813214, 1,
    ]
    benjaminiHochberg(PS).forEach((p, i) => expect(p).toBeCloseTo(adjusted[i], 6))
  })

  it('come back in the order given', () => {
    const order = [4, 9, 0, 14, 3, 7, 1, 12, 5, 10, 2, 13, 6, 11, 8]
    const inOrder = benjaminiHochberg(PS)
    expect(benjaminiHochberg(order.map((i) => PS[i]))).toEqual(order.map((i) => inOrder[i]))
  })

  it('leave a single one as it is, and none as none', () => {
    expect(benjaminiHochberg([0.03])).toEqual([0.03])
    expect(benjaminiHochberg([])).toEqual([])
  })
})
