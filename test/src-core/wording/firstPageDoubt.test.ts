import { describe, expect, it } from 'vitest'
import type { FindingsDoubt } from '../../../src-core/told/findings'
import { findingsDoubt, nothingStandsOut } from '../../../src-core/wording/english/firstPage'

const doubt = (n: number, numbers: readonly number[]): FindingsDoubt => ({
  n,
  rest: numbers.length === 0 ? [] : [{ how: 'disappears', numbers }],
  noneOfTheOthers: false,
  lows: null,
  brackets: false,
})

describe('what stands out on the first page', () => {
  it('says how many findings stand behind', () => {
    expect(findingsDoubt(doubt(1, [1]), 2)).toBe(
      'Finding 1 partly rests on doubtful readings. 1 more behind.',
    )
    expect(findingsDoubt(doubt(2, []), 5)).toBe('None rests on a doubtful reading. 3 more behind.')
    expect(findingsDoubt(doubt(2, [1, 2]), 2)).not.toContain('behind')
  })

  it('speaks of one low as one', () => {
    expect(nothingStandsOut(1)).toContain('the low above still counts.')
    expect(nothingStandsOut(2)).toContain('the lows above still count.')
  })
})
