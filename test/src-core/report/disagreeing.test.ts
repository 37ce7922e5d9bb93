import { describe, expect, it } from 'vitest'
import { documentOf } from '../../helpers/pages'
import { analysisOf } from '../../helpers/analysisFixture'

describe('a low and a recheck that disagree', () => {
  const rows = [
    { at: '2026-04-01 12:00', value: 62 },
    { at: '2026-04-01 12:03', value: 109 },
  ]
  const SENTENCE = '62, then 109 three minutes later. They cannot both be right.'
  const timesSaid = (doubtThreshold: number) =>
    JSON.stringify(documentOf(analysisOf(rows, { settings: { doubtThreshold } }))).split(SENTENCE).length - 1

  it('are told of once, whether or not one of them is doubtful', () => {
    expect(timesSaid(0.4)).toBe(1)
    expect(timesSaid(1.1)).toBe(1)
  })
})
