import type { Keep } from '../model/keep'
import type { Settings } from '../model/settings'
import type { Lows } from '../day/lows'
import { type ByMeal, tellsMeals } from '../day/meals'
import type { Kit } from '../kit/kit'
import type { LogEntry } from '../log/entries'
import { isLow, type Readings } from '../log/readings'
import { holm } from '../statistics/holm'
import type { Technique } from '../technique/technique'
import { trendOverPeriod, weekendsDiffer } from './dayToDay'
import { endOfVial } from './endOfVial'
import { fastingAboveGoal } from './fastingAboveGoal'
import type { DayPart, Facts, Finding, WithoutDoubtful } from './finding'
import { highAfterLow } from './highAfterLow'
import { highsGather, smallestVisibleRise, type VisibleRise } from './highsGather'
import type { Look, Question } from './look'
import { lowsAfterHighs } from './lowsAfterHighs'
import { lowsGather } from './lowsGather'
import { lowsInRuns } from './lowsInRuns'
import { lowsWithActivity } from './lowsWithActivity'
import { mealRisesMost } from './mealRisesMost'
import { metersByHour } from './metersByHour'
import { morningAfterLow } from './morningAfterLow'
import { overnight } from './overnight'
import { roundValues } from './roundValues'

/** More than these nobody keeps in mind. */
export const MOST_FINDINGS = 5
/** Chance that anything at all is said of a log that holds nothing of the kind. */
export const FALSE_FINDINGS = 0.05

/** What is asked, in the order in which answers matter to the clinic: lows first. */
const QUESTIONS: readonly ((look: Look) => Question | null)[] = [
  lowsGather,
  lowsInRuns,
  lowsWithActivity,
  morningAfterLow,
  highAfterLow,
  highsGather,
  fastingAboveGoal,
  overnight,
  mealRisesMost,
  trendOverPeriod,
  weekendsDiffer,
  endOfVial,
  metersByHour,
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
  readonly entries: readonly LogEntry[]
  readonly kit: Kit
  readonly keep: Keep
}

export interface Found {
  readonly findings: readonly Finding[]
  /** Where nothing is found: the smallest rise of a part of the day that would have been; null where none would. */
  readonly visibleRise: VisibleRise | null
}

/**
 * What stands out among a period's finger-sticks, at most five findings, lows first. All tests of a period are adjusted
 * together, so that of a log that holds nothing of the kind anything is said once in twenty times. None of a sensor's:
 * its readings, minutes apart, are no independent witnesses. The same readings give the same findings.
 */
export function findFindings(query: FindingsQuery): Found {
  if (query.kind === 'sensor') return { findings: [], visibleRise: null }
  const { readings, technique, byMeal, settings, entries, kit, start, end, leaveOut, keep } = query
  const all: number[] = []
  for (let i = start; i < end; i++) if (!(readings.flags[i] & leaveOut)) all.push(i)
  const of = [readings, settings, entries, kit, start, end, leaveOut, byMeal]
  const look = lookAt(query, all)
  const asked = keep('findings', of, () => askedOf(look))
  // Of doubtful readings: a decision touches it.
  const questions = [lowsAfterHighs(look), ...asked]
  const told = factsOf(questions, settings)
  const doubtful = new Set(technique.doubtful.map(({ index }) => index))
  // A low always counts, also a doubtful one.
  const sound = all.filter((i) => !doubtful.has(i) || isLow(readings, i))
  const without =
    sound.length === all.length
      ? told
      : factsOf(
          keep('sound-findings', [...of, sound], () => askedOf(lookAt(query, sound))),
          settings,
        )
  const findings = told
    .map(({ facts, adjustedP }) => ({
      ...facts,
      adjustedP,
      withoutDoubtful: fate(
        facts,
        without.map((other) => other.facts),
      ),
    }))
    .slice(0, MOST_FINDINGS)
  // Where highs were too few to ask about them, they would have been one question more.
  const tested = questions.filter((question) => question !== null && question.ps.length > 0).length
  const visibleRise =
    findings.length > 0
      ? null
      : keep('visible rise', [...of, tested], () => smallestVisibleRise(look, tested + 1, FALSE_FINDINGS))
  return { findings, visibleRise }
}

function lookAt(query: FindingsQuery, indexes: readonly number[]): Look {
  const kept = new Set(indexes)
  const { byMeal } = query
  return {
    ...query,
    indexes,
    tellsMeals: tellsMeals(byMeal),
    pairs: byMeal.pairs.filter(({ before, after }) => kept.has(before) && kept.has(after)),
  }
}

function askedOf(look: Look): readonly (Question | null)[] {
  return QUESTIONS.map((ask) => ask(look))
}

interface Told {
  readonly facts: Facts
  readonly adjustedP: number | null
}

/** Every question has the same part of the chance of error, and so has each of its tests of the question's. */
function factsOf(asked: readonly (Question | null)[], settings: Settings): readonly Told[] {
  const questions = asked.filter((question) => question !== null)
  const adjusted = holm(
    questions.flatMap(({ ps }) => ps),
    questions.flatMap(({ ps }) => ps.map(() => 1 / ps.length)),
  )
  let at = 0
  const told: Told[] = []
  for (const question of questions) {
    const own = adjusted.slice(at, (at += question.ps.length))
    const facts = question.answer(own.map((p) => p <= FALSE_FINDINGS))
    if (facts !== null) told.push({ facts, adjustedP: own.length === 0 ? null : Math.min(...own) })
  }
  return withoutRepetition(told, settings)
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
  if (facts.code === 'lows-after-contradicted-highs') return 'about-them'
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
  if (facts.code === 'overnight-change') return [String(Math.sign(facts.evidence.medianMgDl))]
  if (facts.code === 'weekends-differ') return [String(Math.sign(facts.evidence.shiftMgDl))]
  return []
}
