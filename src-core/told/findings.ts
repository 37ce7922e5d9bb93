import type { Analysis, PeriodFigures } from '../analysis/analysis'
import type { Facts, Finding } from '../findings/finding'
import type { LowsBeside } from '../findings/lowsBeside'
import type { Settings } from '../model/settings'
import type { LimitPair } from '../reference/limits'
import { marksOfLows } from './lows'
import { mealGoal } from '../reference/mealGoals'

/** A finding as it is told. */
export interface FindingTold {
  readonly facts: Facts
  /** The lows beside a high, in full once; null where there are none, or where nothing asks for more treatment. */
  readonly lowsBeside: LowsBeside | 'told-above' | null
  /** What mornings are held against. */
  readonly fasting: {
    readonly limit: LimitPair
    readonly goal: 'own' | 'own-in-pregnancy' | 'published' | 'in-pregnancy'
  }
}

/** Findings that stand under one another. */
export function findingsTold(findings: readonly Facts[], settings: Settings): readonly FindingTold[] {
  const first = findings.findIndex(tellsLows)
  const { ownGoal, targetHigh } = settings
  const pregnant = settings.targetPreset === 'pregnancy'
  const fasting = {
    limit: mealGoal('before-breakfast', settings)?.high ?? targetHigh,
    goal:
      ownGoal === null ? (pregnant ? 'in-pregnancy' : 'published') : pregnant ? 'own-in-pregnancy' : 'own',
  } as const
  return findings.map((facts, i) => ({
    facts,
    lowsBeside:
      !tellsLows(facts) || facts.evidence.readingsBelow70 === 0
        ? null
        : i > first
          ? 'told-above'
          : facts.evidence,
    fasting,
  }))
}

/** Whether a finding might ask for more treatment, so that it tells the lows beside it. */
function tellsLows(facts: Facts): facts is Facts & { readonly evidence: LowsBeside } {
  const { code, evidence } = facts
  return (
    code === 'highs-gather' ||
    code === 'fasting-above-goal' ||
    code === 'highs-at-end-of-vial' ||
    (code === 'overnight-change' && evidence.medianMgDl > 0) ||
    (code === 'trend' && evidence.perWeekMgDl > 0)
  )
}

/** Findings that count lows. */
const OF_LOWS: ReadonlySet<Facts['code']> = new Set(['lows-gather', 'lows-in-runs', 'lows-with-activity'])

/** Findings whose question is about lows. */
const ASK_OF_LOWS: ReadonlySet<Facts['code']> = new Set([
  ...OF_LOWS,
  'lows-after-contradicted-highs',
  'high-mornings-after-low-nights',
  'highs-after-lows',
])

/** Whether there are lows of which no finding asks. */
export function lowsLeftToAsk({ lows, findings }: Pick<PeriodFigures, 'lows' | 'findings'>): boolean {
  return lows.readingsBelow70 > 0 && !findings.some(({ code }) => ASK_OF_LOWS.has(code))
}

/** Which findings rest on doubtful readings, by their numbers from 1. */
export interface FindingsDoubt {
  readonly n: number
  /** Those that are about them first. */
  readonly rest: readonly { readonly how: Rests; readonly numbers: readonly number[] }[]
  /** Whether there are others beside those about them, of which none rests on one. */
  readonly noneOfTheOthers: boolean
  /** The doubtful lows, which count all the same, where a finding counts lows. */
  readonly lows: Marks | null
  /** Whether any has in brackets how well it is known. */
  readonly brackets: boolean
}

export type Rests = Exclude<Finding['withoutDoubtful'], 'stays'>
const WAYS: readonly Rests[] = ['about-them', 'disappears', 'changes']

interface Marks {
  readonly marked: number
  readonly bracketed: number
}

export function doubtOfFindings(analysis: Analysis, { findings, lows }: PeriodFigures): FindingsDoubt {
  const doubtfulLows = marksOfLows(analysis, lows)
  const rest = WAYS.map((how) => ({
    how,
    numbers: findings.flatMap(({ withoutDoubtful }, i) => (withoutDoubtful === how ? [i + 1] : [])),
  })).filter(({ numbers }) => numbers.length > 0)
  return {
    n: findings.length,
    rest,
    noneOfTheOthers: rest.length === 1 && rest[0].how === 'about-them' && findings.length > 1,
    lows:
      doubtfulLows.marked + doubtfulLows.bracketed > 0 && findings.some(({ code }) => OF_LOWS.has(code))
        ? doubtfulLows
        : null,
    brackets: findings.some(({ code }) => code !== 'lows-after-contradicted-highs'),
  }
}
