import { describe, expect, it } from 'vitest'
import type { Analysis } from '../../../src-core/analysis/analysis'
import { blocksTable } from '../../../src-core/shown/blocksTable'
import { ENGLISH } from '../../../src-core/wording/english'
import { analysisOf, inventedLog } from '../../helpers/analysisFixture'

describe('the blocks of the day', () => {
  const table = (analysis: Analysis) => blocksTable(ENGLISH, analysis, analysis.periods[0])

  it('are closed by the readings without a time, so that their lows are not lost', () => {
    const rows = [
      ...inventedLog({ days: 5, repeats: 0 }),
      { at: '2026-03-08', value: 61 },
      { at: '2026-03-09', value: 120 },
    ]
    const analysis = analysisOf(rows)
    const { rows: printed, titles } = table(analysis)
    expect(printed.at(-1)).toEqual(['no time', '2', '–', '–', '–', '–', '1', '–'])
    const lows = printed.reduce((sum, cells) => sum + Number(cells[titles.indexOf('below 70')]), 0)
    expect(lows).toBe(analysis.periods[0].lows.readingsBelow70)
    expect(table(analysisOf(inventedLog({ days: 5 }))).rows).toHaveLength(8)
  })
})
