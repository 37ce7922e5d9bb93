import { expect, it } from 'vitest'
import { analysisOf } from '../helpers/analysisFixture'
import {
  FLAT,
  logOf,
  percent,
  type Process,
  PROCESSES,
  type Slot,
  STRONG,
  TYPICAL,
  WEEKLY,
} from './processes'

// How often something is said to stand out of people whose days hold nothing of the kind, and how often what was planted is
// found. A flat shape of the day about 115 mg/dL: nothing by hour or meal, fewer than half of the mornings above 130. Not false
// are the weekends of the weekly process.

const LOGS = 300
const TAGLESS: readonly Slot[] = FLAT.map((slot) => ({ ...slot, meal: '' }))

function codesOf(process: Process, seed: number, days: number, slots: readonly Slot[], added?: Added) {
  const rows = logOf(process, seed, {
    days,
    slots,
    made: 0.9,
    centre: added ? 135 : 115,
    ...(added && { added }),
  })
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
      const isTrue = (code: string) => process === WEEKLY && code === 'weekends-differ'
      if (codes.some((code) => !isTrue(code))) logs++
      for (const code of codes) said.set(code, (said.get(code) ?? 0) + 1)
    }
    console.log(
      `${process.name}, ${name}: something false in ${percent(logs, LOGS)}; ` +
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
  [
    '20 % higher in the morning than at bedtime',
    'overnight-change',
    (_, { meal }) => (meal === 'before breakfast' ? Math.log(1.2) : 0),
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
  expect(LOGS).toBeGreaterThan(0)
})

it.each([TYPICAL, STRONG])('what silence says would have shown is found: $name', (process) => {
  for (const days of [30, 60, 90]) {
    let silent = 0
    let told = 0
    let found = 0
    let sum = 0
    for (let seed = 1; seed <= LOGS; seed++) {
      const rows = logOf(process, 90_000 + seed, { days, slots: FLAT, made: 0.9, centre: 135 })
      const { findings, visibleRise } = analysisOf(rows).periods[0]
      if (findings.length > 0) continue
      silent++
      if (visibleRise === null || !('moment' in visibleRise.part)) continue
      const { percent: rise, part } = visibleRise
      told++
      sum += rise
      const tag = part.moment.replace('-', ' ')
      const codes = codesOf(process, 95_000 + seed, days, FLAT, (_, { meal }) =>
        meal === tag ? Math.log(1 + rise / 100) : 0,
      )
      if (codes.some((code) => code === 'highs-gather')) found++
    }
    console.log(
      `${process.name}, ${days} days: silent ${silent} of ${LOGS}; a rise is named in ${told}, in the mean of ` +
        `${Math.round(sum / told)} %; found where planted ${percent(found, told)}`,
    )
    expect(told).toBeGreaterThan(0)
  }
})
