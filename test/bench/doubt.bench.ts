import { expect, it } from 'vitest'
import { DEFAULT_SETTINGS } from '../../src-core/model/settings'
import { isLow } from '../../src-core/log/readings'
import { assessTechnique } from '../../src-core/technique/assessTechnique'
import { chronologicalOrder } from '../../src-core/technique/chronology'
import { randomSource } from '../helpers/randomSource'
import { at, readingsOf, row } from '../src-core/analysis/readingsOf'
import { isOff, type Setting, simulateLog } from './simulatedLogs'

const LOGS = 200
/** Seeds that no constant of the model was looked at with. */
const FIRST_SEED = 50_001
const START = at('2026-01-01 00:00')

/** One simulated reading as judged: by the model and by two plain rules. */
interface Judged {
  readonly off: boolean
  readonly doubt: number
  readonly flagged: boolean
  readonly pairDiffers: boolean
  readonly firstDiffers: boolean
  readonly repeated: boolean
  readonly realLow: boolean
  readonly afterTreatedLow: boolean
}

function judge(seed: number, setting: Setting): Judged[] {
  const log = simulateLog(seed, setting)
  const readings = readingsOf(log.map(({ minutes, mgDl }) => row(START + minutes * 60, mgDl)))
  const technique = assessTechnique(readings, chronologicalOrder(readings), DEFAULT_SETTINGS)
  const flagged = new Set(technique.doubtful.map(({ index }) => index))
  return log.map((test, i) => {
    const isRepeat = i > 0 && test.minutes - log[i - 1].minutes <= 10
    const isRepeated = i + 1 < log.length && log[i + 1].minutes - test.minutes <= 10
    const differs = (other: number) => (2 * Math.abs(test.mgDl - other)) / (test.mgDl + other)
    return {
      off: isOff(test),
      doubt: technique.doubt[i],
      flagged: flagged.has(i),
      pairDiffers:
        (isRepeat && differs(log[i - 1].mgDl) > 0.15) || (isRepeated && differs(log[i + 1].mgDl) > 0.15),
      firstDiffers: !isRepeat && isRepeated && Math.abs(test.mgDl / log[i + 1].mgDl - 1) > 0.2,
      repeated: isRepeat || isRepeated,
      realLow: test.trueMgDl < 70 && isLow(readings, i),
      afterTreatedLow: test.afterTreatedLow,
    }
  })
}

const share = (part: number, whole: number) => (whole === 0 ? NaN : part / whole)

function scores(all: readonly Judged[], flag: (one: Judged) => boolean) {
  const hits = all.filter((one) => one.off && flag(one)).length
  const flags = all.filter(flag).length
  const offs = all.filter(({ off }) => off).length
  return { precision: share(hits, flags), recall: share(hits, offs), f1: share(2 * hits, flags + offs) }
}

function averagePrecision(all: readonly Judged[]): number {
  let hits = 0
  let sum = 0
  const sorted = [...all].sort((a, b) => b.doubt - a.doubt)
  sorted.forEach(({ off }, i) => {
    if (off) sum += ++hits / (i + 1)
  })
  return share(sum, hits)
}

const brier = (all: readonly Judged[]) =>
  share(
    all.reduce((sum, { off, doubt }) => sum + (doubt - Number(off)) ** 2, 0),
    all.length,
  )

/** SD of a figure over logs drawn again with replacement. */
function spread(logs: readonly Judged[][], figure: (all: readonly Judged[]) => number): number {
  const source = randomSource(1)
  const values = Array.from({ length: 40 }, () =>
    figure(logs.flatMap((_, __, { length }) => logs[source.nextBelow(length)])),
  )
  const mean = values.reduce((sum, value) => sum + value, 0) / values.length
  return Math.sqrt(values.reduce((sum, value) => sum + (value - mean) ** 2, 0) / (values.length - 1))
}

const percent = (value: number) => `${(100 * value).toFixed(1)} %`

