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

  it('with weights by hand: the smallest for its weight first, against the weight that is left', () => {
    // 0.01 / 0.5 = 0.02 before 0.012 / 0.25 = 0.048 before 0.02 / 0.25 = 0.08:
    // 0.01 x 1 / 0.5; 0.012 x (0.25 + 0.25) / 0.25; 0.02 x 0.25 / 0.25, held up by the one before.
    const found = holm([0.02, 0.01, 0.012], [0.25, 0.5, 0.25])
    ;[0.024, 0.02, 0.024].forEach((value, i) => expect(found[i]).toBeCloseTo(value, 12))
    expect(holm([0.01, 0.04, 0.03, 0.005], [2, 2, 2, 2])).toEqual(holm([0.01, 0.04, 0.03, 0.005]))
  })
})
