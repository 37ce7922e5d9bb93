import { describe, expect, it } from 'vitest'
import { openVisit } from '../../../src-core/analysis/openVisit'
import type { NotCountedWhy } from '../../../src-core/day/lows'
import { lowsTold, notCountedTold, withoutRows } from '../../../src-core/told/lows'
import { nightsTold } from '../../../src-core/told/nights'
import { analysisOf, type FixtureReading } from '../../helpers/analysisFixture'
import { CONTEXT, logOf } from '../../helpers/logs'

const codesOf = (rows: readonly FixtureReading[]) => {
  const analysis = analysisOf(rows)
  return lowsTold(analysis, analysis.periods[0]).remarks.map(({ code }) => code)
}

describe('what is told of lows', () => {
  it('is of nights alone where there are no lows and nothing near one', () => {
    expect(codesOf([{ at: '2026-03-02 07:00', value: 120 }])).toEqual(['nights'])
    expect(codesOf([{ at: '2026-03-02', value: 120 }])).toEqual(['no-times'])
  })

  it('is nothing of nights or later tests where more than one reading in ten has no time', () => {
    const timed = (n: number) =>
      Array.from({ length: n }, (_, i) => ({
        at: `2026-03-${String(i + 10)} 07:00`,
        value: i === 0 ? 60 : 120,
      }))
    expect(codesOf([...timed(9), { at: '2026-03-02', value: 120 }])).toEqual(['nights', 'not-followed'])
    expect(codesOf([...timed(8), { at: '2026-03-02', value: 120 }])).toEqual(['no-times'])
  })

  it('is in a fixed order, each remark only where it says something', () => {
    const many = Array.from({ length: 9 }, (_, i) => ({ at: `2026-03-0${i + 1} 07:00`, value: 60 }))
    expect(
      codesOf([...many, { at: '2026-03-10 07:00', value: 8 }, { at: '2026-03-11 07:00', value: 75 }]),
    ).toEqual(['further', 'nights', 'not-followed', 'below-meters', 'near'])
  })

  it('says of readings near a low that they are further ones only beside lows', () => {
    const near = { at: '2026-03-02 07:00', value: 75 }
    const remarks = (rows: readonly FixtureReading[]) => {
      const analysis = analysisOf(rows)
      return lowsTold(analysis, analysis.periods[0]).remarks
    }
    expect(remarks([near])).toContainEqual({ code: 'near', n: 1, further: false })
    expect(remarks([near, { at: '2026-03-02 12:00', value: 60 }])).toContainEqual({
      code: 'near',
      n: 1,
      further: true,
    })
  })
})

describe('nights', () => {
  const told = (nightsTested: number, nights: number, byHour = Array<number>(6).fill(nightsTested)) => {
    const { hardly, unseen } = nightsTold({ nightsTested, nights, nightsTestedByHour: byHour }, 0)
    return [unseen, hardly]
  }

  it('are told by the hours covered: thirty tests at 05:50 are not thirty nights tested', () => {
    expect(told(30, 30, [0, 0, 0, 0, 0, 30])).toEqual(['then', [{ hours: [0, 5], most: 0 }]])
    expect(told(20, 90, [4, 1, 3, 5, 9, 12])).toEqual(['then-and-on-others', [{ hours: [1, 2], most: 1 }]])
  })

  it('that were not tested hide lows', () => {
    expect(told(9, 90)).toEqual(['on-others', []])
    expect(told(0, 90)).toEqual(['there', []])
    expect(told(14, 14)).toEqual(['nowhere', []])
  })
})

describe('possible lows that are in no count', () => {
  const low = (line: number, why: NotCountedWhy = 'date', source = 0) => ({ source, line, why })

  it('are told by reason, in the order in which the reasons come first, each with its lines', () => {
    const groups = notCountedTold([low(9), low(14), low(3, 'control', 1), low(20)])
    expect(groups).toMatchObject([
      { why: 'date', n: 3, lines: [{ line: 9 }, { line: 14 }, { line: 20 }] },
      { why: 'control', n: 1, lines: [{ source: 1, line: 3 }] },
    ])
  })

  it('are counted where their lines would fill the page', () => {
    expect(notCountedTold([1, 2, 3, 4].map((line) => low(line)))).toEqual([{ why: 'date', n: 4, lines: [] }])
    expect(notCountedTold([])).toEqual([])
  })

  it('are told with their rows as these stand in the file, long ones aside, and without them where notes are not told', () => {
    const rows = ['2026-03-04,07:00,61,control solution', `2026-03-05,07:00,58,control solution ${'x'.repeat(80)}`]
    const days = Array.from({ length: 9 }, (_, i) => `2026-03-1${i},07:00,110,`)
    const outcome = openVisit([logOf(['Date,Time,Glucose (mg/dL),Note', ...rows, ...days].join('\n'))], {}, CONTEXT)
    if (outcome.kind !== 'analysed') throw new Error(outcome.kind)
    const groups = notCountedTold(outcome.analysis.periods[0].lows.notCounted)
    expect(groups).toMatchObject([{ why: 'control', n: 2, lines: [{ line: 2, row: rows[0] }, { line: 3 }] }])
    expect(JSON.stringify(groups)).not.toContain('xxx')
    expect(JSON.stringify(withoutRows(groups))).not.toContain('solution')
  }) // prettier-ignore
})
