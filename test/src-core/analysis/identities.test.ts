import { readFileSync } from 'node:fs'
import { describe, expect, it } from 'vitest'
import type { PeriodFigures } from '../../../src-core/analysis/analysis'
import { openVisit } from '../../../src-core/analysis/openVisit'
import type { Summary } from '../../../src-core/statistics/summary'
import { CONTEXT, logOf } from '../../helpers/logs'
import { analysisOf, fixedChance, inventedLog } from '../../helpers/analysisFixture'
import { sample } from '../../helpers/runCli'
import { compareFigures, type Figure, figuresOf } from '../../reference/referenceFigures'

const SAMPLES = ['season-two-meters', 'europe-mmol', 'technique-morning', 'two-months']

function opened(text: string) {
  const outcome = openVisit([logOf(text)], {}, CONTEXT)
  if (outcome.kind !== 'analysed') throw new Error(JSON.stringify(outcome))
  return outcome.analysis
}

/** The figures without lines of the log. */
function withoutLines(figures: Figure): Figure {
  return JSON.parse(
    JSON.stringify(figures, (key, value: Figure) => (key === 'line' ? undefined : value)),
  ) as Figure
}

describe.each(SAMPLES)('the rows of %s', (name) => {
  it('may stand in any order', () => {
    const text = readFileSync(sample(`${name}.csv`), 'utf8')
    const [header, ...rows] = text.trimEnd().split(/\r?\n/)
    const chance = fixedChance(7)
    const places = rows.map((row) => ({ row, place: chance() })).sort((a, b) => a.place - b.place)
    const shuffled = opened([header, ...places.map(({ row }) => row), ''].join('\n'))
    const asWritten = withoutLines(figuresOf(opened(text))) as Readonly<Record<string, Figure>>
    const { periods, readings } = asWritten
    const { compared, apart } = compareFigures(withoutLines(figuresOf(shuffled)), { periods, readings })
    expect(apart).toEqual([])
    expect(compared).toBeGreaterThan(1000)
  })
})

describe('the shares of readings', () => {
  it('below 70, in 70 to 180 and above 180 add up to 100 %', () => {
    for (let seed = 1; seed <= 8; seed++) {
      const unit = seed % 2 ? 'mg/dL' : 'mmol/L'
      const log = inventedLog({ days: 5 + 3 * seed, unit, seed, centre: 120, spread: 0.5, repeats: 0.2 })
      const { asLogged } = analysisOf(log, { unit }).periods[0]
      const parts = [asLogged.percentBelow70, asLogged.percentInTarget, asLogged.percentAbove180]
      expect(parts.reduce((sum: number, share) => sum + (share ?? NaN), 0)).toBeCloseTo(100, 10)
    }
  })
})

describe('the same log in the other unit', () => {
  // A value rounded to 0.1 mmol/L lies at most 0.05 x 18.0156 = 0.90078 mg/dL off.
  const MOST = 0.05 * 18.0156 + 1e-9

  it('has the same figures but for what rounding moves', () => {
    const log = inventedLog({ days: 60, centre: 125, spread: 0.45, repeats: 0.2, seed: 5 })
    const mmol = log.map((one) => ({ ...one, value: Math.round((Number(one.value) / 18.0156) * 10) / 10 }))
    const [one] = analysisOf(log).periods
    const [other] = analysisOf(mmol, { unit: 'mmol/L' }).periods
    const names = [
      'meanMgDl',
      'medianMgDl',
      'q1MgDl',
      'q3MgDl',
      'minMgDl',
      'maxMgDl',
      'balancedMeanMgDl',
    ] as const
    for (const name of names) {
      expect(Math.abs(Number(one.asLogged[name]) - Number(other.asLogged[name]))).toBeLessThanOrEqual(MOST)
    }
    one.timeOfDay.hours.forEach(({ n, median }, hour) => {
      expect(other.timeOfDay.hours[hour].n).toBe(n)
      expect(Math.abs((median ?? 0) - (other.timeOfDay.hours[hour].median ?? 0))).toBeLessThanOrEqual(MOST)
    })
    // Only readings beside a limit may change sides.
    const beside = (limit: number) => log.filter(({ value }) => Math.abs(Number(value) - limit) <= 1).length
    const counts = (of: PeriodFigures) => [
      of.lows.readingsBelow54,
      of.lows.readingsBelow70,
      (Number(of.asLogged.percentAbove180) * of.asLogged.n) / 100,
      (Number(of.asLogged.percentAbove250) * of.asLogged.n) / 100,
    ]
    const limits = [54, 70, 180, 250]
    counts(one).forEach((count, i) =>
      expect(Math.abs(count - counts(other)[i])).toBeLessThanOrEqual(beside(limits[i])),
    )
    expect(counts(one).every((count) => count > 0)).toBe(true)
  })
})

describe('a period split in two', () => {
  const log = inventedLog({ days: 50, centre: 125, spread: 0.45, repeats: 0.2, seed: 9 })
  const whole = analysisOf(log)
  const [{ from, to }] = whole.periods

  it.each([1, 20, 49])('after day %i gives the whole when pooled', (days) => {
    const parts = analysisOf(log, {
      period: { from, to: from + days - 1 },
      versus: { from: from + days, to },
    }).periods
    const [all] = whole.periods
    const sum = (of: (part: PeriodFigures) => number) => parts.reduce((total, part) => total + of(part), 0)
    const n = sum(({ asLogged }) => asLogged.n)
    expect(n).toBe(all.asLogged.n)
    expect(sum((part) => part.daysWithReadings)).toBe(all.daysWithReadings)
    expect(sum(({ lows }) => lows.readingsBelow70)).toBe(all.lows.readingsBelow70)
    expect(sum(({ lows }) => lows.nightsTested)).toBe(all.lows.nightsTested)
    const pooled = (name: keyof Summary) =>
      sum(({ asLogged }) => asLogged.n * Number(asLogged[name])) / n - Number(all.asLogged[name])
    for (const name of [
      'meanMgDl',
      'percentBelow54',
      'percentInTarget',
      'percentAbove250',
      'lbgi',
      'hbgi',
    ] as const) {
      expect(pooled(name)).toBeCloseTo(0, 9)
    }
    // Squares within the parts and between them are those of the whole.
    const squares = sum(
      ({ asLogged }) =>
        (asLogged.n - 1) * Number(asLogged.sdMgDl) ** 2 +
        asLogged.n * (Number(asLogged.meanMgDl) - Number(all.asLogged.meanMgDl)) ** 2,
    )
    expect(Math.sqrt(squares / (n - 1))).toBeCloseTo(Number(all.asLogged.sdMgDl), 9)
    all.timeOfDay.blocks.forEach((block, i) =>
      expect(sum(({ timeOfDay }) => timeOfDay.blocks[i].n)).toBe(block.n),
    )
  })
})
