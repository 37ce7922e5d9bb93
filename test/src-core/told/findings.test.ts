import { describe, expect, it } from 'vitest'
import type { Finding } from '../../../src-core/findings/finding'
import { DEFAULT_SETTINGS } from '../../../src-core/model/settings'
import { doubtOfFindings, findingsTold } from '../../../src-core/told/findings'
import { analysisOf } from '../../helpers/analysisFixture'
import { doubtOfFindings as doubtSentence } from '../../../src-core/wording/english/findings'

const ANALYSIS = analysisOf([{ at: '2026-03-02 07:00', value: 120 }])
const share = { count: 9, n: 20, ci95Percent: [25, 66] } as const
const high = (readingsBelow70: number, withoutDoubtful: Finding['withoutDoubtful'] = 'stays') =>
  ({
    code: 'highs-gather',
    evidence: {
      parts: [],
      elsewhere: share,
      readingsBelow70,
      readingsBelow70AtNight: 0,
    },
    adjustedP: 0.01,
    withoutDoubtful,
  }) as unknown as Finding
const trend = (perWeekMgDl: number) =>
  ({ code: 'trend', evidence: { perWeekMgDl, readingsBelow70: 3, readingsBelow70AtNight: 0 } }) as Finding

const besideOf = (...findings: Finding[]) =>
  findingsTold(findings, DEFAULT_SETTINGS).map(({ lowsBeside }) =>
    lowsBeside === null || lowsBeside === 'told-above' ? lowsBeside : lowsBeside.readingsBelow70,
  )

describe('the lows beside findings', () => {
  it('are told with what might ask for more treatment, in full once', () => {
    expect(besideOf(high(4))).toEqual([4])
    expect(besideOf(high(4), trend(5))).toEqual([4, 'told-above'])
  })

  it('are not told where there are none, or with a fall', () => {
    expect(besideOf(high(0))).toEqual([null])
    expect(besideOf(trend(-5), high(4))).toEqual([null, 4])
  })
})

describe('which findings rest on doubtful readings', () => {
  const doubt = (...fates: Finding['withoutDoubtful'][]) =>
    doubtOfFindings(ANALYSIS, { ...ANALYSIS.periods[0], findings: fates.map((fate) => high(0, fate)) })

  it('is told by their numbers', () => {
    expect(doubt('stays', 'disappears', 'changes', 'disappears').rest).toEqual([
      { how: 'disappears', numbers: [2, 4] },
      { how: 'changes', numbers: [3] },
    ])
    expect(doubt('stays')).toMatchObject({ rest: [], lows: null })
  })

  it('says of the others that none does only beside those about them', () => {
    expect(doubt('about-them', 'stays').noneOfTheOthers).toBe(true)
    expect(doubt('about-them').noneOfTheOthers).toBe(false)
    expect(doubt('about-them', 'changes').noneOfTheOthers).toBe(false)
    expect(doubt('stays', 'stays').noneOfTheOthers).toBe(false)
  })

  it('is told in whole sentences', () => {
    expect(doubtSentence(doubt('about-them', 'stays'))).toBe(
      'Finding 1 is about doubtful readings. None of the others rests on one. In brackets: how well the figure is known, 95 in 100.',
    )
  })
})
