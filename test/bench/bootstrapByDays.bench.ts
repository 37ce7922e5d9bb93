import { expect, it } from 'vitest'
import { DEFAULT_SETTINGS } from '../../src-core/analysis/settings'
import type { Readings } from '../../src-core/log/readings'
import { bootstrapByDays } from '../../src-core/statistics/bootstrapByDays'
import { dayTotals } from '../../src-core/statistics/dayTotals'
import { medianInterval } from '../../src-core/statistics/medianInterval'
import { fixedChance } from '../helpers/analysisFixture'
import { at, readingsOf, row } from '../src-core/analysis/readingsOf'

const START = at('2026-01-01 00:00')

/** Readings about 150 whose days differ by an SD of 20 and whose readings within a day by one of 40. */
function invented(days: number, perDay: number, normal: () => number): Readings {
  const rows = Array.from({ length: days }, (_, day) => {
    const ofDay = 150 + 20 * normal()
    return Array.from({ length: perDay }, (_, i) =>
      row(START + day * 86_400 + i * 3600 * Math.floor(24 / perDay), Math.max(20, ofDay + 40 * normal())),
    )
  })
  return readingsOf(rows.flat())
}

function normals(seed: number): () => number {
  const chance = fixedChance(seed)
  return () => Math.sqrt(-2 * Math.log(1 - chance())) * Math.cos(2 * Math.PI * chance())
}

function ci95(readings: Readings) {
  return bootstrapByDays(dayTotals(readings, { start: 0, end: readings.n }, 0, DEFAULT_SETTINGS, 150), 1)
}

// The normal law gives the truths: total variance 20² + 40² = 2000; 70 and 180 lie 1.789 SD below and 0.671 above.
const TRUTH = { mean: 150, sd: Math.sqrt(2000), percentBelow70: 3.682, percentAbove180: 25.12 }

it.each([
  [8, 5],
  [14, 5],
  [30, 5],
  [90, 5],
])('coverage of the intervals of %d days with %d readings each', (days, perDay) => {
  const LOGS = 1_000
  const normal = normals(20260301 + days)
  const held: Record<string, number> = {}
  for (let log = 0; log < LOGS; log++) {
    const found = ci95(invented(days, perDay, normal))
    for (const [name, truth] of Object.entries(TRUTH)) {
      const [low, high] = found?.[name as keyof typeof TRUTH] ?? [NaN, NaN]
      held[name] = (held[name] ?? 0) + (low <= truth && truth <= high ? 1 : 0)
    }
  }
  const percent = Object.entries(held).map(([name, n]) => `${name} ${((100 * n) / LOGS).toFixed(1)} %`)
  console.log(`${days} days x ${perDay}: ${percent.join(', ')}`)
  for (const [name, n] of Object.entries(held)) expect([name, n / LOGS > 0.6]).toEqual([name, true])
})

it('coverage of the interval of a median', () => {
  const normal = normals(7)
  for (const n of [6, 10, 20, 50, 100]) {
    let held = 0
    for (let log = 0; log < 20_000; log++) {
      const [low, high] = medianInterval(Float64Array.from({ length: n }, normal).sort()) ?? [1, 0]
      if (low <= 0 && 0 <= high) held++
    }
    console.log(`median of ${n}: ${(held / 200).toFixed(2)} %`)
    expect(held / 20_000).toBeGreaterThan(0.945)
  }
})

it('time for a year of finger-sticks', () => {
  const readings = invented(365, 6, normals(1))
  const times = Array.from({ length: 20 }, () => {
    // Time of this process alone: other work on the machine would count otherwise.
    const started = process.cpuUsage()
    ci95(readings)
    const { user, system } = process.cpuUsage(started)
    return (user + system) / 1000
  })
  const sorted = times.map((ms) => ms.toFixed(1)).sort((a, b) => Number(a) - Number(b))
  console.log(
    `${readings.n} readings on 365 days: first ${times[0].toFixed(1)} ms, median ${sorted[10]} ms, slowest ${sorted[19]} ms`,
  )
  expect(readings.n).toBe(2_190)
})
