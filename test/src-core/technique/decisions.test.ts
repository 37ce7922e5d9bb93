import type { Choice, Decision } from '../../../src-core/model/decision'
import { describe, expect, it } from 'vitest'
import { reportJson } from '../../../src-core/exchange/reportJson'
import { isLow } from '../../../src-core/log/readings'
import { mean, sampleSd } from '../../../src-core/statistics/moments'
import { effects } from '../../../src-core/technique/effect'
import { keyOf } from '../../../src-core/analysis/readingKeys'
import { analysisOf, type FixtureReading } from '../../helpers/analysisFixture'
import { ENGLISH } from '../../../src-core/wording/english'

// Twelve calm mornings, a high that its repeat contradicts, a low.
const ROWS: readonly FixtureReading[] = [
  ...Array.from({ length: 12 }, (_, i) => ({
    at: `2026-03-${String(i + 1).padStart(2, '0')} 07:00`,
    value: 110 + (i % 5),
  })),
  { at: '2026-03-13 07:00', value: 260 },
  { at: '2026-03-13 07:03', value: 118 },
  { at: '2026-03-14 12:00', value: 61 },
]

const plain = analysisOf(ROWS)
const indexOf = (value: number) => Array.from(plain.readings.mgDl).indexOf(value)

function decided(value: number, choice: Choice, reason = '') {
  const reading = keyOf(plain.readings, indexOf(value), [plain.sources[0].sha256])
  const decision: Decision = { reading, choice, reason, decidedAt: '2026-03-20T10:00' }
  return analysisOf(ROWS, { decisions: [decision] })
}

describe('a decision', () => {
  it('to keep takes the mark away and is told as the person’s', () => {
    expect(plain.technique.doubtful.map(({ index }) => index)).toEqual([indexOf(260)])
    const { technique, periods } = decided(260, 'keep', 'cake')
    expect(technique.doubtful).toEqual([])
    expect(technique.decided).toEqual([
      { index: indexOf(260), choice: 'keep', reason: 'cake', decidedAt: '2026-03-20T10:00', flagged: true },
    ])
    // The set counts once, at the mean of both.
    expect(periods[0].checked.n).toBe(14)
    expect(periods[0].checked.maxMgDl).toBe((260 + 118) / 2)
  })

  it('to leave out takes a sound reading out of the checked figures, not out of the logged ones', () => {
    const { technique, periods } = decided(111, 'leave-out')
    expect(technique.decided[0].flagged).toBe(false)
    expect(periods[0].asLogged.n).toBe(15)
    expect(periods[0].checked.n).toBe(plain.periods[0].checked.n - 1)
  })

  it('to leave a low out takes it out of averages; it still counts as a low', () => {
    const { periods } = decided(61, 'leave-out', 'somebody else used the meter')
    expect(periods[0].checked.minMgDl).toBe(110)
    expect(periods[0].checked.percentBelow70).toBe(plain.periods[0].asLogged.percentBelow70)
    expect(periods[0].lows.readingsBelow70).toBe(1)
  })

  it('stands in the JSON; one whose reading is gone does not, and is remembered', () => {
    const json = reportJson(ENGLISH, decided(260, 'leave-out', 'fruit'), { name: 'x', version: '1' }) as {
      technique: { decided: unknown[] }
    }
    expect(json.technique.decided).toMatchObject([
      { mgDl: 260, choice: 'leave-out', reason: 'fruit', flagged: true },
    ])
    const reading = { ...keyOf(plain.readings, 0, ['x']), at: '2025-01-01T07:00' }
    const gone = { reading, choice: 'keep' as const, reason: '', decidedAt: '2026-03-20T10:00' }
    const analysis = analysisOf(ROWS, { decisions: [gone] })
    expect(analysis.technique.decided).toEqual([])
    expect(analysis.decisionsGone).toEqual([gone])
  })
})

describe('the effect of a reading', () => {
  it('is the change of mean and SD when it alone is left out', () => {
    const { readings, technique } = plain
    const all = Array.from({ length: readings.n }, (_, i) => i)
    const [effect] = effects(readings, all, technique)
    const values = (indexes: number[]) => Float64Array.from(indexes, (i) => readings.mgDl[i])
    const without = all.filter((i) => i !== effect.index)
    expect(readings.mgDl[effect.index]).toBe(260)
    expect(effect.mean).toBeCloseTo((mean(values(without)) ?? NaN) - (mean(values(all)) ?? NaN), 10)
    expect(effect.sd).toBeCloseTo((sampleSd(values(without)) ?? NaN) - (sampleSd(values(all)) ?? NaN), 10)
  })

  it('is told of no low, unless the person left it out', () => {
    const all = (n: number) => Array.from({ length: n }, (_, i) => i)
    const { readings, technique } = decided(61, 'leave-out')
    expect(
      effects(plain.readings, all(15), plain.technique).some(({ index }) => isLow(plain.readings, index)),
    ).toBe(false)
    expect(effects(readings, all(15), technique).some(({ index }) => isLow(readings, index))).toBe(true)
  })
})
