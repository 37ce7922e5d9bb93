import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import type { Analysis } from '../../../src-core/analysis/analysis'
import { lowsTold } from '../../../src-core/told/lows'
import { openVisit } from '../../../src-core/analysis/openVisit'
import { readingsCsv } from '../../../src-core/exchange/readingsCsv'
import { analysisOf, type FixtureReading, inventedLog } from '../../helpers/analysisFixture'
import { CONTEXT, logOf } from '../../helpers/logs'

const HEADER =
  'at,mg_dl,mmol_l,limit,meter,meal,note,source,line,doubt,reasons,in_repeat_set,logged_value,logged_unit,logged_at'

/** Fields of each record of CSV text after RFC 4180, told apart by hand so that no writer checks itself. */
function parsed(csv: string): { text: string; quoted: boolean }[][] {
  const records: { text: string; quoted: boolean }[][] = []
  let record: { text: string; quoted: boolean }[] = []
  let at = 0
  while (at < csv.length) {
    let text = ''
    const quoted = csv[at] === '"'
    if (quoted) {
      for (at++; csv[at] !== '"' || csv[at + 1] === '"'; at++) {
        if (at >= csv.length) throw new Error('a quote is never closed')
        if (csv[at] === '"') at++
        text += csv[at]
      }
      at++
    } else {
      while (at < csv.length && csv[at] !== ',' && csv[at] !== '\n') text += csv[at++]
      if (text.includes('"') || text.includes('\r')) throw new Error(`bare quote or return in ${text}`)
    }
    record.push({ text, quoted })
    if (csv[at] === '\n' || at >= csv.length) {
      records.push(record)
      record = []
    } else if (csv[at] !== ',') throw new Error(`text after a closing quote at ${at}`)
    at++
  }
  return records
}

/** Records as objects, keyed by the header. */
function recordsOf(csv: string): Record<string, string>[] {
  const [header, ...rows] = parsed(csv)
  return rows.map((row) => {
    expect(row).toHaveLength(header.length)
    return Object.fromEntries(header.map(({ text }, i) => [text, row[i].text]))
  })
}

function textOf(analysis: Analysis): string {
  return [...readingsCsv(analysis)].join('')
}

function csvOf(rows: readonly FixtureReading[], options: Parameters<typeof analysisOf>[1] = {}): string {
  return textOf(analysisOf(rows, options))
}

/** A log as the program reads it. */
function readBack(csv: string) {
  const outcome = openVisit([logOf(csv, 'readings.csv')], {}, CONTEXT)
  if (outcome.kind !== 'analysed') throw new Error(JSON.stringify(outcome))
  return outcome.analysis
}

