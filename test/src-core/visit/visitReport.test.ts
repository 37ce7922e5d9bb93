import type { Decision } from '../../../src-core/model/decision'
import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { openVisit, type VisitOutcome } from '../../../src-core/analysis/openVisit'
import type { Kit } from '../../../src-core/kit/kit'
import type { Edit } from '../../../src-core/visit/edits'
import { done, type History, historyOf, redone, undone } from '../../../src-core/visit/history'
import { keyOf } from '../../../src-core/analysis/readingKeys'
import { EMPTY_VISIT, type Visit } from '../../../src-core/visit/visit'
import { reportKeeper } from '../../../src-core/visit/visitReport'
import { requestOf } from '../../../src-core/visit/visitRequest'
import type { LogAnswers } from '../../../src-core/log/logSource'
import { parseIsoDay } from '../../../src-core/units/wallClock'
import { BYTE_TOOLS } from '../../../src-main/files/byteTools'
import { inventedLog } from '../../helpers/analysisFixture'
import { CONTEXT } from '../../helpers/logs'
import { runs } from '../../helpers/runs'
import { visitLog } from '../../helpers/visits'
import { ENGLISH } from '../../../src-core/wording/english'

/** Invented weeks: on most evenings a first test that reads twice too high, doubtful for the repeat after it. */
function csv(firstDay: string, days: number, seed: number, header = 'Time,Glucose (mg/dL),Meal'): string {
  const rows = inventedLog({ days, firstDay, seed, repeats: 0.02, centre: 115, spread: 0.12 })
  const lines = rows.flatMap(({ at, value, meal = '' }, i) => {
    const line = `${at},${value},${meal}`
    if (meal !== 'bedtime' || i % 3 === 0) return [line]
    const minute = Number(at.slice(14, 16))
    const before = minute < 2 ? at : `${at.slice(0, 14)}${String(minute - 2).padStart(2, '0')}`
    return [`${before},${2 * Number(value) + 40},${meal}`, line]
  })
  return [header, ...lines].join('\n')
}
const march = csv('2026-03-02', 30, 1)
const LOGS = [
  visitLog('march.csv', march),
  visitLog('again.csv', `${csv('2026-03-27', 10, 2)}\n${march.split('\n').slice(-30).join('\n')}`),
  visitLog('asks.csv', csv('2026-04-10', 12, 3, 'Time,Glucose,Meal')),
  visitLog('dates.csv', `Date,Glucose (mg/dL)\n${[3, 5, 6].map((d) => `0${d}/04/2026 07:10,${90 + d}`).join('\n')}`),
] // prettier-ignore
const VISIT: Visit = { ...EMPTY_VISIT, logs: LOGS.slice(0, 1) }

function fresh(visit: Visit): VisitOutcome {
  const { sources, options } = requestOf(ENGLISH, visit, BYTE_TOOLS)
  return openVisit(sources, options, CONTEXT)
}

/** The outcome as plain data, with the texts of the readings. */
function plain(outcome: VisitOutcome): unknown {
  if (outcome.kind !== 'analysed') return outcome
  const { readings, ...analysis } = outcome.analysis
  const texts = (of: 'meal' | 'note') => Array.from({ length: readings.n }, (_, i) => readings[of](i))
  return { ...analysis, readings: { ...readings, meal: texts('meal'), note: texts('note') } }
}

function analysisOf(outcome: VisitOutcome) {
  if (outcome.kind !== 'analysed') throw new Error(`the visit was ${outcome.kind}`)
  return outcome.analysis
}

const FIRST = analysisOf(fresh(VISIT))
const doubtful = FIRST.technique.doubtful.map(({ index }) => index)
const decisionOn = (index: number, of: Partial<Decision> = {}): Decision => ({
  reading: keyOf(FIRST.readings, index, [LOGS[0].sha256]),
  choice: 'keep',
  reason: '',
  decidedAt: '2026-06-01T10:00',
  ...of,
})

const day = fc.nat(25).map((days) => (parseIsoDay('2026-02-25') as number) + days)
const span = fc
  .tuple(day, fc.integer({ min: 10, max: 40 }))
  .map(([from, length]) => ({ from, to: from + length }))