it.each(['mild', 'harsh'] as const)('doubts of %s simulated logs', (setting) => {
  const logs = Array.from({ length: LOGS }, (_, i) => judge(FIRST_SEED + i, setting))
  const all = logs.flat()
  const lines: string[] = []
  const told = (name: string, figure: (some: readonly Judged[]) => number) =>
    lines.push(`${name.padEnd(26)} ${figure(all).toFixed(4)} ± ${spread(logs, figure).toFixed(4)}`)

  lines.push(`${setting}: ${LOGS} logs of 60 days, seeds from ${FIRST_SEED}, ${all.length} readings`)
  told('off by more than 30 %', (some) => share(some.filter(({ off }) => off).length, some.length))
  told('mean doubt', (some) => share(some.reduce((sum, { doubt }) => sum + doubt, 0), some.length)) // prettier-ignore
  told('average precision', averagePrecision)
  told('Brier', brier)
  for (const [rule, flag] of [
    ['the program', ({ flagged }: Judged) => flagged],
    ['pair differs > 15 %', ({ pairDiffers }: Judged) => pairDiffers],
    ['first of pair > 20 %', ({ firstDiffers }: Judged) => firstDiffers],
  ] as const) {
    told(`F1, ${rule}`, (some) => scores(some, flag).f1)
    for (const [group, some] of [
      ['all', all],
      ['with a repeat', all.filter(({ repeated }) => repeated)],
      ['without one', all.filter(({ repeated }) => !repeated)],
    ] as const) {
      const { precision, recall, f1 } = scores(some, flag)
      lines.push(
        `  ${group.padEnd(14)} precision ${precision.toFixed(3)} recall ${recall.toFixed(3)} F1 ${f1.toFixed(3)}`,
      )
    }
  }
  const realLows = all.filter(({ realLow }) => realLow)
  const flaggedLows = realLows.filter(({ flagged }) => flagged).length
  lines.push(
    `real lows flagged: ${flaggedLows} of ${realLows.length}, ${percent(flaggedLows / realLows.length)}`,
  )

  const after = all.filter(({ afterTreatedLow }) => afterTreatedLow)
  const contaminated = after.filter(({ off }) => off)
  const honest = after.filter(({ off }) => !off)
  const flaggedOf = (some: readonly Judged[]) =>
    `${some.filter(({ flagged }) => flagged).length} of ${some.length}`
  lines.push(
    `after treated lows: flagged ${flaggedOf(contaminated)} that are off, ${flaggedOf(honest)} that are not`,
  )

  const edges = [0, 0.01, 0.05, 0.1, 0.2, 0.4, 0.6, 0.8, 0.9, 1]
  edges.slice(0, -1).forEach((from, i) => {
    const to = edges[i + 1]
    const bin = all.filter(({ doubt }) => doubt >= from && (doubt < to || to === 1))
    const mean = share(bin.reduce((sum, { doubt }) => sum + doubt, 0), bin.length) // prettier-ignore
    const rate = share(bin.filter(({ off }) => off).length, bin.length)
    lines.push(`doubt ${from} to ${to}: ${bin.length} readings, mean ${percent(mean)}, off ${percent(rate)}`)
  })
  console.log(lines.join('\n'))

  const program = scores(all, ({ flagged }) => flagged).f1
  expect(program).toBeGreaterThan(scores(all, ({ pairDiffers }) => pairDiffers).f1)
  expect(program).toBeGreaterThan(scores(all, ({ firstDiffers }) => firstDiffers).f1)
  expect(flaggedLows / realLows.length).toBeLessThan(0.03)
})

it('time for a year and for ten years of finger-sticks', () => {
  const many = Array.from({ length: 60 }, (_, i) => {
    const log = simulateLog(FIRST_SEED + i, 'mild')
    return log.map(({ minutes, mgDl }) => row(START + (i * 60 * 1440 + minutes) * 60, mgDl))
  }).flat()
  for (const n of [2_000, 20_000]) {
    const readings = readingsOf(many.slice(0, n))
    const order = chronologicalOrder(readings)
    const times = Array.from({ length: 5 }, () => {
      const started = process.cpuUsage()
      assessTechnique(readings, order, DEFAULT_SETTINGS)
      const { user, system } = process.cpuUsage(started)
      return (user + system) / 1000
    })
    console.log(`${readings.n} readings: ${times.map((ms) => ms.toFixed(0)).join(', ')} ms`)
    expect(readings.n).toBeGreaterThan(n * 0.9)
  }
})