describe('the readings as a table', () => {
  it('have the header of the contract, one record for each reading and one line end', () => {
    const csv = csvOf([
      { at: '2026-03-02 07:10', value: 104 },
      { at: '2026-03-02 12:00', value: 98 },
    ])
    expect(csv.startsWith(`${HEADER}\n`)).toBe(true)
    expect(csv.split('\n')).toHaveLength(4)
    expect(csv.endsWith('\n')).toBe(true)
    expect(csv).not.toContain('\r')
  })

  it('say of each reading what the contract asks', () => {
    const [first] = recordsOf(
      csvOf([
        {
          at: '2026-03-02 07:10',
          value: 104,
          meter: 'meter A',
          meal: 'before breakfast',
          note: 'slept badly',
        },
      ]),
    )
    expect(first).toEqual({
      at: '2026-03-02T07:10',
      mg_dl: '104',
      // 104 / 18.0156, the molar mass of glucose being 180.156 g/mol
      mmol_l: String(104 / 18.0156),
      limit: '',
      meter: 'meter A',
      meal: 'before breakfast',
      note: 'slept badly',
      source: 'patient-4711-export-1.csv',
      line: '2',
      doubt: expect.stringMatching(/^0\.0\d+$/) as unknown,
      reasons: '',
      in_repeat_set: 'no',
      logged_value: '104',
      logged_unit: 'mg/dL',
      logged_at: '2026-03-02T07:10',
    })
  })

  it('stand in order of time, whatever the order of the log', () => {
    const records = recordsOf(
      csvOf([
        { at: '2026-03-03 07:10', value: 104 },
        { at: '2026-03-02 07:10', value: 98 },
      ]),
    )
    expect(records.map(({ at, line }) => `${at} ${line}`)).toEqual([
      '2026-03-02T07:10 3',
      '2026-03-03T07:10 2',
    ])
  })

  it('give the day alone where the log gives no time, and markers with their limit', () => {
    const records = recordsOf(
      csvOf([
        { at: '2026-03-02', value: 104 },
        { at: '2026-03-03 08:00', value: 'LO' },
        { at: '2026-03-03 12:00', value: 'HI' },
      ]),
    )
    expect(records.map(({ at, limit, logged_value }) => [at, limit, logged_value])).toEqual([
      ['2026-03-02', '', '104'],
      ['2026-03-03T08:00', 'below', '<20'],
      ['2026-03-03T12:00', 'above', '>600'],
    ])
  })

  it('leave the doubt of a sensor’s reading and of a day without a time empty', () => {
    const records = recordsOf(
      csvOf([
        { at: '2026-03-02', value: 104 },
        { at: '2026-03-02 07:10', value: 104, sensor: true },
      ]),
    )
    expect(records.map(({ doubt }) => doubt)).toEqual(['', ''])
  })

  it('give repeats, doubts and reasons', () => {
    const analysis = analysisOf([
      { at: '2026-03-02 07:10', value: 104 },
      { at: '2026-03-02 15:48', value: 255 },
      { at: '2026-03-02 15:49', value: 109 },
    ])
    expect(analysis.technique.doubtful.map(({ index }) => index)).toEqual([1])
    const records = recordsOf(textOf(analysis))
    expect(records.map(({ in_repeat_set }) => in_repeat_set)).toEqual(['no', 'yes', 'yes'])
    expect(records.map(({ reasons }) => reasons)).toEqual([
      '',
      'contradicted-by-repeat;unlike-neighbours',
      '',
    ])
    expect(records.map(({ doubt }) => Number(doubt))).toEqual([...analysis.technique.doubt])
    expect(Number(records[1].doubt)).toBeGreaterThan(0.5)
  })

  it('of no reading are the header alone', () => {
    const analysis = analysisOf([{ at: '2026-03-02 07:10', value: 104 }])
    const none = {
      ...analysis,
      readings: { ...analysis.readings, n: 0 },
      technique: { ...analysis.technique, repeatSets: [], doubtful: [] },
    }
    expect(textOf(none)).toBe(`${HEADER}\n`)
  })

  it('do not change where they are written in pieces', () => {
    const rows = inventedLog({ days: 2300 })
    expect(rows.length).toBeGreaterThan(10_000)
    const records = recordsOf(csvOf(rows))
    expect(records).toHaveLength(rows.length)
    expect(records.map(({ at }) => at)).toEqual([...records.map(({ at }) => at)].sort())
  })
})

describe('text that a spreadsheet would run', () => {
  // OWASP, CSV Injection: = + - @ tab CR LF, and the full-width forms that some programs fold.
  const STARTS = ['=', '+', '-', '@', '＝', '＋', '－', '＠', '\t', '\n', '\r']

  it.each(STARTS.map((start) => ({ start, name: JSON.stringify(start) })))(
    'is quoted and led by an apostrophe in every text cell: $name',
    ({ start }) => {
      const text = `${start}HYPERLINK("x")`
      const [, row] = parsed(
        csvOf([{ at: '2026-03-02 07:10', value: 104, note: text, meal: text, meter: text }], {
          sources: [{ name: text }],
        }),
      )
      for (const column of [4, 5, 6, 7]) expect(row[column]).toEqual({ text: `'${text}`, quoted: true })
    },
  )

  it('never starts a cell, whatever the text', () => {
    fc.assert(
      fc.property(
        fc.array(fc.constantFrom(...STARTS, 'a', '"', ',', ' ', "'"), { maxLength: 6 }),
        (parts) => {
          const note = parts.join('')
          const [, row] = parsed(csvOf([{ at: '2026-03-02 07:10', value: 104, note }]))
          expect(row[6].text).toBe(STARTS.includes(note.charAt(0)) ? `'${note}` : note)
        },
      ),
    )
  })

  it('leaves numbers numbers, also where they are led by a sign within the cell', () => {
    const [row] = recordsOf(csvOf([{ at: '2026-03-02 07:10', value: 104, note: '5 = too low' }]))
    expect(row.note).toBe('5 = too low')
  })
})

describe('quotes, delimiters and line ends within a cell', () => {
  it.each([
    'say "ouch"',
    'one, two',
    'line one\nline two',
    'old\rreturn',
    ' led by a space',
    '"',
    '""',
    "it's",
  ])('come back as they were: %j', (note) => {
    expect(recordsOf(csvOf([{ at: '2026-03-02 07:10', value: 104, note }]))[0].note).toBe(note)
  })
})

