import { expect, it } from 'vitest'
import { analysisOf } from '../helpers/analysisFixture'
import { parseIsoDay } from '../../src-core/units/wallClock'
import { logOf, percent, PROCESSES } from './processes'

// How often two equal months on end of one unchanged person are called different: each of the nine rows, any of them, the
// means at the same times of day and at the same meals.

const LOGS = 300
const day = (text: string) => parseIsoDay(text) ?? NaN
const FIRST = { from: day('2026-01-05'), to: day('2026-02-03') }
const SECOND = { from: day('2026-02-04'), to: day('2026-03-05') }

it.each(PROCESSES)('equal months called different: $name', (process) => {
  const said = new Map<string, number>()
  let any = 0
  for (let seed = 1; seed <= LOGS; seed++) {
    const analysis = analysisOf(logOf(process, 80_000 + seed, { days: 60, made: 0.95 }), {
      period: SECOND,
      versus: FIRST,
    })
    const { measures = [], sameTimesOfDay = null, sameMeals = null } = analysis.comparison ?? {}
    const rows = [
      ...measures.map(({ measure, verdict }) => [measure, verdict] as const),
      ['sameTimesOfDay', sameTimesOfDay?.verdict] as const,
      [
        'sameMeals',
        sameMeals !== null && typeof sameMeals !== 'string' ? sameMeals.verdict : undefined,
      ] as const,
    ].filter(([, verdict]) => verdict === 'higher' || verdict === 'lower')
    for (const [name] of rows) said.set(name, (said.get(name) ?? 0) + 1)
    if (rows.some(([name]) => !name.startsWith('same'))) any++
  }
  console.log(
    `${process.name}: any of nine ${percent(any, LOGS)}; ` +
      [...said].map(([name, n]) => `${name} ${percent(n, LOGS)}`).join(', '),
  )
  expect(any).toBeLessThanOrEqual(LOGS)
})
