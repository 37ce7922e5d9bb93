import { expect, it } from 'vitest'
import { isLow } from '../../src-core/log/readings'
import { DEFAULT_SETTINGS } from '../../src-core/model/settings'
import { assessTechnique } from '../../src-core/technique/assessTechnique'
import { chronologicalOrder } from '../../src-core/technique/chronology'
import { MODEL } from '../../src-core/technique/doubtConstants'
import { at, readingsOf, row } from '../src-core/analysis/readingsOf'
import { CLEAN, type Habits, isOffBy30, OUTSIDE, outsideLog, type OutsideTest, USUAL } from './outsideLogs'
import { percent } from './processes'
import { simulateLog } from './simulatedLogs'

// Doubts on logs that the model does not describe, with its own judgement of the fit and without: how many of the readings that
// it calls doubtful are off, apart for those that nobody repeated. Simulated logs of `doubt.bench.ts` stand beside them.

const LOGS = 200
const DAYS = 60
/** Seeds that no constant of the model was looked at with. */
const FIRST_SEED = 710_001
const START = at('2026-01-01 00:00')

/** Counts of readings that are no lows: flagged, of them off, off at all. */
interface Counts {
  flagged: number
  hits: number
  off: number
}

interface Told {
  readonly alone: Counts
  readonly inSets: Counts
  misfits: number
  lows: number
}

function judge(logs: readonly (readonly OutsideTest[])[]): Told {
  const counts = (): Counts => ({ flagged: 0, hits: 0, off: 0 })
  const told: Told = { alone: counts(), inSets: counts(), misfits: 0, lows: 0 }
  for (const log of logs) {
    const readings = readingsOf(log.map(({ minutes, mgDl }) => row(START + minutes * 60, mgDl)))
    const { doubtful, misfit } = assessTechnique(readings, chronologicalOrder(readings), DEFAULT_SETTINGS)
    if (misfit.wide || misfit.quick) told.misfits++
    const flagged = new Set(doubtful.map(({ index }) => index))
    log.forEach((test, i) => {
      if (isLow(readings, i)) {
        if (flagged.has(i) && test.trueMgDl < 70) told.lows++
        return
      }
      const isNear = (other: OutsideTest | undefined) =>
        other !== undefined && Math.abs(other.minutes - test.minutes) <= DEFAULT_SETTINGS.repeatWindowMinutes
      const of = isNear(log[i - 1]) || isNear(log[i + 1]) ? told.inSets : told.alone
      if (flagged.has(i)) of.flagged++
      if (isOffBy30(test)) of.off++
      if (isOffBy30(test) && flagged.has(i)) of.hits++
    })
  }
  return told
}

/** The same without the judgement of the fit. */
function withoutFit<T>(run: () => T): T {
  const laws: readonly { fewest: number }[] = [MODEL.wide, MODEL.quick]
  const before = laws.map(({ fewest }) => fewest)
  laws.forEach((law) => (law.fewest = Infinity))
  try {
    return run()
  } finally {
    laws.forEach((law, i) => (law.fewest = before[i]))
  }
}

const text = ({ flagged, hits, off }: Counts) =>
  `${hits} of ${flagged} off (precision ${(hits / flagged).toFixed(2)}, recall ${(hits / off).toFixed(2)}, ` +
  `F1 ${((2 * hits) / (flagged + off)).toFixed(3)})`
const sum = (a: Counts, b: Counts): Counts => ({
  flagged: a.flagged + b.flagged,
  hits: a.hits + b.hits,
  off: a.off + b.off,
})

const CASES: readonly (readonly [string, (seed: number) => readonly OutsideTest[]])[] = [
  ['mild', (seed) => simulateLog(seed, 'mild')],
  ['harsh', (seed) => simulateLog(seed, 'harsh')],
  ...OUTSIDE.flatMap((person) => {
    const of = (habits: Habits) => (seed: number) => outsideLog(person, seed, DAYS, habits)
    return [
      [person.name, of(USUAL)],
      [`${person.name}, no errors`, of(CLEAN)],
    ] as const
  }),
]

it.each(CASES)('doubts beyond the model: %s', (name, make) => {
  const logs = Array.from({ length: LOGS }, (_, i) => make(FIRST_SEED + i))
  const judged = judge(logs)
  const plain = withoutFit(() => judge(logs))
  for (const [how, { alone, inSets, misfits, lows }] of [
    ['without', plain],
    ['with', judged],
  ] as const) {
    console.log(
      `${name}, ${how} the fit: told as misfit ${percent(misfits, LOGS)}; alone ${text(alone)}; in sets ${text(inSets)}; ` +
        `all ${text(sum(alone, inSets))}; true lows flagged ${lows}`,
    )
  }
  expect(judged.alone.flagged).toBeLessThanOrEqual(plain.alone.flagged)
})
