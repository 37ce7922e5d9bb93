import { describe, expect, it } from 'vitest'
import { DEFAULT_SETTINGS } from '../../../src-core/model/settings'
import { FLAG, hasFlag } from '../../../src-core/log/readings'
import { assessTechnique } from '../../../src-core/technique/assessTechnique'
import { checkedReadings } from '../../../src-core/technique/checkedReadings'
import { chronologicalOrder } from '../../../src-core/technique/chronology'
import { findTrials, pooledConditions, withChangedConditions } from '../../../src-core/technique/trials'
import { pooledSentence } from '../../../src-core/wording/english/trials'
import { readingsOf, row } from '../analysis/readingsOf'

type Test = readonly [time: string, value: number, note: string]

function assess(tests: readonly Test[]) {
  const logged = readingsOf(tests.map(([time, value, note]) => row(`2026-03-08 ${time}`, value, { note })))
  const order = chronologicalOrder(logged)
  const trials = findTrials(logged, order)
  const readings = withChangedConditions(logged, trials)
  return { logged, readings, technique: assessTechnique(readings, order, DEFAULT_SETTINGS, { trials }) }
}

// Common practice, from memory: beside 119 mg/dL with washed hands, tests of wet, squeezed and other fingers and of a second
// meter stay within what the standard allows; juice on the finger does not.
const MORNING: readonly Test[] = [
  ['10:00', 119, 'washed hands'],
  ['10:03', 121, 'second meter'],
  ['10:06', 113, 'wet finger'],
  ['10:09', 108, 'squeezed'],
  ['10:12', 110, 'other finger'],
  ['10:15', 180, 'juice on finger'],
]

describe('a technique trial', () => {
  const { readings, technique } = assess(MORNING)
  const [trial] = technique.trials

  it('sets each step beside the washed baseline', () => {
    expect(technique.trials).toHaveLength(1)
    expect(trial.baselineMgDl).toBe(119)
    expect(trial.steps.map(({ label, withinTolerance }) => [label, withinTolerance])).toEqual([
      ['second meter', true],
      ['wet finger', true],
      ['squeezed', true],
      ['other finger', true],
      ['juice on finger', false],
    ])
    // 61 / 119.
    expect(trial.steps[4].differencePercent).toBeCloseTo(51.2605, 4)
  })

  it('marks the changed steps alone', () => {
    const marked = MORNING.map((_, i) => hasFlag(readings, i, FLAG.changedConditions))
    expect(marked).toEqual([false, false, true, true, false, true])
  })

  it('forms no repeat sets of them and keeps them out of the checked readings', () => {
    const members = technique.repeatSets.map((set) => set.members.map((index) => readings.mgDl[index]))
    expect(members).toEqual([[119, 121, 110]])
    const checked = checkedReadings(readings, technique)
    expect(checked.n).toBe(1)
    expect(checked.mgDl[0]).toBeCloseTo((119 + 121 + 110) / 3, 8)
  })

  it('sees no less than 14 % in one round where the person’s own scatter is not known', () => {
    // 1.96 x 5 x sqrt(1 + 1) = 13.8593.
    expect(
      assess(MORNING.filter((_, i) => i !== 1 && i !== 4)).technique.trials[0].steps[0]
        .smallestVisiblePercent,
    ).toBeCloseTo(13.8592929113, 9)
  })

  it('puts the rounds of a condition together, beside a baseline that moves towards the closing test', () => {
    const [{ baselineMgDl, closingMgDl, steps }] = assess([
      ['10:00', 100, 'washed'],
      ['10:05', 90, 'wet finger'],
      ['10:10', 99, 'washed again'],
      ['10:15', 98, 'wet finger'],
      ['10:20', 120, 'washed again'],
    ]).technique.trials
    expect([baselineMgDl, closingMgDl]).toEqual([100, 120])
    const [wet, between] = steps
    // The baseline stands at 105 and 115 when the finger was wet, at 110 between; worked by hand.
    expect(wet.indexes).toHaveLength(2)
    expect([wet.mgDl, wet.baselineMgDl]).toEqual([94, 110])
    expect(wet.differencePercent).toBeCloseTo((-100 * 16) / 110, 10)
    expect(wet.smallestVisiblePercent).toBeCloseTo(100 * 1.96 * 0.05 * Math.sqrt(1 / 2 + 1), 9)
    expect(wet.effect).toBe(true)
    expect([between.changed, between.effect, between.baselineMgDl]).toEqual([false, false, 110])
  })

  it('is judged by the person’s own repeats outside trials, with Student’s t, corrected for all its conditions', () => {
    // Five sets of two that differ by exp(0.06 x sqrt(2)): their pooled CV is 6 % with 5 degrees of freedom.
    const sets = Array.from({ length: 5 }, (_, i) => [
      [`1${i}:30`, 100, ''] as const,
      [`1${i}:32`, 100 * Math.exp(0.06 * Math.SQRT2), ''] as const,
    ]).flat()
    const of = (changed: readonly Test[]) =>
      assess([['09:00', 100, 'washed'], ['09:02', 100, 'washed'], ...changed, ...sets]).technique
    const { ownScatter, trials } = of([['09:05', 80, 'wet finger']])
    expect(ownScatter?.df).toBe(5)
    expect(ownScatter?.cv).toBeCloseTo(0.06, 12)
    // R 4.2.2: 100 * qt(0.975, 5) * 0.06 * sqrt(1 + 1/2) = 18.88984; the p of 20 % is 0.041693.
    expect(trials[0].steps[0].smallestVisiblePercent).toBeCloseTo(18.8898415, 5)
    expect(trials[0].steps[0].effect).toBe(true)
    // With a second condition the same 20 % has 2 x 0.041693 = 0.083.
    const [two] = of([
      ['09:05', 80, 'wet finger'],
      ['09:08', 101, 'squeezed'],
    ]).trials
    expect(two.steps.map(({ effect }) => effect)).toEqual([false, false])
  })

  it('takes the mean of the washed tests before the first change; later ones are steps and show the drift', () => {
    const [{ baselineMgDl, closingMgDl, steps }] = assess([
      ['10:00', 120, 'trial: washed and dried'],
      ['10:02', 124, 'trial: washed and dried, second test'],
      ['10:05', 119, 'trial: wet'],
      ['10:08', 128, 'trial: washed again'],
    ]).technique.trials
    expect([baselineMgDl, closingMgDl]).toEqual([122, 128])
    expect(steps.map(({ label, changed }) => [label, changed])).toEqual([
      ['wet', true],
      ['washed again', false],
    ])
  })

  it('keeps a low step among the checked readings', () => {
    const { readings: marked, technique: told } = assess([
      ['10:00', 80, 'washed'],
      ['10:03', 66, 'wet finger'],
    ])
    const checked = checkedReadings(marked, told)
    expect(Array.from({ length: checked.n }, (_, i) => checked.mgDl[i])).toEqual([80, 66])
  })
})

