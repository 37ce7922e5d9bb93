import { describe, expect, it } from 'vitest'
import { tellsOfSymptoms } from '../../../src-core/day/symptomWords'
import { analysisOf, type FixtureReading } from '../../helpers/analysisFixture'
import { besideNumbers } from '../../../src-core/told/besideNumbers'
import { ENGLISH } from '../../../src-core/wording/english'

/** Thirty days of 150 at 8:00 and 19:00. */
const usual = (): readonly FixtureReading[] =>
  Array.from({ length: 30 }, (_, i) => `2026-04-${String(i + 1).padStart(2, '0')}`).flatMap((day, i) => [
    { at: `${day} 08:00`, value: 145 + (i % 11) },
    { at: `${day} 19:00`, value: 145 + (i % 11) },
  ])
const sorted = (rows: readonly FixtureReading[]) => [...rows].sort((a, b) => (a.at < b.at ? -1 : 1))
const found = (rows: readonly FixtureReading[]) => analysisOf(sorted(rows)).periods[0].unprompted

describe('tests made because something was felt', () => {
  it('are those with a note of symptoms, within an hour after a low, and at hours seldom tested', () => {
    expect(found(usual())).toBeNull()
    expect(found([...usual(), { at: '2026-04-09 08:30', value: 90, note: 'felt shaky' }])).toMatchObject({
      prompted: 1,
      n: 60,
    })
    // The low of a usual hour stays, its two rechecks do not; a test two hours later does, at its usual hour.
    const low = [
      { at: '2026-04-09 19:10', value: 62 },
      { at: '2026-04-09 19:25', value: 66 },
      { at: '2026-04-09 19:50', value: 101 },
    ]
    expect(found([...usual(), ...low])).toMatchObject({ prompted: 2, n: 61 })
    // Two nights of 30: fewer than one day in ten.
    const nights = ['2026-04-09', '2026-04-20'].map((day) => ({ at: `${day} 03:00`, value: 300 }))
    expect(found([...usual(), ...nights])).toMatchObject({ prompted: 2, n: 60 })
    const more = ['04', '09', '14', '20', '25'].map((day) => ({ at: `2026-04-${day} 03:00`, value: 300 }))
    expect(found([...usual(), ...more])).toBeNull()
  })

  it('are left out of a second mean and share, told where these lie outside what is known', () => {
    const highs = ['03', '13', '23'].flatMap((hour) =>
      ['05', '12'].map((day) => ({ at: `2026-04-${day} ${hour}:40`, value: 400 })),
    )
    const rows = sorted([...usual(), ...highs])
    const values = usual().map(({ value }) => value as number)
    expect(found(rows)?.meanMgDl).toBeCloseTo(values.reduce((sum, value) => sum + value, 0) / 60, 9)
    const texts = (of: readonly FixtureReading[]) => {
      const analysis = analysisOf(of)
      return besideNumbers(analysis, analysis.periods[0]).map((beside) =>
        ENGLISH.besideNumbers.besideSentence(beside, analysis.settings, 'without-year'),
      )
    }
    // 60 of 66 in target: the other 60 are all in it, which lies above 79 to 96 %.
    expect(texts(rows).join(' ')).toMatch(
      /^6 tests seem to have been made because something was felt .* The other 60: mean 150, 100 % from 70 to 180\. Every low still counts\.$/,
    )
    expect(texts(sorted([...usual(), { at: '2026-04-09 03:00', value: 150 }]))).toEqual([])
  })
})

it.each([
  'shaky',
  'Felt low',
  'gezittert, Schwindel',
  'malaise',
  'mareo',
  'sudore freddo: sudorazione',
  'thirsty',
])('‘%s’ tells of symptoms', (note) => {
  expect(tellsOfSymptoms(note)).toBe(true)
})
it.each(['', 'feeling well', 'not shaky', 'ohne Schwindel', 'long walk'])('‘%s’ does not', (note) => {
  expect(tellsOfSymptoms(note)).toBe(false)
})
