import { describe, expect, it } from 'vitest'
import { DEFAULT_SETTINGS } from '../../../src-core/analysis/settings'
import { FLAG, hasFlag } from '../../../src-core/log/readings'
import { assessTechnique } from '../../../src-core/technique/assessTechnique'
import { checkedReadings } from '../../../src-core/technique/checkedReadings'
import { chronologicalOrder } from '../../../src-core/technique/chronology'
import {
  findTrials,
  pooledConditions,
  smallestVisiblePercent,
  withChangedConditions,
} from '../../../src-core/technique/trials'
import { pooledSentence } from '../../../src-core/wording/trials'
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

  it('sees no less than 14 % in one round and 8 % in three at a CV of 5 %', () => {
    // 1.96 x sqrt(2) x 5 = 13.859.
    expect(smallestVisiblePercent(0.05, 1)).toBeCloseTo(13.859, 3)
    expect(smallestVisiblePercent(0.05, 3)).toBeCloseTo(8.002, 3)
    expect(
      assess(MORNING.filter((_, i) => i !== 1 && i !== 4)).technique.trials[0].steps[0]
        .smallestVisiblePercent,
    ).toBeCloseTo(13.859, 3)
  })

  it('takes the mean of the washed tests before the first change; later ones are steps and show the drift', () => {
    const [{ baselineMgDl, steps }] = assess([
      ['10:00', 120, 'trial: washed and dried'],
      ['10:02', 124, 'trial: washed and dried, second test'],
      ['10:05', 119, 'trial: wet'],
      ['10:08', 128, 'trial: washed again'],
    ]).technique.trials
    expect(baselineMgDl).toBe(122)
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
    const [pooled, ...others] = pooledConditions(technique.trials, technique.repeatability)
    expect(others).toEqual([])
    expect(pooled).toMatchObject({ faults: ['wet-finger'], rounds: 3 })
    // 102/112, 101/111, 100/110.
    expect(pooled.meanDifferencePercent).toBeCloseTo((-100 * (10 / 112 + 10 / 111 + 10 / 110)) / 3, 9)
    // 1.96 x sqrt(2) x 5 % / sqrt(3), where the person's own repeatability is not known.
    expect(pooled.smallestVisiblePercent).toBeCloseTo(8.0017, 3)
    expect(pooledSentence(pooled)).toBe('a wet finger, 3 rounds: −9 % on average, an effect.')
  })

  it('is not pooled of one round', () => {
    expect(pooledConditions(technique.trials.slice(0, 1), technique.repeatability)).toEqual([])
  })
})
