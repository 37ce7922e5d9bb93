import { expect, it } from 'vitest'
import { done, historyOf, undone } from '../../src-core/visit/history'
import { keyOf } from '../../src-core/analysis/readingKeys'
import { EMPTY_VISIT, type Visit } from '../../src-core/visit/visit'
import { reportKeeper } from '../../src-core/visit/visitReport'
import { BYTE_TOOLS } from '../../src-main/files/byteTools'
import { inventedLog } from '../helpers/analysisFixture'
import { CONTEXT } from '../helpers/logs'
import { visitLog } from '../helpers/visits'
import { ENGLISH } from '../../src-core/wording/english'

const ROWS = inventedLog({ days: 400, firstDay: '2025-05-01', repeats: 0.1 })
const LOG = visitLog('year.csv', `Time,Glucose (mg/dL),Meal\n${ROWS.map(({ at, value, meal }) => `${at},${value},${meal}\n`).join('')}`) // prettier-ignore
const VISIT: Visit = { ...EMPTY_VISIT, logs: [LOG] }

it.each([
  ['one period', VISIT],
  ['two periods', { ...VISIT, period: { from: 20_400, to: 20_500 }, versus: { from: 20_250, to: 20_399 } }],
])('decisions on a year’s readings, %s: new figures', (name, visit) => {
  const report = reportKeeper(ENGLISH, BYTE_TOOLS)
  const timed = (of: Visit) => {
    const start = performance.now()
    const outcome = report(of, CONTEXT)
    if (outcome.kind !== 'analysed') throw new Error('not analysed')
    return { ms: performance.now() - start, analysis: outcome.analysis }
  }
  const first = timed(visit)
  const { readings, technique } = first.analysis
  const flagged = technique.doubtful.map(({ index }) => index)
  const sound = Array.from({ length: 40 }, (_, i) => 40 * i + 7).filter((index) => !flagged.includes(index))
  const times: Record<string, number[]> = { keep: [], 'leave out': [], note: [], undo: [] }
  let history = historyOf(visit)
  const decide = (kind: string, index: number, choice: 'keep' | 'leave-out', reason: string) => {
    const reading = keyOf(readings, index, [LOG.sha256])
    const decision = { reading, choice, reason, decidedAt: '2026-06-01T10:00' }
    history = done(history, { kind: 'decide', decision })
    times[kind].push(timed(history.visit).ms)
  }
  for (const [i, index] of sound.entries()) {
    decide('leave out', index, 'leave-out', '')
    decide('note', index, 'leave-out', 'juice on my fingers')
    decide('keep', flagged[i % flagged.length], 'keep', '')
    history = undone(history)
    times.undo.push(timed(history.visit).ms)
  }
  const say = (of: number[]) => {
    const sorted = [...of].sort((a, b) => a - b)
    return `median ${sorted[sorted.length >> 1].toFixed(1)}, slowest ${(sorted.at(-1) ?? NaN).toFixed(1)} ms`
  }
  const told = Object.entries(times).map(([kind, of]) => `${kind} ${say(of)}`)
  console.log(`${name}: ${readings.n} readings, ${flagged.length} doubtful; first ${first.ms.toFixed(0)} ms; ${told.join('; ')}`)
  expect(readings.n).toBeGreaterThan(1_900)
}) // prettier-ignore
