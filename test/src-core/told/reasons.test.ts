import { describe, expect, it } from 'vitest'
import { FLAG } from '../../../src-core/log/readings'
import { contradictions } from '../../../src-core/technique/reasons/contradictedByRepeat'
import { reasonsTold } from '../../../src-core/told/reasons'
import { readingsOf, row, type RowParts } from '../analysis/readingsOf'

/** What is told of the reading `index` of two tests three minutes apart. */
function told(values: readonly [number, number], index: number, parts: readonly RowParts[] = [{}, {}]) {
  const readings = readingsOf(values.map((value, i) => row(`2026-03-08 07:1${3 * i}`, value, parts[i])))
  const reason = contradictions(readings, [0, 1])[index]
  if (reason === null) throw new Error('the tests agree')
  return reasonsTold([reason], readings, index)[0]
}

describe('two tests that cannot both be right', () => {
  it('stand in their order, whichever is looked at', () => {
    expect(told([255, 109], 0)).toMatchObject({ first: 0, second: 1, minutes: 3, counted: null })
    expect(told([255, 109], 1)).toMatchObject({ first: 0, second: 1, minutes: 3, counted: null })
  })

  it('never take a low out of the count', () => {
    expect(told([62, 109], 0)).toMatchObject({ afterLow: true, counted: 'this' })
    expect(told([62, 109], 1)).toMatchObject({ afterLow: true, counted: 'other' })
    expect(told([109, 62], 1)).toMatchObject({ afterLow: false, counted: 'this' })
    for (const values of [
      [30, 69],
      [69, 30],
    ] as const) {
      for (const index of [0, 1]) expect(told(values, index)).toMatchObject({ counted: 'both' })
    }
  })

  it('of two meters say so, of one that was typed do not', () => {
    expect(told([255, 109], 0, [{}, { meter: 'meter B' }])).toMatchObject({ ofTwoMeters: true })
    expect(told([255, 109], 0)).toMatchObject({ ofTwoMeters: false })
  })

  it('differ by more than is known where one is HI', () => {
    expect(told([600, 109], 0, [{ flags: FLAG.aboveRange }, {}])).toMatchObject({ atLeast: true })
  })
})

it('a doubt without a reason of its own is still told', () => {
  expect(reasonsTold([], readingsOf([row('2026-03-08 07:10', 120)]), 0)).toEqual([{ code: 'fits-badly' }])
})
