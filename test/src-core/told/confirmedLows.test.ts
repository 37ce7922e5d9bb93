import { describe, expect, it } from 'vitest'
import { lowsView } from '../../../src-core/bridge/lowsView'
import { readingView } from '../../../src-core/bridge/readingView'
import { terminalSummary } from '../../../src-core/report/terminalSummary'
import { contradictions } from '../../../src-core/technique/reasons/contradictedByRepeat'
import type { DoubtReason } from '../../../src-core/technique/reasons/reasonTable'
import { confirmedLows } from '../../../src-core/told/confirmedLows'
import { ENGLISH } from '../../../src-core/wording/english'
import { analysisOf, type FixtureReading } from '../../helpers/analysisFixture'
import { documentOf } from '../../helpers/pages'

/** 40 calm tests, then these five minutes apart. */
function analysisWith(values: readonly FixtureReading['value'][]) {
  const calm = Array.from({ length: 40 }, (_, i) => ({
    at: `2026-02-${String(1 + (i % 28)).padStart(2, '0')} ${i < 28 ? '08' : '19'}:00`,
    value: 110 + ((i * 7) % 30),
  }))
  const rows = [...calm, ...values.map((value, i) => ({ at: `2026-03-08 07:${20 + 5 * i}`, value }))]
  return analysisOf(rows.sort((a, b) => (a.at < b.at ? -1 : 1)))
}

describe('a doubtful low', () => {
  const analysis = analysisWith(['LO', 56, 95])
  const [first, second] = [40, 41]
  const of = (marked: readonly number[], bracketed: readonly number[] = []) => [
    ...confirmedLows({ marked: new Set(marked), bracketed: new Set(bracketed) }, analysis.periods[0]),
  ]

  it('is confirmed by another low of its episode that is not doubtful', () => {
    expect(of([first])).toEqual([first])
    expect(of([second])).toEqual([second])
    expect(of([first], [second])).toEqual([])
    expect(of([first, second])).toEqual([])
    expect(of([])).toEqual([])
  })

  it('is not confirmed by a test that is none', () => {
    const { periods } = analysisWith(['LO', 156])
    expect([...confirmedLows({ marked: new Set([first]), bracketed: new Set() }, periods[0])]).toEqual([])
  })
})

describe('LO, then 56', () => {
  const found = analysisWith(['LO', 56, 95])
  const analysis = { ...found, marked: new Set([40]) }

  it('is told as low either way wherever the reading is told', () => {
    const [view] = lowsView(ENGLISH, analysis, analysis.periods[0]).lowest
    expect(view).toMatchObject({ confirmed: 'low either way' })
    expect(
      lowsView(ENGLISH, { ...found, marked: new Set() }, found.periods[0]).lowest[0].confirmed,
    ).toBeNull()
    expect(terminalSummary(ENGLISH, analysis, []).join('\n')).toMatch(
      /Lows: 2 readings below 70, .* Every one counts\. One of the doubtful ones stands beside another low: low either way/,
    )
    // On page 1, and with each low.
    const said = JSON.stringify(documentOf(analysis)).split('low either way').length - 1
    expect(said).toBeGreaterThanOrEqual(2)
  })

  it('is told so in the panel too, once', () => {
    const doubtOf = (reasons: readonly DoubtReason[]) => {
      const technique = { ...analysis.technique, doubtful: [{ index: 40, doubt: 0.9, reasons }] }
      return readingView(ENGLISH, { ...analysis, technique }, 40)?.doubt
    }
    expect(doubtOf([])?.confirmed).toMatch(/^Low either way/)
    const [reason] = contradictions(found.readings, [40, 41])
    if (reason === null) throw new Error('LO and 56 agree')
    expect(doubtOf([reason])).toMatchObject({ confirmed: null })
    expect(doubtOf([reason])?.reasons[0]).toContain('low either way')
  })
})
