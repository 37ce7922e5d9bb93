import { describe, expect, it } from 'vitest'
import { daysPicture } from '../../../src-core/charts/daysPicture'
import { PRINT_PALETTE } from '../../../src-core/charts/palette'
import { pageDocument } from '../../../src-core/report/pageDocument'
import { equipmentStretches, isDoubtfulByEquipment } from '../../../src-core/technique/equipmentStretches'
import { parseIsoDay } from '../../../src-core/units/wallClock'
import { analysisOf, type FixtureReading } from '../../helpers/analysisFixture'

const rows: FixtureReading[] = Array.from({ length: 24 }, (_, i) => ({
  at: `2026-03-${String(i + 1).padStart(2, '0')} 07:00`,
  value: i === 12 ? 62 : 110 + (i % 7),
}))
rows.push({ at: '2026-03-15 12:00', value: 250 }, { at: '2026-03-15 12:03', value: 112 })
const kit = {
  controls: [
    { date: '2026-03-09', result: 118, range: [96, 144] as [number, number], unit: 'mg/dL' as const },
    { date: '2026-03-20', result: 160, range: [96, 144] as [number, number], unit: 'mg/dL' as const },
  ],
}
const analysis = analysisOf(rows, { kit })
const { doubtful } = analysis.technique

describe('readings that a failed control makes doubtful', () => {
  it('are one stretch from the last control that passed on, with their lows', () => {
    const [stretch, ...others] = equipmentStretches(doubtful, analysis.readings, analysis.settings)
    expect(others).toEqual([])
    expect(stretch.reason.code).toBe('failed-control')
    const days = stretch.indexes.map((index) => new Date(analysis.readings.at[index] * 1000).getUTCDate())
    expect([days[0], days.at(-1)]).toEqual([10, 24])
    expect(stretch.indexes.map((index) => analysis.readings.mgDl[index])).toContain(62)
  })

  it('but for one of which something more is known, which stands alone', () => {
    const high = doubtful.find(({ index }) => analysis.readings.mgDl[index] === 250)
    expect(high && isDoubtfulByEquipment(high, analysis.readings, analysis.settings)).toBe(false)
  })

  it('are told once on paper, the low among them named as counted', () => {
    const options = {
      paper: 'A4',
      label: null,
      madeAt: parseIsoDay('2026-07-01') ?? 0,
      programVersion: '1',
    } as const
    const text = JSON.stringify(pageDocument(analysis, options)).replaceAll('\\u00a0', ' ')
    expect(text.match(/The control test of 20 March 2026 gave 160/g)).toHaveLength(2)
    expect(text).toContain('readings of meter A, 10 March to 24 March')
    expect(text).toContain('counted as lows: ■ 62 on 13 March at 07:00')
  })
})

describe('the picture of the days', () => {
  it('has a bracket over the days of such a stretch', () => {
    const [figures] = analysis.periods
    const scene = daysPicture(analysis, figures, { width: 520, palette: PRINT_PALETTE })
    const brackets = scene.nodes.find((node) => node.kind === 'group' && node.name === 'brackets')
    const [upright] = brackets?.kind === 'group' ? brackets.nodes : []
    if (upright?.kind !== 'line') throw new Error('there is no bracket')
    // One row of 8.6 points for each day of 24: from the tenth to the last.
    expect(upright.y2 - upright.y1).toBeCloseTo(15 * 8.6 - 2, 6)
  })
})
