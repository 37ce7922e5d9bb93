import { describe, expect, it } from 'vitest'
import { openVisit } from '../../../src-core/analysis/openVisit'
import {
  parseGoal,
  parseTargets,
  resolveGoal,
  resolveTargets,
  type TargetRequest,
} from '../../../src-core/analysis/targets'
import type { Settings } from '../../../src-core/model/settings'
import { figuresView } from '../../../src-core/bridge/figuresView'
import { pictureScreen } from '../../../src-core/bridge/pictureScreen'
import { LIMITS } from '../../../src-core/reference/limits'
import { terminalSummary } from '../../../src-core/report/terminalSummary'
import { analysisOf, inventedLog } from '../../helpers/analysisFixture'
import { documentOf } from '../../helpers/pages'
import { CONTEXT, logOf } from '../../helpers/logs'
import { messageText } from '../../../src-core/wording/message'
import { wrongRangeMessage, wrongRangeUnitMessage } from '../../../src-core/wording/english/targets'
import { ENGLISH } from '../../../src-core/wording/english'

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
    expect(parseTargets('frail')).toBe('frail')
  })

  it.each([
    ['', 'form'],
    ['young', 'form'],
    ['70', 'form'],
    ['70-180', 'form'],
    ['70..', 'form'],
    ['180..70', 'order'],
    ['70..70', 'order'],
    ['0..5000', 'size'],
    ['-70..180', 'form'],
    ['1e1..9e9', 'form'],
  ])('is refused as ‘%s’ for its %s', (text, fault) => {
    expect(parseTargets(text)).toEqual({ fault })
  })

  it('that is refused is told with the text, its option and how to write it', () => {
    for (const option of ['--targets', '--goal'] as const) {
      const told = (['form', 'order', 'size'] as const).map((fault) =>
        wrongRangeMessage(option, '1..2', fault),
      )
      expect(new Set(told).size).toBe(3)
      for (const text of told)
        expect(text).toMatch(new RegExp(`^${option}: .*'1\\.\\.2'.* Write ${option} \\d`))
    }
  })

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
    if (!('wrong' in wrong)) throw new Error('it was taken')
    const told = wrongRangeUnitMessage(wrong.wrong, 'mg/dL')
    expect(messageText(told, 'terminal')).toMatch(
      /3\.9 to 10 is not a range in mg\/dL.*--targets.*--unit mmol\/L/,
    )
    expect(messageText(told, 'window')).toMatch(/3\.9 to 10 is not a range in mg\/dL.*choose the other unit/)
    expect('wrong' in resolveTargets({ low: 70, high: 180 }, 'mmol/L')).toBe(true)
    expect(openVisit([logOf(LOG)], { targets: { low: 3.9, high: 10 } }, CONTEXT).kind).toBe('wrong-targets')
  })
})

