import { expect, it } from 'vitest'
import { DEFAULT_SETTINGS } from '../../src-core/model/settings'
import { timeOfDay } from '../../src-core/day/timeOfDay'
import type { Readings } from '../../src-core/log/readings'
import { intervalsOf } from '../../src-core/statistics/intervals'
import { printedSdInterval } from '../../src-core/statistics/printedSd'
import { summarise } from '../../src-core/statistics/summary'
import { readingsOf, row } from '../src-core/analysis/readingsOf'
import { logOf, percent, type Process, PROCESSES } from './processes'

// How often the 95 % intervals hold the truth of a person whose glucose keeps its law: the figures of very many days.

const LOGS = 600
const TRUTH_LOGS = 400
const TRUTH_DAYS = 300
const KEYS = [
  'meanMgDl',
  'sdMgDl',
  'cvPercent',
  'percentBelow70',
  'percentInTarget',
  'percentAbove180',
] as const

function readingsLike(process: Process, seed: number, days: number): Readings {
  return readingsOf(logOf(process, seed, { days }).map(({ at, value }) => row(at, value as number)))
}

function figuresOf(readings: Readings) {
  const summary = summarise(readings, 0, readings.n, DEFAULT_SETTINGS)
  return { summary, intervals: intervalsOf(readings, 0, readings.n, summary, DEFAULT_SETTINGS) }
}

/** Averages over many long logs; SD and CV from the averages of the moments. */
function truthOf(process: Process) {
  const sums = {
    n: 0,
    mean: 0,
    squares: 0,
    percentBelow70: 0,
    percentInTarget: 0,
    percentAbove180: 0,
    balanced: 0,
  }
  const medians: number[] = []
  for (let seed = 1; seed <= TRUTH_LOGS; seed++) {
    const readings = readingsLike(process, 500_000 + seed, TRUTH_DAYS)
    const { summary } = figuresOf(readings)
    sums.n++
    sums.mean += summary.meanMgDl ?? NaN
    sums.squares +=
      Array.from({ length: readings.n }, (_, i) => readings.mgDl[i] ** 2).reduce(
        (sum, value) => sum + value,
        0,
      ) / readings.n
    for (const key of ['percentBelow70', 'percentInTarget', 'percentAbove180'] as const)
      sums[key] += summary[key] ?? NaN
    sums.balanced += summary.balancedMeanMgDl ?? NaN
    medians.push(timeOfDay(readings, 0, readings.n).blocks[2].medianMgDl ?? NaN)
  }
  const mean = sums.mean / sums.n
  const sd = Math.sqrt(sums.squares / sums.n - mean * mean)
  return {
    meanMgDl: mean,
    sdMgDl: sd,
    cvPercent: (100 * sd) / mean,
    percentBelow70: sums.percentBelow70 / sums.n,
    percentInTarget: sums.percentInTarget / sums.n,
    percentAbove180: sums.percentAbove180 / sums.n,
    balancedMean: sums.balanced / sums.n,
    blockMedian: medians.reduce((sum, value) => sum + value, 0) / medians.length,
  }
}

it.each(PROCESSES)('coverage of intervals: $name', (process) => {
  const truth = truthOf(process)
  for (const days of [14, 30, 90]) {
    const held = new Map<string, number>()
    const check = (
      name: keyof typeof truth,
      interval: readonly [number, number] | null | undefined,
      called: string = name,
    ) => {
      const [low, high] = interval ?? [NaN, NaN]
      if (low <= truth[name] && truth[name] <= high) held.set(called, (held.get(called) ?? 0) + 1)
    }
    for (let seed = 1; seed <= LOGS; seed++) {
      const readings = readingsLike(process, 1000 * days + seed, days)
      const { summary, intervals } = figuresOf(readings)
      const { ci95 } = intervals
      const printed =
        ci95 === null || summary.sdMgDl === null ? null : printedSdInterval(summary.sdMgDl, ci95.sdMgDl, days)
      check('sdMgDl', printed, 'sd as printed')
      for (const key of KEYS) check(key, intervals.ci95?.[key])
      check('balancedMean', intervals.balancedMeanCi95MgDl)
      check('blockMedian', timeOfDay(readings, 0, readings.n).blocks[2].ci95.medianMgDl)
    }
    console.log(
      `${process.name}, ${days} days: ${[...held].map(([name, n]) => `${name} ${percent(n, LOGS)}`).join(', ')}`,
    )
    expect(held.size).toBe(KEYS.length + 3)
  }
})
