import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { loggedUnit } from '../../../src-core/log/readings'
import { choicesTold, logbookOf, notesOf, refusalsOf, refusalTold } from '../../helpers/logs'
import { runs } from '../../helpers/runs'

// Values that no meter shows in the unit that the log names. Meters show 20 to 600 mg/dL, or 1.1 to 33.3 mmol/L
// (ISO 15197:2013 has them say their range; the one that most share), so 6.8 in mg/dL is a value in mmol/L, and 110 in
// mmol/L one in mg/dL. The values and their units are the test's own.

type Unit = 'mg/dL' | 'mmol/L'
interface Value {
  readonly text: string
  readonly unit: Unit
}

const OTHER = { 'mg/dL': 'mmol/L', 'mmol/L': 'mg/dL' } as const
const VALUE = {
  'mg/dL': fc.integer({ min: 40, max: 400 }).map(String),
  'mmol/L': fc.integer({ min: 11, max: 199 }).map((tenths) => (tenths / 10).toFixed(1)),
} as const

/** Where the log says its unit. */
type Place = 'header' | 'column' | 'cells' | 'title'
const PLACES: readonly Place[] = ['header', 'column', 'cells', 'title']

function logText(values: readonly Value[], stated: Unit, place: Place): string {
  const header = place === 'header' ? `Glucose (${stated})` : 'Glucose'
  const rows = values.map(({ text }, i) => {
    const day = `2026-03-${String(1 + Math.floor(i / 10)).padStart(2, '0')}`
    const cell = place === 'cells' ? `${text} ${stated}` : text
    return [
      `${day} ${String(6 + (i % 10)).padStart(2, '0')}:10`,
      cell,
      ...(place === 'column' ? [stated] : []),
    ]
  })
  return [
    ...(place === 'title' ? [[`Blood glucose, all values in ${stated}`]] : []),
    ['Time', header, ...(place === 'column' ? ['Unit'] : [])],
    ...rows,
  ]
    .map((cells) => cells.map((cell) => (cell.includes(',') ? `"${cell}"` : cell)).join(','))
    .join('\n')
}

const lineOf = (index: number, place: Place): number => index + (place === 'title' ? 3 : 2)

const LOG = fc
  .record({
    rows: fc.constantFrom(1, 2, 3, 4, 10, 100),
    odd: fc.integer({ min: 1, max: 100 }),
    stated: fc.constantFrom<Unit>('mg/dL', 'mmol/L'),
    place: fc.constantFrom(...PLACES),
  })
  .chain(({ rows, odd, stated, place }) => {
    const count = Math.min(rows, odd <= 50 ? 1 + (odd % 3) : odd)
    return fc.record({
      stated: fc.constant(stated),
      place: fc.constant(place),
      values: fc
        .tuple(
          fc.array(VALUE[stated], { minLength: rows - count, maxLength: rows - count }),
          fc.array(VALUE[OTHER[stated]], { minLength: count, maxLength: count }),
          fc.array(fc.nat(1_000_000), { minLength: rows, maxLength: rows }),
        )
        .map(([own, foreign, ranks]) =>
          [
            ...own.map((text): Value => ({ text, unit: stated })),
            ...foreign.map((text): Value => ({ text, unit: OTHER[stated] })),
          ]
            .map((value, i) => ({ value, rank: ranks[i] }))
            .sort((a, b) => a.rank - b.rank)
            .map(({ value }) => value),
        ),
    })
  })

function readAs(text: string, unit?: Unit | 'mixed') {
  const { readings, sources } = logbookOf([text], unit === undefined ? {} : { unit })
  const values = Array.from(
    { length: readings.n },
    (_, i) => `${readings.logged[i]} ${loggedUnit(readings, i)}`,
  )
  return { values, source: sources[0] }
}

