import { readdirSync, readFileSync } from 'node:fs'
import { createRequire } from 'node:module'
import { dirname, join } from 'node:path'
import fc from 'fast-check'
import { parse as parseWithAnother } from 'csv-parse/sync'
import Papa from 'papaparse'
import { describe, expect, it } from 'vitest'
import { fixedChance } from '../../helpers/analysisFixture'
import { runs } from '../../helpers/runs'
import { LONGEST_FIELD, records } from '../../../src-core/log/records'

function cellsOf(text: string, delimiter = ','): (readonly string[])[] {
  return [...records([text], delimiter)].map(({ cells }) => cells)
}

function linesOf(text: string): number[] {
  return [...records([text], ',')].map(({ line }) => line)
}

describe('records', () => {
  it('end at CR, LF and CRLF alike, also mixed and without a last line end', () => {
    expect(cellsOf('a,b\rc,d\ne,f\r\ng,h')).toEqual([
      ['a', 'b'],
      ['c', 'd'],
      ['e', 'f'],
      ['g', 'h'],
    ])
  })

  it('count lines as an editor does, through quoted fields of several lines', () => {
    expect(linesOf('a,b\r\n"x\r\ny\r\nz",1\r\nc,d')).toEqual([1, 2, 5])
  })

  it('do not end at line and paragraph separators of Unicode, next line or vertical tab', () => {
    expect(cellsOf('a\u2028b,c\u2029\u0085\v')).toEqual([['a\u2028b', 'c\u2029\u0085\v']])
  })

  it('hold delimiters, line ends and doubled quotes inside quoted fields', () => {
    expect(cellsOf('1,"a, ""b""\nc",2')).toEqual([['1', 'a, "b"\nc', '2']])
  })

  it('keep a quote inside an unquoted cell as a letter', () => {
    expect(cellsOf('1,5" plate,2')).toEqual([['1', '5" plate', '2']])
  })

  it('swallow nothing where a quote is never closed', () => {
    const text = ['d,v,n', '1,2,"open', '3,4,x', '5,6,"fine, quoted"', '7,8,y'].join('\n')
    expect(cellsOf(text)).toEqual([
      ['d', 'v', 'n'],
      ['1', '2', '"open'],
      ['3', '4', 'x'],
      ['5', '6', 'fine, quoted'],
      ['7', '8', 'y'],
    ])
  })

  it('swallow nothing where a stray inch mark at a row’s end would close it', () => {
    expect(cellsOf('d,v,n\n1,2,a\n3,4,"open\n5,6,b\n7,8,5"\n9,1,c')).toHaveLength(6)
  })

  it('keep a copied row inside a note that is closed properly', () => {
    expect(cellsOf('d,v,n\n1,2,a\n3,4,"copied:\n1,2,a\nend"\n5,6,b')).toEqual([
      ['d', 'v', 'n'],
      ['1', '2', 'a'],
      ['3', '4', 'copied:\n1,2,a\nend'],
      ['5', '6', 'b'],
    ])
  })

  it('give 20,000 rows for 20,000 rows that each open a quote', () => {
    const text = Array.from({ length: 20_000 }, (_, i) => `${i},"note`).join('\n')
    expect(cellsOf(text)).toHaveLength(20_000)
  })

  it('do not depend on where the text is cut into pieces', () => {
    const text = 'a,"b\r\nc"\r\n\r\nd,e\rf,"g"\n'
    const whole = [...records([text], ',')]
    for (let cut = 0; cut <= text.length; cut++) {
      expect([...records([text.slice(0, cut), text.slice(cut)], ',')]).toEqual(whole)
    }
  })

  it('end at a field longer than a million characters, and at a line without an end, naming it', () => {
    const end = { line: 2, text: '', cells: [], isTooLarge: true }
    const long = 'x'.repeat(LONGEST_FIELD + 1)
    for (const field of [long, `"${long}"`, `${'1,'.repeat(2_200_000)}`])
      expect([...records([`a,b\n1,`, field, '\n3,4'], ',')].slice(1)).toEqual([end])
    expect([...records([`a,b\n1,${long.slice(1)}`], ',')].at(-1)?.isTooLarge).toBeUndefined()
  })

  it('read back any table that the CSV library writes, in every delimiter', () => {
    const cell = fc.string({ unit: fc.constantFrom('a', '1', ' ', '"', ',', ';', '|', '\t', '\n', 'é') })
    // A lone empty cell is written as a blank line, which is no record.
    const table = fc.array(fc.array(cell, { minLength: 2, maxLength: 5 }), { minLength: 1, maxLength: 8 })
    fc.assert(
      fc.property(table, fc.constantFrom(',', ';', '\t', '|'), (rows, delimiter) => {
        const text = Papa.unparse(rows, { delimiter, newline: '\n', quotes: true })
        expect(cellsOf(text, delimiter)).toEqual(rows)
      }),
      { seed: 1, numRuns: runs(100) },
    )
  })
})