describe('no technique trial', () => {
  it.each<{ why: string; tests: readonly Test[] }>([
    {
      why: 'the change came more than half an hour later',
      tests: [
        ['10:00', 119, 'washed'],
        ['10:31', 180, 'juice on finger'],
      ],
    },
    {
      why: 'there is no baseline',
      tests: [
        ['10:00', 119, ''],
        ['10:05', 180, 'juice on finger'],
      ],
    },
    {
      why: 'nothing was changed',
      tests: [
        ['10:00', 119, 'washed'],
        ['10:05', 121, 'washed again'],
      ],
    },
    {
      why: 'a reading was checked with washed hands: a repeat',
      tests: [
        ['10:00', 180, 'unwashed'],
        ['10:03', 119, 'washed'],
      ],
    },
    {
      why: 'it began with a low',
      tests: [
        ['10:00', 62, 'washed'],
        ['10:05', 109, 'juice on finger'],
      ],
    },
    {
      why: 'juice was drunk',
      tests: [
        ['10:00', 75, 'washed'],
        ['10:15', 110, 'drank juice'],
      ],
    },
  ])('where $why', ({ tests }) => {
    const { logged, readings, technique } = assess(tests)
    expect(technique.trials).toEqual([])
    expect(readings).toBe(logged)
  })

  it('just as half an hour ends it still is one', () => {
    expect(
      assess([
        ['10:00', 119, 'washed'],
        ['10:30', 180, 'juice on finger'],
      ]).technique.trials,
    ).toHaveLength(1)
  })
})

describe('a condition tried on several days', () => {
  const days = [
    ['08:00', 120, 'washed hands'],
    ['08:03', 110, 'wet finger'],
  ] as const
  const rows = [8, 9, 10].flatMap((day) =>
    days.map(([time, value, note]) =>
      row(`2026-03-${String(day).padStart(2, '0')} ${time}`, value - day, { note }),
    ),
  )
  const logged = readingsOf(rows)
  const order = chronologicalOrder(logged)
  const trials = findTrials(logged, order)
  const readings = withChangedConditions(logged, trials)
  const technique = assessTechnique(readings, order, DEFAULT_SETTINGS, { trials })

  it('is pooled over its rounds: the mean difference, and what so many rounds can see', () => {
    const [pooled, ...others] = pooledConditions(technique.trials, technique.ownScatter)
    expect(others).toEqual([])
    expect(pooled).toMatchObject({ faults: ['wet-finger'], rounds: 3 })
    // 102/112, 101/111, 100/110.
    expect(pooled.meanDifferencePercent).toBeCloseTo((-100 * (10 / 112 + 10 / 111 + 10 / 110)) / 3, 9)
    // 1.96 x sqrt(2) x 5 % / sqrt(3), where the person's own repeatability is not known.
    expect(pooled.smallestVisiblePercent).toBeCloseTo(8.0017, 3)
    expect(pooledSentence(pooled)).toBe('a wet finger, 3 rounds: −9 % on average, an effect.')
  })

  it('is not pooled of one round', () => {
    expect(pooledConditions(technique.trials.slice(0, 1), technique.ownScatter)).toEqual([])
  })
})
