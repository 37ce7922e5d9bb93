import { expect, it } from 'vitest'
import { standingOf, type Verdict } from '../../src-core/compare/comparison'
import { parseIsoDay } from '../../src-core/units/wallClock'
import { analysisOf } from '../helpers/analysisFixture'
import {
  chanceOf,
  FIVE_A_DAY,
  levels,
  logOf,
  percent,
  type Process,
  PROCESSES,
  STRONG,
  TYPICAL,
} from './processes'

// How often two equal months on end of one unchanged person are called different: each of the nine rows and any of them, by its
// own interval and as it is printed (only where all rows together are clear), the means at the same times of day and at the
// same meals; and how often a change is called one. Last: whether what is said of the means is true of these two months, whatever
// would come of others.

const LOGS = 300
const day = (text: string) => parseIsoDay(text) ?? NaN
const FIRST = { from: day('2026-01-05'), to: day('2026-02-03') }
const SECOND = { from: day('2026-02-04'), to: day('2026-03-05') }
const DAYS_OF_FIRST = 30

interface Called {
  /** Rows by their own interval, and those that are printed so. */
  readonly own: readonly string[]
  readonly printed: readonly string[]
}

function calledDifferent(process: Process, seed: number, change = 0): Called {
  const { comparison } = analysisOf(
    logOf(process, seed, {
      days: 60,
      made: 0.95,
      added: (dayOfLog) => (dayOfLog < DAYS_OF_FIRST ? 0 : change),
    }),
    { period: SECOND, versus: FIRST },
  )
  if (comparison === null) throw new Error('nothing was compared')
  const { measures, sameTimesOfDay, sameMeals } = comparison
  const rows: readonly (readonly [string, Verdict | undefined, Parameters<typeof standingOf>[1]])[] = [
    ...measures.map(({ measure, verdict }) => [measure, verdict, 'measures'] as const),
    ['sameTimesOfDay', sameTimesOfDay?.verdict, 'sameTimes'],
    ['sameMeals', typeof sameMeals === 'string' ? undefined : sameMeals.verdict, 'sameMeals'],
  ]
  const clear = rows.filter(([, verdict]) => verdict === 'higher' || verdict === 'lower')
  const isJudged = ([, , kind]: (typeof rows)[number]) => standingOf(comparison, kind) === 'judged'
  return { own: clear.map(([name]) => name), printed: clear.filter(isJudged).map(([name]) => name) }
}

const isOfNine = (name: string) => !name.startsWith('same')

function table(process: Process, change: number): string {
  const said = { own: new Map<string, number>(), printed: new Map<string, number>() }
  const any = { own: 0, printed: 0 }
  for (let seed = 1; seed <= LOGS; seed++) {
    const called = calledDifferent(process, 80_000 + seed, change)
    for (const kind of ['own', 'printed'] as const) {
      if (called[kind].some(isOfNine)) any[kind]++
      for (const name of called[kind]) said[kind].set(name, (said[kind].get(name) ?? 0) + 1)
    }
  }
  const line = (kind: 'own' | 'printed') =>
    `any of nine ${percent(any[kind], LOGS)}; ${[...said[kind]].map(([name, n]) => `${name} ${percent(n, LOGS)}`).join(', ')}`
  return `\n  own intervals: ${line('own')}\n  printed: ${line('printed')}`
}

it.each(PROCESSES)('equal months called different: $name', (process) => {
  console.log(`${process.name}: ${table(process, 0)}`)
  expect(LOGS).toBeGreaterThan(0)
})

it.each([TYPICAL, STRONG])('a month 15 % lower is called so: $name', (process) => {
  console.log(`${process.name}, 15 % lower: ${table(process, Math.log(0.85))}`)
  expect(LOGS).toBeGreaterThan(0)
})

/** What the two months of this log were in truth: mean glucose by their own days' levels, second - first. */
function differenceInTruth(process: Process, seed: number): number {
  const level = levels(process, 2 * DAYS_OF_FIRST, chanceOf(seed), FIRST.from)
  const ofDays = (from: number) =>
    level.slice(from, from + DAYS_OF_FIRST).reduce((sum, log) => sum + Math.exp(log), 0) / DAYS_OF_FIRST
  const within = process.sd ** 2 * (1 - process.betweenDays)
  const ofTests = FIVE_A_DAY.reduce((sum, { log }) => sum + 140 * Math.exp(log + within / 2), 0)
  return ((ofDays(DAYS_OF_FIRST) - ofDays(0)) * ofTests) / FIVE_A_DAY.length
}

it.each(PROCESSES)('what is said of the means is true of these months: $name', (process) => {
  let [held, called, right] = [0, 0, 0]
  for (let seed = 1; seed <= LOGS; seed++) {
    const truth = differenceInTruth(process, 80_000 + seed)
    const rows = logOf(process, 80_000 + seed, { days: 2 * DAYS_OF_FIRST, made: 0.95 })
    const { comparison } = analysisOf(rows, { period: SECOND, versus: FIRST })
    const mean = comparison?.measures.find(({ measure }) => measure === 'meanMgDl')
    if (comparison === null || mean === undefined || mean.ci95 === null) continue
    if (mean.ci95[0] <= truth && truth <= mean.ci95[1]) held++
    if (mean.verdict === 'unclear' || standingOf(comparison, 'measures') !== 'judged') continue
    called++
    if (mean.verdict === (truth > 0 ? 'higher' : 'lower')) right++
  }
  console.log(
    `${process.name}: the interval holds these months' own difference in ${percent(held, LOGS)}; means called different ` +
      `${called}, in their true direction ${right}`,
  )
  expect(held).toBeGreaterThan(0)
})