describe('a goal of the person’s own', () => {
  it('is read as two numbers; a group’s name is none', () => {
    expect(parseGoal('90..150')).toEqual({ low: 90, high: 150 })
    expect(['frail', '150..90', '90', '0..9999'].map(parseGoal)).toEqual([
      { fault: 'form' },
      { fault: 'order' },
      { fault: 'form' },
      { fault: 'size' },
    ])
  })

  it('is the partner of a published goal in the other unit, and any other value converted unrounded', () => {
    // Pairs: American Diabetes Association, Standards of Care 2024, sections 6, 13 and 15.
    expect(resolveGoal({ low: 6.1, high: 11.1 }, 'mmol/L')).toEqual({
      low: { mgDl: 110, mmol: 6.1 },
      high: { mgDl: 200, mmol: 11.1 },
    })
    expect(resolveGoal({ low: 85, high: 95 }, 'mg/dL')).toEqual({
      low: { mgDl: 85, mmol: 85 / 18.0156 },
      high: { mgDl: 95, mmol: 5.3 },
    })
  })

  it('in the unit that is not printed is told with both ways out', () => {
    expect(openVisit([logOf(LOG)], { goal: { low: 5, high: 8.3 } }, CONTEXT)).toEqual({
      kind: 'wrong-targets',
      wrong: { of: 'goal', request: { low: 5, high: 8.3 } },
      unit: 'mg/dL',
    })
    const told = wrongRangeUnitMessage({ of: 'goal', request: { low: 5, high: 8.3 } }, 'mg/dL')
    expect(messageText(told, 'terminal')).toMatch(
      /5 to 8\.3 is not a range in mg\/dL.*--goal.*--unit mmol\/L/,
    )
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
    const pages = JSON.stringify(documentOf(visit('pregnancy'), { wholeMethod: true }))
    expect(pages).toContain('Readings 63 to 140')
    expect(pages).toContain('target in pregnancy')
    expect(pages).toContain('140 upper end of target')
    expect(pages).toContain('63 lower end of target')
    expect(pages).toContain('70 low')
    expect(pages).toContain('Target chosen: pregnancy')
    expect(JSON.stringify(documentOf(visit('older-adult'), { wholeMethod: true }))).toContain(
      'older adults and people at high risk',
    )
    expect(JSON.stringify(documentOf(visit(), { wholeMethod: true }))).not.toContain('Target chosen')
  })
})

describe('the goals printed', () => {
  const rows = inventedLog({ days: 30 })
  const pages = (settings: Partial<Settings>) => JSON.stringify(documentOf(analysisOf(rows, { settings })))

  it('are those of the person: none of most adults’ for an older one', () => {
    for (const targetPreset of ['older-adult', 'frail', 'pregnancy'] as const) {
      const printed = pages({ targetPreset })
      expect(printed).not.toContain('80–130')
      expect(printed).not.toContain('80 to 130')
    }
    expect(pages({})).toContain('80–130')
    const older = pages({ targetPreset: 'older-adult' })
    expect(older).toContain('before meals 90 to 150, at bedtime 100 to 180')
    expect(older).toContain('None is published for after meals.')
    expect(older).not.toContain('below 180"')
    expect(pages({ targetPreset: 'frail' })).toContain('before meals 100 to 180, at bedtime 110 to 200')
  })

  it('are the person’s own where they are told, and leave no column where none fits', () => {
    const ownGoal = { low: { mgDl: 100, mmol: 5.6 }, high: { mgDl: 160, mmol: 160 / 18.0156 } }
    const own = pages({ ownGoal })
    expect(own).toContain('The person’s own goal before meals: 100 to 160.')
    expect(own).toContain('100–160')
    expect(own).not.toContain('80–130')
    const none = pages({ targetLow: LIMITS.pregnancyHigh, targetHigh: LIMITS.veryHigh })
    expect(none).not.toContain('within goal')
    expect(none).toContain('published goals may not fit, so none is printed')
  })

  it('go without an estimated A1C in pregnancy, and with what pregnancy does to it', () => {
    const { figures, large, summary } = shown({ targetPreset: 'pregnancy' })
    const estimate = large.find(({ label }) => label.startsWith('Estimated A1C'))
    expect(estimate).toMatchObject({ value: '–', small: expect.stringContaining('in pregnancy') as string })
    const row = figures.rows.find(({ name }) => name.startsWith('Estimated A1C'))
    expect(row).toMatchObject({ asLogged: '–', checked: '–' })
    expect(figures.remarks.join(' ')).toContain('in pregnancy')
    expect(summary).toMatch(/Estimated A1C: not shown: in pregnancy/)
    expect(shown({}).large.at(-1)?.small).not.toContain('pregnancy')
  })

  function shown(settings: Partial<Settings>) {
    const analysis = analysisOf(rows, { settings })
    return {
      figures: figuresView(ENGLISH, analysis, analysis.periods[0]),
      large: pictureScreen(ENGLISH, analysis).large,
      summary: terminalSummary(ENGLISH, analysis, []).join('\n'),
    }
  }
})