describe('numbers', () => {
  it('have full precision: read as numbers they are the same', () => {
    const analysis = analysisOf(inventedLog({ days: 40, unit: 'mmol/L', repeats: 0.3 }), { unit: 'mmol/L' })
    const { readings, technique } = analysis
    recordsOf(textOf(analysis)).forEach((record, i) => {
      expect(Number(record.mg_dl)).toBe(readings.mgDl[i])
      expect(Number(record.mmol_l)).toBe(readings.logged[i])
      expect(Number(record.logged_value)).toBe(readings.logged[i])
      if (record.doubt !== '') expect(Number(record.doubt)).toBe(technique.doubt[i])
    })
  })
})

describe('the table read again', () => {
  it('says among the lows that it holds no rows that its logs could not use', () => {
    const analysis = readBack(csvOf([{ at: '2026-03-02 07:10', value: 64 }]))
    expect(analysis.sources[0].notes).toContainEqual({ code: 'own-readings' })
    expect(lowsTold(analysis, analysis.periods[0]).remarks).toContainEqual({ code: 'own-readings' })
    const other = analysisOf([{ at: '2026-03-02 07:10', value: 64 }])
    expect(lowsTold(other, other.periods[0]).remarks).not.toContainEqual({ code: 'own-readings' })
  })

  it.each(['mg/dL', 'mmol/L'] as const)('gives the same readings and doubts, logged in %s', (unit) => {
    const rows: FixtureReading[] = [
      ...inventedLog({ days: 30, unit, repeats: 0.3 }),
      { at: '2026-04-20 07:00', value: 'LO', note: '=cmd' },
      { at: '2026-04-20 12:00', value: 'HI', note: 'a "quoted", two-line\nnote', meal: '朝食' },
    ]
    const first = analysisOf(rows, { unit })
    const second = readBack(textOf(first))
    expect(second.sources[0].rows.setAside).toBe(0)
    const columns = ['at', 'mgDl', 'logged', 'flags'] as const
    for (const column of columns) expect([...toArray(second, column)]).toEqual([...toArray(first, column)])
    expect(second.technique.doubtful).toEqual(first.technique.doubtful)
    expect(second.readings.note(first.readings.n - 1)).toBe('a "quoted", two-line\nnote')
    expect(second.readings.meal(first.readings.n - 1)).toBe('朝食')
  })

  it('keeps seconds and offsets, and prefers what was logged', () => {
    const log =
      'Timestamp,Glucose (mg/dL)\n2026-03-02T07:10:31+02:00,104\n2026-03-02T09:30:00-05:30,98\n2026-03-02T23:30:00Z,98\n'
    const first = readBack(log)
    const csv = textOf(first)
    expect(recordsOf(csv).map((record) => record.logged_at)).toEqual([
      '2026-03-02T07:10:31+02:00',
      '2026-03-02T09:30:00-05:30',
      // An instant is shown in the zone asked for: Berlin, an hour east of UTC in March.
      '2026-03-03T00:30:00+01:00',
    ])
    const second = readBack(csv)
    expect([...toArray(second, 'at')]).toEqual([...toArray(first, 'at')])
    expect([...toArray(second, 'offsetMinutes')]).toEqual([120, -330, 60])
  })
})

function toArray(
  { readings }: ReturnType<typeof readBack>,
  column: 'at' | 'mgDl' | 'logged' | 'flags' | 'offsetMinutes',
): number[] {
  return Array.from({ length: readings.n }, (_, i) => readings[column][i])
}

describe('a cell with a separator of another spreadsheet', () => {
  it.each([';=1+1', 'a\t=1+1', 'a|=1+1'])('is quoted: %j', (note) => {
    const [, row] = parsed(csvOf([{ at: '2026-03-02 07:10', value: 104, note }]))
    expect(row.find(({ text }) => text === note.trim())).toMatchObject({ quoted: true })
  })
})

describe('what must not be in the table', () => {
  it('a log’s preamble, with whatever serial number stands there', () => {
    const csv = textOf(
      readBack(
        'Owner,A Person\nSerial number,SN-48151623\n\nDate,Time,Glucose (mg/dL)\n2026-03-02,07:10,104\n',
      ),
    )
    expect(csv).not.toMatch(/48151623|A Person/)
  })
})
