import { describe, expect, it } from 'vitest'
import type { Kit } from '../../../src-core/kit/kit'
import { clocksAsked } from '../../../src-core/told/clocks'
import { analysisOf, type FixtureReading } from '../../helpers/analysisFixture'
import { documentOf } from '../../helpers/pages'

const KIT: Kit = { clocks: [{ shown: '2026-03-10T08:04', true: '2026-03-10T08:00' }] }
const rows = (meters: readonly string[], time = ' 08:00'): readonly FixtureReading[] =>
  meters.map((meter, i) => ({ at: `2026-03-0${i + 1}${time}`, value: 120, meter }))
const askedOf = (log: readonly FixtureReading[], kit: Kit = {}) => {
  const analysis = analysisOf(log, { kit })
  return clocksAsked(analysis, analysis.periods[0])
}

describe('the clock of a meter', () => {
  it('is asked about where the kit tells of none, each by its name where they are two or three', () => {
    expect(askedOf(rows(['A1']))).toEqual([null])
    expect(askedOf(rows(['kitchen meter', 'bag meter']))).toEqual([0, 1])
    expect(askedOf(rows(['one', 'two', 'three', 'four']))).toEqual([null])
  })

  it('is not asked about where the kit tells of it, nor where no reading has a time', () => {
    expect(askedOf(rows(['A1']), KIT)).toEqual([])
    expect(askedOf(rows(['A1'], ''))).toEqual([])
  })

  it('has its line for the pen, once', () => {
    const said = (kit: Kit) =>
      JSON.stringify(documentOf(analysisOf(rows(['A1']), { kit }))).split('Meter clock now: ').length - 1
    expect(said({})).toBe(1)
    expect(said({ questions: ['Why?'] })).toBe(1)
    expect(said(KIT)).toBe(0)
  })
})
