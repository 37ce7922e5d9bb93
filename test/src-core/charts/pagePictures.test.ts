import { describe, expect, it } from 'vitest'
import { daysPicture } from '../../../src-core/charts/daysPicture'
import { distributionPicture } from '../../../src-core/charts/distributionPicture'
import { PRINT_PALETTE } from '../../../src-core/charts/palette'
import { repeatPairs, repeatsPicture, standardLimitPercent } from '../../../src-core/charts/repeatsPicture'
import type { Scene } from '../../../src-core/charts/scene'
import { drawnNodes, groupNamed } from '../../helpers/scenes'
import { analysisOf } from '../../helpers/analysisFixture'
import { crowdedAnalysis } from './crowdedLogs'
import { overlappingTexts, textsOf, textsOutside, textsTooSmall } from './sceneTexts'
import { ENGLISH } from '../../../src-core/wording/english'

const SIZE = { width: 521, height: 110, palette: PRINT_PALETTE }

const LOGS = {
  'twenty readings': { readings: 20, lows: 2 },
  'twenty readings, mmol/L': { readings: 20, lows: 2, unit: 'mmol/L' },
  '480 readings, LO and HI': { readings: 480, lows: 11, markers: true },
  '5,000 readings over years': { readings: 5_000, lows: 300, perDay: 3, contradicted: 0.1 },
} as const

const squares = (scene: Scene) => drawnNodes(scene).filter((node) => node.kind === 'square')

function expectLegible(scene: Scene): void {
  expect(textsTooSmall(scene)).toEqual([])
  expect(textsOutside(scene)).toEqual([])
  expect(overlappingTexts(scene)).toEqual([])
}

describe.each(Object.entries(LOGS))('of %s, the days in rows', (_name, log) => {
  const analysis = crowdedAnalysis(log)
  const [period] = analysis.periods
  const scene = daysPicture(ENGLISH, analysis, period, SIZE)

  it('show every low as a square and say how many there are', () => {
    expect(squares(scene)).toHaveLength(period.lows.readingsBelow70)
    const told = textsOf(scene).flatMap(({ text }) => /^■ (\d+)$/.exec(text)?.[1] ?? [])
    expect(told.reduce((sum, n) => sum + Number(n), 0)).toBe(period.lows.readingsBelow70)
  })

  it('are at most 36 rows that hold all readings together', () => {
    const counts = groupNamed(scene, 'rows').flatMap((node) =>
      node.kind === 'text' && /^\d+$/.test(node.text) ? [Number(node.text)] : [],
    )
    expect(counts.length).toBeLessThanOrEqual(36)
    expect(counts.reduce((sum, n) => sum + n, 0)).toBe(period.asLogged.n)
  })

  it('are legible', () => {
    expectLegible(scene)
  })

  it('are told in words with the same counts', () => {
    const told = [...scene.description.matchAll(/, (\d+) lows?(?=[;.])/g)].map(([, n]) => Number(n))
    expect(told.reduce((sum, n) => sum + n, 0)).toBe(period.lows.readingsBelow70)
  })
})

describe.each(Object.entries(LOGS))('of %s, the bars of the readings', (_name, log) => {
  const analysis = crowdedAnalysis(log)
  const [period] = analysis.periods
  const scene = distributionPicture(ENGLISH, analysis, period, SIZE)
  const bars = groupNamed(scene, 'bars')

  it('count every reading once, and in ink the lows', () => {
    const counts = bars.flatMap((node) => (node.kind === 'text' ? [Number(node.text)] : []))
    expect(counts.reduce((sum, n) => sum + n, 0)).toBe(period.asLogged.n)
    const lows = bars.flatMap((node, i) => {
      const label = bars.at(i + 1)
      const isInk = node.kind === 'line' && node.stroke.color === PRINT_PALETTE.ink
      return isInk && label?.kind === 'text' ? [Number(label.text)] : []
    })
    expect(lows.reduce((sum, n) => sum + n, 0)).toBe(period.lows.readingsBelow70)
  })

  it('are legible', () => {
    expectLegible(scene)
  })
})

describe('repeat tests against one another', () => {
  // Peak flow of 17 people, measured twice with one meter: Bland and Altman, Lancet 1986;i:307-310.
  const FIRST = [494, 395, 516, 434, 476, 557, 413, 442, 650, 433, 417, 656, 267, 478, 178, 423, 427]
  const SECOND = [490, 397, 512, 401, 470, 611, 415, 431, 638, 429, 420, 633, 275, 492, 165, 372, 421]
  const analysis = analysisOf(
    FIRST.flatMap((first, i) => {
      const day = `2026-03-${String(i + 2).padStart(2, '0')}`
      return [
        { at: `${day} 08:00`, value: first },
        { at: `${day} 08:03`, value: SECOND[i] },
      ]
    }),
  )
  const { repeatSets } = analysis.technique

  it('take the difference of two tests against their mean, as published', () => {
    const pairs = repeatPairs(analysis, repeatSets)
    const differences = pairs.map(({ mean, differencePercent }) => (mean * differencePercent) / 100)
    expect(pairs).toHaveLength(17)
    // The paper prints 21.6 as the root mean square of these differences.
    const squared = differences.reduce((sum, difference) => sum + difference ** 2, 0)
    expect(Math.sqrt(squared / 17)).toBeCloseTo(21.6, 1)
  })

  it('are held against what two tests within the standard keep (ISO 15197:2013: 15 mg/dL, 15 % from 100 on)', () => {
    // Two independent tests differ by the square root of two times as much as one from the truth.
    expect(standardLimitPercent(200)).toBeCloseTo(15 * Math.SQRT2, 9)
    expect(standardLimitPercent(50)).toBeCloseTo(30 * Math.SQRT2, 9)
  })

  it('are legible, with one mark for each pair', () => {
    const scene = repeatsPicture(ENGLISH, analysis, repeatSets, SIZE)
    expectLegible(scene)
    const marks = drawnNodes(scene).reduce(
      (sum, node) =>
        sum +
        (node.kind === 'dots'
          ? node.points.length
          : node.kind === 'circle' || node.kind === 'square'
            ? 1
            : 0),
      0,
    )
    expect(marks).toBe(17)
    expect(scene.description).toMatch(/^17 pairs of repeat tests; /)
  })
})
