import { describe, expect, it } from 'vitest'
import { lowsView } from '../../../src-core/bridge/lowsView'
import { analysisOf } from '../../helpers/analysisFixture'
import { ENGLISH } from '../../../src-core/wording/english'

describe('the lows of the window', () => {
  // The lowest come last.
  const values = [69, 68, 67, 66, 65, 64, 63, 62, 61, 60, 50]
  const analysis = analysisOf(
    values.map((value, i) => ({ at: `2026-03-${String(i + 1).padStart(2, '0')} 07:00`, value })),
  )
  const view = lowsView(ENGLISH, analysis, analysis.periods[0])

  it('begin with the eight lowest in order of time, the others behind', () => {
    expect(view.lowest.map((low) => low.values)).toEqual(values.slice(3).map(String))
    expect(view.lowestTold).toBe('The eight lowest, in order of time:')
    expect(view.others.map((low) => low.values)).toEqual(['69', '68', '67'])
    expect(view.unlisted).toBe(0)
  })

  it('are told with what to do after one, and only where there is one', () => {
    expect(view.remarks.at(-1)).toMatch(
      /^After a low: .* your own plan .* Wash your hands, then recheck after 15 minutes\./,
    )
    const none = analysisOf([{ at: '2026-03-01 07:00', value: 120 }])
    expect(lowsView(ENGLISH, none, none.periods[0]).remarks.join(' ')).not.toContain('After a low')
  })
})
