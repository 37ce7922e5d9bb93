import { readdirSync, readFileSync } from 'node:fs'
import { join } from 'node:path'
import { describe, expect, it } from 'vitest'

// The corpus itself: complete, consistent and large enough. How a program reads it is tested elsewhere.

const OUTCOMES = ['read', 'ask', 'refuse']
const UNITS = ['mg/dL', 'mmol/L']
const QUESTIONS = ['unit', 'dates', 'columns', 'kinds', 'clock']
const REASONS = [
  'not-glucose',
  'control-solution',
  'empty-value',
  'unreadable-value',
  'impossible-value',
  'empty-date',
  'unreadable-date',
  'future-date',
  'clock-reset',
  'duplicate',
  'repeated-header',
  'footer',
  'ragged-row',
  'other-table',
]

type Reading = readonly [at: string, value: string, unit: string, meter?: string]

interface Expected {
  about: string
  outcome: string
  unit: string | null
  readings?: Reading[]
  mayAsk?: boolean
  lineOfNotReadings?: Record<string, string | string[]>
  optionalReadings?: Record<string, Reading>
  asks?: string | string[]
  answers?: Reading[][]
  zone?: string
}

const kinds = readdirSync(import.meta.dirname, { withFileTypes: true })
  .filter((entry) => entry.isDirectory())
  .map(({ name }) => name)

function expectedOf(kind: string): Record<string, Expected> {
  const text = readFileSync(join(import.meta.dirname, kind, 'expected.json'), 'utf8')
  return JSON.parse(text) as Record<string, Expected>
}

/** Lines of a file by its bytes, which is right for UTF-16 too: a line end holds one such byte in each. */
function lineCount(path: string): number {
  return readFileSync(path)
    .toString('latin1')
    .replaceAll('\0', '')
    .split(/\r\n|\r|\n/).length
}

function expectReading([at, value, unit, meter]: Reading): void {
  expect(at).toMatch(/^202[456]-\d\d-\d\d(T([01]\d|2[0-3]):[0-5]\d(:[0-5]\d)?)?$/)
  const day = at.slice(0, 10)
  expect(new Date(`${day}T00:00:00Z`).toISOString().slice(0, 10)).toBe(day)
  expect(day <= '2026-11-28').toBe(true)
  expect(value).toMatch(/^(HI|LO|[<>]?\d+(\.\d+)?)$/)
  expect(UNITS).toContain(unit)
  if (meter !== undefined) expect(meter).not.toBe('')
}

/** The unit that a list of readings has as a whole. */
function unitOf(readings: readonly Reading[]): string | undefined {
  const units = new Set(readings.map(([, , unit]) => unit))
  return units.size > 1 ? 'mixed' : [...units][0]
}

describe.each(kinds)('%s', (kind) => {
  const folder = join(import.meta.dirname, kind)
  const expected = expectedOf(kind)

  it('names every file of its folder and no other', () => {
    const files = readdirSync(folder).filter((name) => name !== 'expected.json')
    expect(Object.keys(expected).sort()).toEqual(files.sort())
    for (const name of files) expect(name).toMatch(/^[a-z0-9-]+\.(csv|tsv|txt)$/)
  })

  it.each(Object.entries(expected))('%s', (name, entry) => {
    expect(entry.about).toMatch(/\.$/)
    expect(OUTCOMES).toContain(entry.outcome)
    const readings = entry.readings ?? []
    const answers = entry.answers ?? []
    for (const reading of [...readings, ...answers.flat(), ...Object.values(entry.optionalReadings ?? {})]) {
      expectReading(reading)
    }

    const keys = Object.keys(entry).filter((key) => !['about', 'outcome', 'unit', 'zone'].includes(key))
    if (entry.outcome === 'read') {
      expect(readings.length).toBeGreaterThan(0)
      expect(entry.unit).toBe(unitOf(readings))
      expect(keys).not.toContain('asks')
      expect(keys).not.toContain('answers')
    } else if (entry.outcome === 'ask') {
      expect(keys.sort()).toEqual(['answers', 'asks'])
      const asks = [entry.asks ?? []].flat()
      expect(asks.length).toBeGreaterThan(0)
      for (const question of asks) expect(QUESTIONS).toContain(question)
      expect(answers.length).toBeGreaterThan(1)
      expect(new Set(answers.map((answer) => JSON.stringify(answer))).size).toBe(answers.length)
      for (const answer of answers) expect(answer.length).toBeGreaterThan(0)
    } else {
      expect(keys).toEqual([])
      expect(entry.unit).toBeNull()
    }

    const lines = lineCount(join(folder, name))
    const setAside = entry.lineOfNotReadings ?? {}
    for (const line of [...Object.keys(setAside), ...Object.keys(entry.optionalReadings ?? {})]) {
      expect(Number(line)).toBeGreaterThan(0)
      expect(Number(line)).toBeLessThanOrEqual(lines)
    }
    for (const reason of Object.values(setAside).flat()) expect(REASONS).toContain(reason)
  })
})

describe('the corpus as a whole', () => {
  const entries = kinds.flatMap((kind) => Object.values(expectedOf(kind)))
  const count = (outcome: string) => entries.filter((entry) => entry.outcome === outcome).length

  it('is large enough, and holds enough that must be asked about or refused', () => {
    expect(kinds.length).toBeGreaterThanOrEqual(25)
    expect(entries.length).toBeGreaterThanOrEqual(250)
    expect(count('ask')).toBeGreaterThanOrEqual(45)
    expect(count('refuse')).toBeGreaterThanOrEqual(15)
  })

  it('holds no file twice', () => {
    const contents = kinds.flatMap((kind) =>
      Object.keys(expectedOf(kind)).map((name) =>
        readFileSync(join(import.meta.dirname, kind, name)).toString('base64'),
      ),
    )
    expect(new Set(contents).size).toBe(contents.length)
  })
})
