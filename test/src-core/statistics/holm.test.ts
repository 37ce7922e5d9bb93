import { describe, expect, it } from 'vitest'
import { holm } from '../../../src-core/statistics/holm'

describe('p values adjusted by Holm’s method', () => {
  it.each([
    [[], []],
    [[0.03], [0.03]],
    // R 4.2.2: p.adjust(p, "holm").
    [
      [0.01, 0.04, 0.03, 0.005],
      [0.03, 0.06, 0.06, 0.02],
    ],
    [
      [0.3, 0.3, 0.3],
      [0.9, 0.9, 0.9],
    ],
    [
      [0.04, 0.9, 0.001, 0.02, 0.6],
      [0.12, 1, 0.005, 0.08, 1],
    ],
  ])('of %j are R’s', (ps, wanted) => {
    const found = holm(ps)
    expect(found).toHaveLength(wanted.length)
    wanted.forEach((value, i) => expect(found[i]).toBeCloseTo(value, 12))
  })
})
