import { describe, expect, it } from 'vitest'
import { awarenessTold } from '../../../src-core/told/awareness'
import { analysisOf, type FixtureReading } from '../../helpers/analysisFixture'
import { documentOf } from '../../helpers/pages'

const on = (day: number, time: string, value: number, note = ''): FixtureReading => ({
  at: `2026-03-${String(day).padStart(2, '0')} ${time}`,
  value,
  note,
})
const toldOf = (rows: readonly FixtureReading[]) => {
  const analysis = analysisOf(rows)
  return awarenessTold(analysis, analysis.periods[0])
}

describe('what was felt beside what was measured', () => {
  const rows = [
    on(1, '07:00', 82, 'felt low'),
    on(2, '07:00', 55, 'nichts gemerkt'),
    on(3, '07:00', 66, 'zittrig'),
    on(3, '07:40', 88, 'still shaky'),
    on(3, '08:10', 95, 'felt low'),
    on(4, '07:00', 70, 'tremblements'),
    on(5, '07:00', 140, 'no symptoms'),
    on(6, '07:00', 69, 'sin síntomas'),
  ]

  it('lists lows at which nothing was felt, and what was felt as low at 70 and more, not soon after a low', () => {
    expect(toldOf(rows)).toEqual({
      feltLow: { n: 3, listed: [0, 4, 5] },
      nothingFelt: { n: 2, listed: [1, 7] },
    })
  })

  it('lists eight at most, the latest, room for both', () => {
    const felt = Array.from({ length: 9 }, (_, i) => on(1 + i, '09:00', 100, 'felt low'))
    const nothing = Array.from({ length: 9 }, (_, i) => on(11 + i, '09:00', 60, 'no symptoms'))
    const lengths = ({ feltLow, nothingFelt }: ReturnType<typeof toldOf>) => [
      [feltLow.n, feltLow.listed.length],
      [nothingFelt.n, nothingFelt.listed.length],
    ]
    expect(lengths(toldOf([...felt, ...nothing]))).toEqual([
      [9, 4],
      [9, 4],
    ])
    expect(lengths(toldOf([...felt, ...nothing.slice(0, 2)]))).toEqual([
      [9, 6],
      [2, 2],
    ])
    expect(toldOf(nothing).nothingFelt.listed).toEqual([1, 2, 3, 4, 5, 6, 7, 8])
  })

  it('stands on paper in neutral words, and without the notes where they are not printed', () => {
    const analysis = analysisOf(rows)
    const text = JSON.stringify(documentOf(analysis))
    expect(text).toContain(
      'Low, nothing felt (2): 2 March, 07:00: 55 ‘nichts gemerkt’; 6 March, 07:00: 69 ‘sin síntomas’.',
    )
    expect(text).toContain('Felt low at 70 or more (3): 1 March, 07:00: 82 ‘felt low’; ')
    const without = JSON.stringify(documentOf(analysis, { withoutNotes: true }))
    expect(without).toContain('Low, nothing felt (2): 2 March, 07:00: 55; 6 March, 07:00: 69.')
    expect(without).not.toContain('gemerkt')
  })

  it('is nothing where no note tells of it', () => {
    expect(JSON.stringify(documentOf(analysisOf([on(1, '07:00', 60), on(2, '07:00', 90)])))).not.toContain(
      'What was felt',
    )
  })
})
