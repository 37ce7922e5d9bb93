import { describe, expect, it } from 'vitest'
import { DEFAULT_SETTINGS, type Settings } from '../../../src-core/model/settings'
import { goalsTold } from '../../../src-core/told/goals'
import { goalsSentence } from '../../../src-core/wording/english/meals'

const goals = (settings: Partial<Settings>) => goalsTold({ ...DEFAULT_SETTINGS, ...settings })
const ownGoal = { low: { mgDl: 90, mmol: 5 }, high: { mgDl: 150, mmol: 8.3 } }
const ofPublished = (settings: Partial<Settings>) =>
  goals(settings).flatMap((told) => (told.code === 'published' ? told.goals.map(({ at }) => at) : []))

// American Diabetes Association, Standards of Care 2024, sections 6, 13 and 15.
describe('the goals by meal', () => {
  it('are those published for the person, told with what is published for no meal', () => {
    expect(ofPublished({})).toEqual(['before-meals', 'after-meals'])
    expect(ofPublished({ targetPreset: 'pregnancy' })).toEqual(['fasting', 'one-hour-after-meals'])
    expect(ofPublished({ targetPreset: 'frail' })).toEqual(['before-meals', 'bedtime'])
    expect(goals({ targetPreset: 'frail' }).map(({ code }) => code)).toEqual([
      'published',
      'none-after-meals',
      'own-may-differ',
    ])
  })

  it('before meals give way to the person’s own', () => {
    expect(goals({ ownGoal })[0]).toEqual({ code: 'own', goal: ownGoal })
    expect(ofPublished({ ownGoal })).toEqual(['after-meals'])
    expect(goals({ ownGoal }).map(({ code }) => code)).not.toContain('own-may-differ')
  })

  it('are none where a target of the person’s own says that those of most may not fit', () => {
    const own = { targetHigh: { mgDl: 160, mmol: 8.9 } }
    expect(goals(own)).toEqual([{ code: 'none-fits' }])
    expect(goals({ ...own, ownGoal })).toEqual([{ code: 'own', goal: ownGoal }])
  })

  it('in pregnancy stand in one sentence', () => {
    expect(goalsSentence(goals({ targetPreset: 'pregnancy' }), 'mg/dL')).toBe(
      'Published goals for finger-sticks in pregnancy: fasting 70 to 95, up to 140 one hour after the start of the meal ' +
        '(120 at two hours). The person’s own may differ.',
    )
  })
})
