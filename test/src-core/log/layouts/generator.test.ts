import { expect, it } from 'vitest'
import { parse } from 'csv-parse/sync'
import { KIND_NAMES, layoutCase } from './cases'
import { NOW_MS, type Truth } from './truth'
import { LANGUAGE_NAMES } from './words'

// The generator itself: what it says of a file must be written in the file.

const CASES = Array.from({ length: 400 }, (_, i) => layoutCase(i + 1))

/** How a value may stand in a cell. */
function spellings({ value, limit, unit }: Truth, inGrams: boolean): string[] {
  if (limit !== '') return limit === 'above' ? ['HI', '>'] : ['LO', '<']
  const text =
    inGrams && unit === 'mg/dL' ? (value / 100).toFixed(2) : value.toFixed(unit === 'mg/dL' ? 0 : 1)
  return [text, text.replace('.', ',')]
}

/** The text with the digits of other scripts as plain ones. */
function asciiDigits(text: string): string {
  return text.replaceAll(/\p{Nd}/gu, (digit) => {
    const zero = [0x30, 0x0660, 0x0966, 0xff10].findLast((first) => (digit.codePointAt(0) ?? 0) >= first) ?? 0
    return String((digit.codePointAt(0) ?? 0) - zero)
  })
}

it('every reading stands with its value in the line that is named for it', () => {
  for (const { seed, text: written, truths, features } of CASES) {
    const text = asciiDigits(written)
    const lines = text.split(/\r?\n/)
    // A note may hold a line break: then the row goes on in the line after.
    const rowAt = (line: number): string =>
      lines.slice(line - 1, (lines[line - 1].match(/"/g) ?? []).length % 2 === 0 ? line : line + 1).join('\n')
    const missing = truths.filter(
      (truth) =>
        !spellings(truth, features.includes('odd: g/L')).some((spelling) =>
          rowAt(truth.line).includes(spelling),
        ),
    )
    expect(missing, `seed ${seed}`).toEqual([])
  }
})

it('files are well-formed, hold at least two readings, and all of them before now', () => {
  for (const { seed, text, truths, features } of CASES) {
    const delimiter = features.find((name) => name.startsWith('delimiter '))?.slice(10) ?? ','
    const options = { delimiter: delimiter === 'tab' ? '\t' : delimiter, relax_column_count: true, bom: true }
    // A slip of the pen in a quote is meant to be no CSV.
    const isBroken = features.includes('odd: inch mark') || features.includes('odd: open quote')
    if (!isBroken) expect(() => parse(text, options), `seed ${seed}`).not.toThrow()
    expect(truths.length, `seed ${seed}`).toBeGreaterThan(1)
    for (const { at } of truths) expect(Date.parse(at.slice(0, 10)), `seed ${seed}`).toBeLessThan(NOW_MS)
  }
})

it('no reading is told twice, unless two meters wrote it', () => {
  for (const { seed, truths, features } of CASES) {
    if (features.includes('two meters')) continue
    const timed = truths.filter(({ at }) => at.includes('T')).map(({ at, value, limit }) => `${at} ${value} ${limit}`)
    expect(new Set(timed).size, `seed ${seed}`).toBe(timed.length)
  }
}) // prettier-ignore

it('every kind of layout and every language comes up, and most files can be read without a question', () => {
  expect(new Set(CASES.map(({ kind }) => kind))).toEqual(new Set(KIND_NAMES))
  expect(new Set(CASES.map(({ language }) => language))).toEqual(new Set(LANGUAGE_NAMES))
  expect(CASES.filter(({ mayAsk }) => mayAsk.length === 0).length).toBeGreaterThan(0.85 * CASES.length)
})

it('one seed gives one file', () => {
  for (const seed of [1, 77, 20_000]) expect(layoutCase(seed)).toEqual(layoutCase(seed))
})
