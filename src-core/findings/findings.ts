import type { Keep } from '../analysis/keep'
import type { Settings } from '../analysis/settings'
import type { Lows } from '../day/lows'
import { type ByMeal, tellsMeals } from '../day/meals'
import { isLow, type Readings } from '../log/readings'
import { benjaminiHochberg } from '../statistics/benjaminiHochberg'
import { randomSource } from '../statistics/randomSource'
import type { Technique } from '../technique/technique'
import { trendOverPeriod, weekendsDiffer } from './dayToDay'
import { fastingAboveGoal } from './fastingAboveGoal'
import type { DayPart, Facts, Finding, WithoutDoubtful } from './finding'
import { highsGather } from './highsGather'
import type { Look, Question } from './look'
import { lowsAfterHighs } from './lowsAfterHighs'
import { lowsGather } from './lowsGather'
import { lowsInRuns } from './lowsInRuns'
import { mealRisesMost } from './mealRisesMost'
import { roundValues } from './roundValues'

/** More than these nobody keeps in mind. */
export const MOST_FINDINGS = 5
/** Share of what is said that may be chance. */
export const FALSE_FINDINGS = 0.05
/** Stream of the seed's numbers that these draws use. */
const STREAM = 71

/** What is asked, in the order in which answers matter to the clinic: lows first. */
const QUESTIONS: readonly ((look: Look) => Question | null)[] = [
  lowsGather,
  lowsInRuns,
  highsGather,
  fastingAboveGoal,
  mealRisesMost,
  trendOverPeriod,
  weekendsDiffer,
  roundValues,
]

export interface FindingsQuery {
  readonly readings: Readings
  readonly technique: Technique
  readonly settings: Settings
  /** The period's readings, `[start, end)`, those with a bit of `leaveOut` apart. */
  readonly start: number
  readonly end: number
  readonly leaveOut: number
  readonly kind: 'finger-stick' | 'sensor'
  readonly byMeal: ByMeal
  readonly lows: Lows
  readonly keep: Keep
}

/**
 * What stands out among a period's finger-sticks, at most five findings, lows first. All tests of a period are
 * adjusted together, so that of what is said at most one in twenty is expected to be chance. None of a sensor's:
 * its readings, minutes apart, are no independent witnesses. The same readings give the same findings.
 */
export function findFindings(query: FindingsQuery): readonly Finding[] {
  if (query.kind === 'sensor') return []
  const { readings, technique, lows, byMeal, settings, start, end, leaveOut, keep } = query
  const all: number[] = []
  for (let i = start; i < end; i++) if (!(readings.flags[i] & leaveOut)) all.push(i)
  const of = [readings, settings, start, end, leaveOut, byMeal]
  const told = keep('findings', of, () => factsIn(lookAt(query, all, byMeal)))
  const doubtful = new Set(technique.doubtful.map(({ index }) => index))
  // A low always counts, also a doubtful one.
  const sound = all.filter((i) => !doubtful.has(i) || isLow(readings, i))
  const without =
    sound.length === all.length
      ? told
      : keep('findings without the doubtful', [...of, sound], () => factsIn(lookAt(query, sound, byMeal)))
  const afterHighs = lowsAfterHighs(readings, technique, lows, query)
  const findings: Finding[] = told.map(({ facts, adjustedP }) => ({
    ...facts,
    adjustedP,
    withoutDoubtful: fate(
      facts,
      without.map((other) => other.facts),
    ),
  }))
  return [
    ...(afterHighs ? [{ ...afterHighs, adjustedP: null, withoutDoubtful: 'about-them' as const }] : []),
    ...findings,
  ].slice(0, MOST_FINDINGS)
}

function lookAt({ readings, settings }: FindingsQuery, indexes: readonly number[], byMeal: ByMeal): Look {
  const kept = new Set(indexes)
  return {
    readings,
    indexes,
    settings,
    tellsMeals: tellsMeals(byMeal),
    pairs: byMeal.pairs.filter(({ before, after }) => kept.has(before) && kept.has(after)),
    random: randomSource(settings.seed, STREAM),
  }
}

interface Told {
  readonly facts: Facts
  readonly adjustedP: number | null
}

function factsIn(look: Look): readonly Told[] {
  const questions = QUESTIONS.map((ask) => ask(look)).filter((question) => question !== null)
  const adjusted = benjaminiHochberg(questions.flatMap(({ ps }) => ps))
  let at = 0
  const told: Told[] = []
  for (const question of questions) {
    const own = adjusted.slice(at, (at += question.ps.length))
    const facts = question.answer(own.map((p) => p <= FALSE_FINDINGS))
    if (facts !== null) told.push({ facts, adjustedP: own.length === 0 ? null : Math.min(...own) })
  }
  return withoutRepetition(told, look.settings)
}

/** What follows from a finding before it is not said again. */
function withoutRepetition(told: readonly Told[], { targetPreset }: Settings): readonly Told[] {
  const highs = told.map(({ facts }) => facts).find(({ code }) => code === 'highs-gather')
  if (highs?.code !== 'highs-gather') return told
  const at = new Set(highs.evidence.parts.map(partKey))
  return told.filter(({ facts }) => {
    // The goal of pregnancy lies far below its target: most mornings above the one are none above the other.
    if (facts.code === 'fasting-above-goal')
      return targetPreset === 'pregnancy' || !at.has('before-breakfast')
    return facts.code !== 'meal-rises-most' || !at.has(`after-${facts.evidence.meal}`)
  })
}

function partKey(part: DayPart): string {
  return 'moment' in part ? part.moment : String(part.fromHour)
}

function fate(facts: Facts, without: readonly Facts[]): WithoutDoubtful {
  const same = without.find(({ code }) => code === facts.code)
  if (same === undefined) return 'disappears'
  const left = subjects(same)
  return subjects(facts).every((subject) => left.includes(subject)) ? 'stays' : 'changes'
}

/** What a finding is about, counts apart. */
function subjects(facts: Facts): readonly string[] {
  if (facts.code === 'lows-gather' || facts.code === 'highs-gather') return facts.evidence.parts.map(partKey)
  if (facts.code === 'meal-rises-most') return [facts.evidence.meal]
  if (facts.code === 'trend') return [String(Math.sign(facts.evidence.perWeekMgDl))]
  if (facts.code === 'weekends-differ') return [String(Math.sign(facts.evidence.shiftMgDl))]
  return []
}
