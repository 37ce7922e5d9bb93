import { describe, expect, it } from 'vitest'
import { openVisit } from '../../../src-core/analysis/openVisit'
import { parseTargets, resolveTargets, type TargetRequest } from '../../../src-core/analysis/targets'
import { documentOf } from '../../helpers/pages'
import { CONTEXT, logOf } from '../../helpers/logs'

const VALUES = [53, 62, 63, 69, 70, 100, 140, 141, 180, 181, 250, 251]
const LOG = `Date,Time,Glucose (mg/dL)\n${VALUES.map((value, i) => `2026-03-02,${10 + i}:00,${value}`).join('\n')}\n`

function visit(targets?: TargetRequest) {
  const outcome = openVisit([logOf(LOG)], targets === undefined ? {} : { targets }, CONTEXT)
  if (outcome.kind !== 'analysed') throw new Error('the log was not read')
  return outcome.analysis
}

describe('a target range', () => {
  it('is read as two numbers, with point or comma, or as a group’s name', () => {
    expect(parseTargets('80..140')).toEqual({ low: 80, high: 140 })
    expect(parseTargets('4,4..7,8')).toEqual({ low: 4.4, high: 7.8 })
    expect(parseTargets('Pregnancy')).toBe('pregnancy')
    expect(parseTargets('older-adult')).toBe('older-adult')
  })

  it.each(['', 'young', '70', '70-180', '70..', '180..70', '70..70', '0..5000', '-70..180', '1e1..9e9'])(
    'is refused in words as ‘%s’',
    (text) => {
      expect(parseTargets(text)).toEqual({ wrong: expect.stringContaining('--targets') as string })
    },
  )

  it('is the consensus partner in the other unit, and any other value converted unrounded', () => {
    // Pairs: Battelino et al., Diabetes Care 2019;42:1593-1603; 1 mmol/L = 18.0156 mg/dL.
    expect(resolveTargets({ low: 3.9, high: 7.8 }, 'mmol/L')).toEqual({
      targetLow: { mgDl: 70, mmol: 3.9 },
      targetHigh: { mgDl: 140, mmol: 7.8 },
      targetPreset: null,
    })
    expect(resolveTargets({ low: 90, high: 180 }, 'mg/dL')).toEqual({
      targetLow: { mgDl: 90, mmol: 90 / 18.0156 },
      targetHigh: { mgDl: 180, mmol: 10 },
      targetPreset: null,
    })
  })

  it('in the unit that is not printed is told with both ways out', () => {
    const wrong = resolveTargets({ low: 3.9, high: 10 }, 'mg/dL')
    expect('wrong' in wrong && wrong.wrong).toMatch(/3\.9\.\.10 is no range in mg\/dL.*--unit mmol\/L/)
    expect('wrong' in resolveTargets({ low: 70, high: 180 }, 'mmol/L')).toBe(true)
    expect(openVisit([logOf(LOG)], { targets: { low: 3.9, high: 10 } }, CONTEXT).kind).toBe('wrong-targets')
  })
})

describe('the presets', () => {
  it('are those of the consensus: 63 to 140 in pregnancy, 70 to 180 for older adults', () => {
    // Battelino et al., Diabetes Care 2019;42:1593-1603.
    expect(resolveTargets('pregnancy', 'mmol/L')).toEqual({
      targetLow: { mgDl: 63, mmol: 3.5 },
      targetHigh: { mgDl: 140, mmol: 7.8 },
      targetPreset: 'pregnancy',
    })
    expect(resolveTargets('older-adult', 'mg/dL')).toMatchObject({
      targetLow: { mgDl: 70 },
      targetHigh: { mgDl: 180 },
      targetPreset: 'older-adult',
    })
  })
})

describe('the four fixed limits', () => {
  it('stay where they are; the share in target follows', () => {
    const usual = visit().periods[0].asLogged
    const pregnant = visit('pregnancy').periods[0].asLogged
    const { percentInTarget: before, ...fixed } = usual
    const { percentInTarget: after, ...same } = pregnant
    expect(same).toEqual(fixed)
    // 70, 100, 140, 141, 180 of twelve; then 63, 69, 70, 100, 140.
    expect(before).toBeCloseTo((100 * 5) / 12, 12)
    expect(after).toBeCloseTo((100 * 5) / 12, 12)
    expect(visit({ low: 100, high: 141 }).periods[0].asLogged.percentInTarget).toBe(25)
    expect(pregnant.percentBelow70).toBeCloseTo((100 * 4) / 12, 12)
  })
})

describe('the pages', () => {
  it('name the preset beside the large figure and in the definitions, and draw its lines', () => {
    const pages = JSON.stringify(documentOf(visit('pregnancy')))
    expect(pages).toContain('Readings 63 to 140')
    expect(pages).toContain('target in pregnancy')
    expect(pages).toContain('140 upper end of target')
    expect(pages).toContain('63 lower end of target')
    expect(pages).toContain('70 low')
    expect(pages).toContain('Target chosen: pregnancy')
    expect(JSON.stringify(documentOf(visit('older-adult')))).toContain('older adults and people at high risk')
    expect(JSON.stringify(documentOf(visit()))).not.toContain('Target chosen')
  })
})
