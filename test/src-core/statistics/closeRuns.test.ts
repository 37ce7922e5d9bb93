import { describe, expect, it } from 'vitest'
import { closeRuns } from '../../../src-core/statistics/closeRuns'

describe('those chosen that follow another within reach', () => {
  const at = [0, 5, 20, 31, 40, 70, 72, 90, 100, 121]

  it('are counted over all choices, as R lists them', () => {
    // R 4.2.2: apply(combn(10, 4), 2, function(c) sum(diff(at[c]) <= 24)).
    expect(closeRuns(at, 4, 24, 2)?.p).toBeCloseTo(0.4285714286, 9)
    expect(closeRuns(at, 4, 24, 3)?.p).toBeCloseTo(0.0333333333, 9)
    expect(closeRuns(at, 4, 24, 0)?.p).toBeCloseTo(1, 12)
    expect(closeRuns(at, 4, 24, 2)?.expected).toBeCloseTo(1.3666666667, 9)
  })

  it('weigh more where each of them makes a choice likelier', () => {
    // R 4.2.2: the same with the weights 2.5^S.
    const found = closeRuns(at, 4, 24, 2, 2.5)
    expect(found?.p).toBeCloseTo(0.6993736952, 9)
    expect(found?.expected).toBeCloseTo(1.7988865692, 9)
  })

  it('hold all of them where all are within reach, and none where none is', () => {
    const every = Array.from({ length: 400 }, (_, i) => i)
    expect(closeRuns(every, 90, 400, 89)?.p).toBeCloseTo(1, 9)
    expect(closeRuns(every, 90, 0, 1)?.p).toBeCloseTo(0, 9)
    // Two of 400 neighbours: 399 of 79,800 pairs.
    expect(closeRuns(every, 2, 1, 1)?.p).toBeCloseTo(399 / 79_800, 12)
  })

  it('are not counted where that would take too long', () => {
    expect(
      closeRuns(
        Array.from({ length: 3_000 }, (_, i) => i),
        1_000,
        1,
        1,
      ),
    ).toBeNull()
  })
})
