import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { loggedUnit, momentText } from '../../../src-core/log/readings'
import { logbookOf } from '../../helpers/logs'
import { runs } from '../../helpers/runs'

// What must hold between a log and the same log changed (metamorphic relations), whatever the readings are.

interface Row {
  readonly minute: number
  readonly tenths: number
  readonly note: string
}

const FIRST_MINUTE = Date.UTC(2026, 0, 1) / 60_000
const row = fc.record({
  minute: fc.integer({ min: FIRST_MINUTE, max: FIRST_MINUTE + 150 * 1440 }),
  tenths: fc.integer({ min: 12, max: 330 }),
  note: fc.string({
    unit: fc.constantFrom('a', 'b', ' ', '"', ';', ',', '\t', '|', 'é', '漢'),
    maxLength: 6,
  }),
})
const rows = fc.uniqueArray(row, { selector: ({ minute }) => minute, minLength: 2, maxLength: 25 })

interface Dialect {
  readonly delimiter: string
  readonly newline: string
  readonly decimal: string
  readonly quoteAll: boolean
}
const dialect: fc.Arbitrary<Dialect> = fc.record({
  delimiter: fc.constantFrom(',', ';', '\t', '|'),
  newline: fc.constantFrom('\n', '\r\n', '\r'),
  decimal: fc.constantFrom('.', ','),
  quoteAll: fc.boolean(),
})

