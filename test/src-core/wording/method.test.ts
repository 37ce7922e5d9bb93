import { TOLD_LIMITS } from '../../../src-core/told/limits'
import { describe, expect, it } from 'vitest'
import { DEFAULT_SETTINGS, type Settings } from '../../../src-core/model/settings'
import { goalsTold } from '../../../src-core/told/goals'
import { CAUTIONS, definitions } from '../../../src-core/wording/english/method'
import { cautionsTold, definitionsTold } from '../../../src-core/told/method'

const definitionsOf = (settings: Partial<Settings> = {}) =>
  definitions(
    definitionsTold('finger-stick'),
    TOLD_LIMITS,
    { ...DEFAULT_SETTINGS, ...settings },
    goalsTold(DEFAULT_SETTINGS),
  )

const cautions = (kind: 'finger-stick' | 'sensor') => cautionsTold(kind).map((code) => CAUTIONS[code])

describe('the definitions', () => {
  it('name limits and target in the printed unit', () => {
    const text = (unit: 'mg/dL' | 'mmol/L') => JSON.stringify(definitionsOf({ unit }))
    expect(text('mg/dL')).toContain('Below 70 and below 54 mg/dL')
    expect(text('mg/dL')).toContain('Readings 70 to 180')
    expect(text('mmol/L')).toContain('Below 3.9 and below 3.0 mmol/L')
    expect(text('mmol/L')).toContain('Readings 3.9 to 10.0')
  })

  it('print the formulas of the estimated A1C as published', () => {
    // Nathan et al., Diabetes Care 2008;31:1473; Hoelzel et al., Clin Chem 2004;50:166.
    const a1c = definitionsOf().find(({ figure }) => figure === 'Estimated A1C')
    expect(a1c?.how).toContain('(mean in mg/dL + 46.7) / 28.7')
    expect(a1c?.how).toContain('(percent − 2.152) / 0.09148')
    expect(a1c?.source).toContain('Diabetes Care 2008;31:1473')
  })

  it('print thresholds and window that were used, not others', () => {
    const text = JSON.stringify(
      definitionsOf({
        doubtThreshold: 0.4,
        doubtThresholdLow: 0.8,
        repeatWindowMinutes: 7,
      }),
    )
    expect(text).toContain('reaches 40 in 100, for a low 80 in 100')
    expect(text).toContain('at most 7 minutes after one another')
  })

  it('print the factors by which repeats are summed up as the normal distribution has them', () => {
    // 0.6745 sqrt(2) = 0.954 and 1.96 sqrt(2) = 2.772 (Bland and Altman, BMJ 1996;313:744).
    const repeats = definitionsOf().find(({ figure }) => figure === 'How far two tests differ')
    expect((0.6745 * Math.SQRT2).toFixed(2)).toBe('0.95')
    expect((1.96 * Math.SQRT2).toFixed(2)).toBe('2.77')
    expect(repeats?.how).toContain('0.95 × CV')
    expect(repeats?.how).toContain('2.77 × CV')
  })

  it('say of a low that no doubt takes it out', () => {
    expect(JSON.stringify(definitionsOf())).toContain(
      'A low is counted whatever the doubt about it and never averaged with a repeat.',
    )
  })
})

describe('what the pages cannot tell', () => {
  it('is no basis for doses, and the laboratory’s A1C is not replaced', () => {
    for (const kind of ['finger-stick', 'sensor'] as const) {
      const text = cautions(kind).join(' ')
      expect(text).toContain('not a diagnosis and not a basis for changing insulin or other doses')
      expect(text).toContain('never replaces it')
      expect(text).toContain('trust the symptoms. If you feel low, treat first; otherwise test again at once')
    }
  })

  it('keeps a share of finger-sticks away from targets made for sensors', () => {
    const caution = 'a share of finger-sticks must not be compared with them'
    expect(cautions('finger-stick').join(' ')).toContain(caution)
    expect(cautions('sensor').join(' ')).not.toContain(caution)
  })
})