const index = fc.oneof(fc.constantFrom(...doubtful), fc.nat(FIRST.readings.n - 1))
const log = fc.oneof({ weight: 4, arbitrary: fc.constantFrom(...LOGS.slice(0, 2)) }, fc.constantFrom(...LOGS))
const anyEdit: fc.Arbitrary<Edit> = fc.oneof(
  {
    weight: 4,
    arbitrary: fc
      .tuple(index, fc.constantFrom('keep' as const, 'leave-out' as const), fc.constantFrom('', 'wet finger'))
      .map(([at, choice, reason]) => ({
        kind: 'decide' as const,
        decision: decisionOn(at, { choice, reason }),
      })),
  },
  index.map((at) => ({ kind: 'take-back' as const, reading: decisionOn(at).reading })),
  log.map((of) => ({ kind: 'add-logs' as const, logs: [of] })),
  log.map(({ sha256 }) => ({ kind: 'remove-log' as const, sha256 })),
  fc
    .tuple(
      log,
      fc.constantFrom<LogAnswers[]>(
        { unit: 'mg/dL' },
        { unit: 'mmol/L' },
        { dates: 'dmy' },
        { dates: 'mdy' },
      ),
    )
    .map(([{ sha256 }, answers]) => ({ kind: 'answer' as const, sha256, answers })),
  fc.nat(9).map((i) => ({
    kind: 'type-reading' as const,
    reading: { at: `2026-03-1${i}T06:30`, value: 80 + 20 * i, unit: 'mg/dL' as const },
  })),
  fc.constant({ kind: 'remove-typed' as const, index: 0 }),
  fc
    .record(
      {
        period: fc.option(span),
        versus: fc.option(span),
        targets: fc.constantFrom(null, 'pregnancy' as const, { low: 80, high: 160 }, { low: 4, high: 9 }),
        goal: fc.constantFrom(null, { low: 90, high: 150 }),
        unit: fc.constantFrom(null, 'mg/dL' as const, 'mmol/L' as const),
        shifts: fc.array(
          fc.tuple(span, fc.constantFrom(60, -720)).map(([of, minutes]) => ({ ...of, minutes })),
          { maxLength: 1 },
        ),
        kit: fc.constantFrom<Kit>({}, { laboratoryA1c: [{ date: '2026-03-20', percent: 7 }] }),
        label: fc.string(),
      },
      { requiredKeys: [] },
    )
    .map((settings) => ({ kind: 'set' as const, settings })),
)
const anyStep = fc.oneof(
  { weight: 3, arbitrary: anyEdit.map((edit) => (history: History) => done(history, edit)) },
  { weight: 1, arbitrary: fc.constantFrom(undone, redone) },
)

describe('the reports of one visit', () => {
  it('after any edits, undone and redone, are those of the visit opened afresh', () => {
    const kinds = new Map<string, number>()
    fc.assert(
      fc.property(fc.array(anyStep, { minLength: 4, maxLength: 16 }), (steps) => {
        const report = reportKeeper(ENGLISH, BYTE_TOOLS)
        let history = historyOf(VISIT)
        for (const step of steps) {
          history = step(history)
          const outcome = report(history.visit, CONTEXT)
          kinds.set(outcome.kind, (kinds.get(outcome.kind) ?? 0) + 1)
          expect(plain(outcome)).toEqual(plain(fresh(history.visit)))
        }
      }),
      { numRuns: runs(5), seed: 7 },
    )
    expect([...kinds.keys()].sort()).toEqual(['analysed', 'stopped', 'wrong-targets'])
    expect(kinds.get('analysed')).toBeGreaterThan(15)
  }, 240_000)

  it('read no log again for a decision, and keep the figures that it does not touch', () => {
    const report = reportKeeper(ENGLISH, BYTE_TOOLS)
    const bytes: number[] = []
    const reported = (visit: Visit) =>
      analysisOf(report(visit, CONTEXT, { watch: ({ bytesRead }) => bytes.push(bytesRead) }))
    const before = reported(VISIT)
    expect(bytes.length).toBeGreaterThan(0)
    bytes.length = 0
    const after = reported({ ...VISIT, decisions: [decisionOn(doubtful[0])] })
    expect(bytes).toEqual([])
    expect(after.readings).toBe(before.readings)
    expect(after.technique.doubt).toBe(before.technique.doubt)
    expect(after.periods[0].asLogged).toBe(before.periods[0].asLogged)
    expect(after.periods[0].week).toBe(before.periods[0].week)
    expect(after.periods[0].checked.meanMgDl).not.toBe(before.periods[0].checked.meanMgDl)
  })

  it('find anew what stands out without the doubtful ones, decision for decision', () => {
    const report = reportKeeper(ENGLISH, BYTE_TOOLS)
    const fates = new Set<string>()
    for (let kept = 0; kept <= doubtful.length; kept += 3) {
      const visit = { ...VISIT, decisions: doubtful.slice(0, kept).map((at) => decisionOn(at)) }
      const { findings } = analysisOf(report(visit, CONTEXT)).periods[0]
      expect(findings).toEqual(analysisOf(fresh(visit)).periods[0].findings)
      for (const { code, withoutDoubtful } of findings) fates.add(`${code} ${withoutDoubtful}`)
    }
    expect([...fates].sort()).toEqual(['highs-gather disappears', 'highs-gather stays'])
  })

  it('of an empty visit says that it is empty', () => {
    expect(reportKeeper(ENGLISH, BYTE_TOOLS)(EMPTY_VISIT, CONTEXT)).toMatchObject({
      kind: 'stopped',
      refusals: [{ code: 'no-readings', log: null, reason: { key: 'empty-visit' } }],
    })
  })

  it('of another moment set aside other rows of the future', () => {
    const report = reportKeeper(ENGLISH, BYTE_TOOLS)
    const early = { ...CONTEXT, nowMs: Date.UTC(2026, 2, 10) }
    const [now, then, again] = [CONTEXT, early, CONTEXT].map(
      (context) => analysisOf(report(VISIT, context)).readings.n,
    )
    expect(then).toBeLessThan(now)
    expect(again).toBe(now)
  })
})