function linesOf(list: readonly Row[], { delimiter, decimal, quoteAll }: Dialect): string[] {
  const cell = (text: string): string =>
    quoteAll || /[",;\t|\r\n]/.test(text) ? `"${text.replaceAll('"', '""')}"` : text
  const cells = list.map(({ minute, tenths, note }) => {
    const at = new Date(minute * 60_000).toISOString()
    return [at.slice(0, 10), at.slice(11, 16), (tenths / 10).toFixed(1).replace('.', decimal), note]
  })
  return [['Date', 'Time', 'Glucose (mmol/L)', 'Note'], ...cells].map((line) =>
    line.map(cell).join(delimiter),
  )
}

const PLAIN: Dialect = { delimiter: ',', newline: '\n', decimal: '.', quoteAll: false }

function readingsOf(log: string | Uint8Array): string[] {
  const { readings } = logbookOf([log])
  return Array.from(
    { length: readings.n },
    (_, i) =>
      `${momentText(readings, i)} ${readings.logged[i]} ${loggedUnit(readings, i)} ${readings.note(i)}`,
  )
}

function withoutLine(lines: readonly string[], index: number): string[] {
  return lines.filter((_, i) => i !== index)
}

describe('a log', () => {
  it('gives the same readings in another delimiter, line end, decimal mark and quoting', () => {
    fc.assert(
      fc.property(rows, dialect, (list, form) => {
        const plain = readingsOf(linesOf(list, PLAIN).join('\n'))
        expect(readingsOf(linesOf(list, form).join(form.newline))).toEqual(plain)
      }),
      { seed: 11, numRuns: runs(100) },
    )
  })

  it('gives the same readings in another encoding', () => {
    fc.assert(
      fc.property(rows, (list) => {
        const text = linesOf(list, PLAIN).join('\n')
        const utf8 = readingsOf(text)
        expect(readingsOf(`\ufeff${text}`)).toEqual(utf8)
        expect(readingsOf(Uint8Array.from(Buffer.from(`\ufeff${text}`, 'utf16le')))).toEqual(utf8)
        expect(readingsOf(Uint8Array.from(Buffer.from(`\ufeff${text}`, 'utf16le').swap16()))).toEqual(utf8)
      }),
      { seed: 12, numRuns: runs(50) },
    )
  })

  it('gives the same readings with its rows shuffled', () => {
    fc.assert(
      fc.property(rows, fc.nat(), (list, start) => {
        const [header, ...lines] = linesOf(list, PLAIN)
        const shuffled = lines.map((_, i) => lines[(i * 7919 + start) % lines.length])
        fc.pre(new Set(shuffled).size === lines.length)
        expect(readingsOf([header, ...shuffled].join('\n'))).toEqual(
          readingsOf([header, ...lines].join('\n')),
        )
      }),
      { seed: 13, numRuns: runs(50) },
    )
  })

  it('loses exactly one reading with one line', () => {
    fc.assert(
      fc.property(rows, fc.nat(), (list, pick) => {
        const lines = linesOf(list, PLAIN)
        const index = 1 + (pick % list.length)
        const gone = readingsOf([lines[0], lines[index]].join('\n'))
        const left = readingsOf(withoutLine(lines, index).join('\n'))
        const all = readingsOf(lines.join('\n'))
        expect([...left, ...gone].sort()).toEqual([...all].sort())
      }),
      { seed: 14, numRuns: runs(50) },
    )
  })

  it('gains nothing but duplicates by a copy of itself, within the file or as a second log', () => {
    fc.assert(
      fc.property(rows, (list) => {
        const [header, ...lines] = linesOf(list, PLAIN)
        const text = [header, ...lines].join('\n')
        const twice = logbookOf([[header, ...lines, ...lines].join('\n')])
        expect(twice.readings.n).toBe(list.length)
        expect(new Set(twice.sources[0].setAside.map(({ reason }) => reason))).toEqual(new Set(['duplicate']))
        const both = logbookOf([text, text])
        expect([both.readings.n, both.duplicatesAcrossLogs]).toEqual([list.length, list.length])
      }),
      { seed: 15, numRuns: runs(50) },
    )
  })

  it('does not depend on where its bytes are cut', () => {
    fc.assert(
      fc.property(rows, fc.integer({ min: 1, max: 40 }), (list, size) => {
        const text = linesOf(list, { ...PLAIN, newline: '\r\n' }).join('\r\n')
        const bytes = new TextEncoder().encode(text)
        const whole = readingsOf(bytes)
        const { readings } = logbookOf([
          {
            name: 'cut.csv',
            bytes: bytes.length,
            sha256: '',
            *chunks() {
              for (let at = 0; at < bytes.length; at += size) yield bytes.subarray(at, at + size)
            },
          },
        ])
        expect(Array.from({ length: readings.n }, (_, i) => momentText(readings, i))).toEqual(
          whole.map((reading) => reading.slice(0, 16)),
        )
      }),
      { seed: 16, numRuns: runs(25) },
    )
  })
})

describe('a second meter’s export of the same reading', () => {
  it.each([
    ['with its seconds dropped', '2026-03-02T07:10:41,104', '2026-03-02T07:10,104', 'mg/dL', 'mg/dL'],
    ['rounded through the other unit', '2026-03-02T07:10,104', '2026-03-02T07:10,5.8', 'mg/dL', 'mmol/L'],
    ['with more decimals', '2026-03-02T07:10,5.77', '2026-03-02T07:10,5.8', 'mmol/L', 'mmol/L'],
  ])('%s counts once', (_, first, second, unit, otherUnit) => {
    const book = logbookOf([
      `Timestamp,Glucose (${unit})\n${first}\n`,
      `Timestamp,Glucose (${otherUnit})\n${second}\n`,
    ])
    expect([book.readings.n, book.duplicatesAcrossLogs]).toEqual([1, 1])
  })

  it('is another reading where the value differs by more than rounding', () => {
    const book = logbookOf([
      'Timestamp,Glucose (mg/dL)\n2026-03-02T07:10,104\n',
      'Timestamp,Glucose (mmol/L)\n2026-03-02T07:10,5.9\n',
    ])
    expect(book.readings.n).toBe(2)
  })

  it('is found among thousands in one minute', () => {
    const rows = Array.from(
      { length: 3000 },
      (_, i) => `2026-03-02,07:10,${60 + (i % 500)},meter ${Math.floor(i / 500)}`,
    )
    const log = ['Date,Time,Glucose (mg/dL),Meter', ...rows, ...rows].join('\n')
    const book = logbookOf([log])
    expect([book.readings.n, book.sources[0].rows.setAside]).toEqual([3000, 3000])
  })
})