describe('the acid tests of csv-spectrum 2.0.0', () => {
  const folder = dirname(createRequire(import.meta.url).resolve('csv-spectrum/package.json'))
  const names = readdirSync(join(folder, 'csvs')).map((name) => name.replace(/\.csv$/, ''))

  it.each(names)('%s', (name) => {
    const text = readFileSync(join(folder, 'csvs', `${name}.csv`), 'utf8')
    const [header, ...rows] = cellsOf(text).filter((cells) => cells.length > 1 || cells[0] !== '')
    const objects = rows.map((cells) => Object.fromEntries(header.map((key, i) => [key, cells[i]])))
    const json = readFileSync(join(folder, 'json', `${name}.json`), 'utf8')
    // The package contradicts itself in one telephone number; its CSV is taken as right. A table of one
    // row stands as a bare object.
    const expected = [JSON.parse(json.replace('1234567890', '2095257564')) as object].flat()
    expect(withLineFeeds(objects)).toEqual(withLineFeeds(expected))
  })
})

function withLineFeeds(rows: readonly object[]): unknown {
  return JSON.parse(JSON.stringify(rows).replaceAll('\\r\\n', '\\n'))
}

describe('a second parser', () => {
  it('reads 100,000 random tables the same (csv-parse)', () => {
    const chance = fixedChance(5)
    const pick = <T>(from: readonly T[]): T => from[Math.floor(chance() * from.length)]
    const pieces = ['a', '7', ' ', '"', '.', 'é', '漢', '😀', "'", '-', ',', ';', '\t', '|', '\n', '\r\n']
    for (let i = 0; i < 100_000; i++) {
      const delimiter = pick([',', ';', '\t', '|'])
      const newline = pick(['\n', '\r\n', '\r'])
      const always = chance() < 0.3
      const columns = 2 + Math.floor(chance() * 3)
      const table = Array.from({ length: 1 + Math.floor(chance() * 3) }, () =>
        Array.from({ length: columns }, () => {
          const cell = Array.from({ length: Math.floor(chance() * 4) }, () => pick(pieces)).join('')
          // Line ends within cells are the file's own. A cell of several lines that looks like rows itself is
          // decided the other way on purpose: see the stray inch mark above.
          const lines = cell.replace(/\r\n|\n/g, newline)
          return lines === cell && !/[\r\n]/.test(cell) ? cell : lines.replaceAll(delimiter, '')
        }),
      )
      const quoted = (cell: string): string =>
        always || /[",;\t|\r\n]/.test(cell) ? `"${cell.replaceAll('"', '""')}"` : cell
      const text = table.map((row) => row.map(quoted).join(delimiter)).join(newline)
      const own = [...records([text], delimiter)].map(({ cells }) =>
        cells.map((cell) => cell.replace(/\r\n?/g, '\n')),
      )
      const other = parseWithAnother(text, { delimiter, record_delimiter: newline, relax_column_count: true })
      const expected = other.map((row) => row.map((cell) => cell.replace(/\r\n?/g, '\n')))
      if (JSON.stringify(own) !== JSON.stringify(expected))
        expect({ text, own }).toEqual({ text, own: expected })
    }
  })
})