describe('values of a size that no meter shows in the unit named', () => {
  it('are asked about, be they one of a hundred, on the line of the first; each answer gives what it says', () => {
    fc.assert(
      fc.property(LOG, ({ values, stated, place }) => {
        const text = logText(values, stated, place)
        const [refusal] = refusalsOf(text)
        expect(refusal.code).toBe('unit-unknown')
        expect(refusal.line).toBe(lineOf(values.findIndex(({ unit }) => unit !== stated), place))
        expect(refusalTold(refusal)).toContain(`says ${stated}`)
        const choices = refusal.question?.choices ?? []
        expect(choices.length).toBeLessThanOrEqual(3)
        // As written: counted, and said.
        expect(choices.map(({ answer }) => answer)).toContain(stated)
        const written = readAs(text, stated)
        expect(notesOf(written.source).join(' ')).toMatch(/As answered, .* as written/)
        // What is true: both mixed, or all of the other unit.
        const isMixed = values.some(({ unit }) => unit === stated)
        const truth = isMixed ? 'mixed' : OTHER[stated]
        const allFitOther = values.every(({ text: value }) => stated === 'mg/dL' ? Number(value) < 33.4 : Number(value) >= 20)
        expect(choices.map(({ answer }) => answer)).toContain(isMixed && allFitOther ? OTHER[stated] : truth)
        expect(readAs(text, truth).values).toEqual(values.map((value) => `${Number(value.text)} ${value.unit}`))
      }),
      { numRuns: runs(60) },
    )
  }) // prettier-ignore

  it('are asked about in a row that names its own unit, where the log names both', () => {
    const text = 'Time,Glucose,Unit\n2026-03-01 07:00,112,mg/dL\n2026-03-01 08:00,6.1,mmol/L\n2026-03-01 09:00,6.8,mg/dL\n'
    const [refusal] = refusalsOf(text)
    expect([refusal.code, refusal.line]).toEqual(['unit-unknown', 4])
    expect(readAs(text, 'mixed').values).toEqual(['112 mg/dL', '6.1 mmol/L', '6.8 mmol/L'])
    expect(readAs(text, 'mg/dL').values).toEqual(['112 mg/dL', '6.1 mmol/L', '6.8 mg/dL'])
  }) // prettier-ignore

  it('are one by tenths between 20 and 33 in a log of whole mg/dL', () => {
    const rows = (...values: string[]) =>
      values.map((value, i) => `2026-03-0${i + 1} 07:00,${value}`).join('\n')
    expect(refusalsOf(`Time,mg/dL\n${rows('112', '21.4', '140')}`)[0].line).toBe(3)
    // Converted from the other unit: fractions everywhere.
    expect(readAs(`Time,mg/dL\n${rows('112.4', '21.4', '140.1')}`).values[1]).toBe('21.4 mg/dL')
  })

  it('are no laboratory’s high value, and no value that this program was told already', () => {
    const lab = 'Time,Glucose (mmol/L)\n2026-03-01 07:00,12.5\n2026-03-02 07:00,38.2\n'
    expect(readAs(lab).values).toEqual(['12.5 mmol/L', '38.2 mmol/L'])
    const own =
      'at,mg_dl,logged_value,logged_unit,logged_at\n2026-03-01T07:00,6.8,6.8,mg/dL,2026-03-01T07:00\n' +
      '2026-03-02T07:00,112,112,mg/dL,2026-03-02T07:00\n'
    expect(readAs(own).values).toEqual(['6.8 mg/dL', '112 mg/dL'])
  })

  it('of a log that names no unit are offered apart by size where no value fits both', () => {
    const text = 'Time,Glucose\n2026-03-01 07:00,112\n2026-03-01 08:00,6.1\n'
    expect(refusalsOf(text)[0].question?.choices.map(({ answer }) => answer)).toEqual(['mixed', 'mg/dL', 'mmol/L'])
    expect(readAs(text, 'mixed').values).toEqual(['112 mg/dL', '6.1 mmol/L'])
    const vague = `${text}2026-03-01 09:00,25\n`
    expect(refusalsOf(vague)[0].question?.choices.map(({ answer }) => answer)).toEqual(['mg/dL', 'mmol/L'])
    expect(refusalsOf(vague, { unit: 'mixed' })[0].code).toBe('unit-unknown')
  }) // prettier-ignore

  it('show two rows in each choice, of both sizes', () => {
    const text = 'Time,Glucose (mg/dL)\n2026-03-01 07:00,112\n2026-03-01 08:00,6.8\n'
    expect(choicesTold(refusalsOf(text)[0]).map(({ answer, example }) => [answer, example])).toEqual([
      ['mixed', 'line 3: 6.8 mmol/L (123 mg/dL) · line 2: 112 mg/dL (6.2 mmol/L)'],
      ['mg/dL', 'line 3: 6.8 mg/dL (0.4 mmol/L) · line 2: 112 mg/dL (6.2 mmol/L)'],
    ])
  })
})
