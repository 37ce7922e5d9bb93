import { describe, expect, it } from 'vitest'
import { analysisOf, type FixtureReading } from '../../helpers/analysisFixture'
import { documentOf } from '../../helpers/pages'

function printed(rows: readonly FixtureReading[]): string {
  return JSON.stringify(documentOf(analysisOf(rows)).content)
}

const TRIAL: readonly FixtureReading[] = [
  { at: '2026-03-08 10:00', value: 119, note: 'washed hands' },
  { at: '2026-03-08 10:05', value: 113, note: 'trial: wet finger' },
  { at: '2026-03-08 10:10', value: 180, note: 'trial: juice on finger' },
]

describe('meters against each other', () => {
  it('are printed where they have pairs, with no word of which is right', () => {
    const text = printed([
      { at: '2026-03-08 07:00', value: 100, meter: 'K-1' },
      { at: '2026-03-08 07:03', value: 110, meter: 'K-2' },
    ])
    expect(text).toContain('Meters against each other')
    expect(text).toContain('Two home meters have no reference between them')
    expect(text).toContain('Meter A and meter B: 100 and 110. Too few pairs to say how the meters differ.')
    expect(text).not.toMatch(/K-1|accura/)
  })

  it('are left out where no two were used within minutes', () => {
    expect(printed([{ at: '2026-03-08 07:00', value: 100 }])).not.toContain('Meters against each other')
  })
})

describe('technique trials', () => {
  it('tell an effect from what one round cannot see, never ‘no effect’', () => {
    const text = printed(TRIAL)
    // 180 against 119: +51 %; 113: -5 %; repeatability unknown, so 1.96 x sqrt(2) x 5 = 14 %.
    expect(text).toMatch(/juice on finger.*\+51 %.*an effect/)
    expect(text).toMatch(/wet finger.*−5 %.*not proven \(one round shows nothing below 14 %\)/)
    expect(text).not.toMatch(/no effect/)
    expect(text).toContain('never to dose on')
  })

  it('are left out where there is none', () => {
    expect(printed(TRIAL.slice(0, 1))).not.toContain('A fair trial')
  })
})
