import { expect, it } from 'vitest'
import { analysisOf } from '../helpers/analysisFixture'
import {
  FIVE_A_DAY,
  FLAT,
  logOf,
  percent,
  type Process,
  PROCESSES,
  type Slot,
  STRONG,
  TYPICAL,
} from './processes'

// How often something is said to stand out of people whose days hold nothing of the kind, and how often what was planted is
// found. A flat shape of the day: nothing by hour or meal. Not false are: mornings above the goal (the median is 135), weekends of
// the weekly process, and lows that follow one another where days resemble their neighbours.

const LOGS = 200
const TAGLESS: readonly Slot[] = FLAT.map((slot) => ({ ...slot, meal: '' }))

function codesOf(process: Process, seed: number, days: number, slots: readonly Slot[], added?: Added) {
  const rows = logOf(process, seed, { days, slots, made: 0.9, centre: 135, ...(added && { added }) })
  return analysisOf(rows).periods[0].findings.map(({ code }) => code)
}

type Added = (day: number, slot: Slot) => number

it.each(PROCESSES)('false findings: $name', (process) => {
  for (const [name, slots] of [
    ['tagged', FLAT],
    ['no tags', TAGLESS],
  ] as const) {
    const said = new Map<string, number>()
    let logs = 0
    for (let seed = 1; seed <= LOGS; seed++) {
      const codes = codesOf(process, 40_000 + seed, 60, slots)
      if (codes.length > 0) logs++
      for (const code of codes) said.set(code, (said.get(code) ?? 0) + 1)
    }
    console.log(
      `${process.name}, ${name}: something in ${percent(logs, LOGS)}; ` +
        [...said].map(([code, n]) => `${code} ${percent(n, LOGS)}`).join(', '),
    )
    expect(logs).toBeLessThanOrEqual(LOGS)
  }
})

const PLANTED: readonly (readonly [string, string, Added])[] = [
  [
    '25 % higher after breakfast',
    'highs-gather',
    (_, { meal }) => (meal === 'after breakfast' ? Math.log(1.25) : 0),
  ],
  ['15 % higher at weekends', 'weekends-differ', (day) => (day % 7 >= 5 ? Math.log(1.15) : 0)],
  ['30 % lower over 90 days', 'trend', (day) => (Math.log(0.7) * day) / 90],
]

it.each(PLANTED)('found: %s', (name, code, added) => {
  for (const process of [TYPICAL, STRONG]) {
    const found = [30, 60, 90].map((days) => {
      let n = 0
      for (let seed = 1; seed <= LOGS; seed++) {
        if (codesOf(process, 60_000 + seed, days, FLAT, added).some((told) => told === code)) n++
      }
      return `${days} days ${percent(n, LOGS)}`
    })
    console.log(`${name}, ${process.name}: ${found.join(', ')}`)
  }
  expect(FIVE_A_DAY).toHaveLength(5)
})
