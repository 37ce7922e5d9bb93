import { describe, expect, it } from 'vitest'
import { LONGEST_NAME } from '../../../src-core/model/named'
import {
  answersTold,
  columnsTold,
  fingerprint,
  rowsTold,
  setAsideTold,
  shortHash,
} from '../../../src-core/told/logs'
import { logbookOf, logOf } from '../../helpers/logs'

// What is told of a log, as data; the truth is written beside each log by hand.

const SHA256 = '7f3a91c2d4e5b6071122334455667788'.repeat(2)

describe('the columns of a log', () => {
  const LONG = 'x'.repeat(LONGEST_NAME + 1)

  it('are told by what they hold, headers short', () => {
    const header = `Date,Time,Glucose (mg/dL),Note,${LONG}`
    const { sources } = logbookOf([`${header}\n2026-03-02,07:00,110,a,77\n2026-03-03,07:00,120,b,\n`])
    const { read, notUsed } = columnsTold(sources[0])
    expect(read.map(({ role, columns }) => [role, columns.named.map((one) => one.header)])).toEqual([
      ['date', ['Date']],
      ['time', ['Time']],
      ['glucose', ['Glucose (mg/dL)']],
      ['note', ['Note']],
    ])
    expect(notUsed).toEqual({
      n: 1,
      named: [{ index: 4, header: `${'x'.repeat(LONGEST_NAME)}…`, filled: 1 }],
      more: 0,
    })
  })

  it('are eight by name of each kind, the rest by their number', () => {
    const column = (index: number) => ({ index, header: `c${index}`, filled: 1 })
    const notUsed = Array.from({ length: 11 }, (_, i) => column(i))
    const told = columnsTold({ delimiter: 'comma', columns: [], notUsed, tables: [] })
    expect(told.read).toEqual([])
    expect(told.notUsed).toMatchObject({ n: 11, more: 3 })
    expect(told.notUsed.named).toHaveLength(8)
  })

  it('of tables that were read are no other tables', () => {
    const table = (firstLine: number, read: boolean) => ({
      headerLine: null,
      firstLine,
      lastLine: 9,
      read,
      rows: 1,
    })
    const told = columnsTold({
      delimiter: 'comma',
      columns: [],
      notUsed: [],
      tables: [table(1, true), table(5, false)],
    })
    expect(told.otherTables).toMatchObject({ n: 1, named: [{ firstLine: 5 }], more: 0 })
  })
})

describe('the rows of a log', () => {
  const rows = Array.from({ length: 7 }, (_, i) => `2026-03-${String(10 + i)} 07:00,\n`).join('')
  const log = `When,Glucose (mg/dL)\n2026-03-02 07:00,110\n2026-03-02 07:00,110\n${rows}`
  const [source] = logbookOf([log]).sources

  it('add up: total is accepted plus set aside, with the reasons in a fixed order', () => {
    expect(rowsTold(source)).toEqual({
      total: 9,
      accepted: 1,
      setAside: 8,
      reasons: [
        { reason: 'empty-value', n: 7 },
        { reason: 'duplicate', n: 1 },
      ],
    })
  })

  it('name at most five lines of a reason', () => {
    const told = setAsideTold(source).map(({ reason, rows }) => [
      reason,
      rows.named.map(({ line }) => line),
      rows.more,
    ])
    expect(told).toEqual(
      expect.arrayContaining([
        ['empty-value', [4, 5, 6, 7, 8], 2],
        ['duplicate', [3], 0],
      ]),
    )
  })
})

describe('what a person answered', () => {
  it('is told thing by thing; what was chosen instead of the log counts', () => {
    expect(answersTold({ unit: 'mixed', instead: { unit: 'mg/dL' }, dates: 'mdy' })).toEqual([
      { of: 'unit', unit: 'mg/dL' },
      { of: 'dates', order: 'mdy' },
    ])
    expect(answersTold({ columns: 'glucose=3|Wert,kind=4:48,clock=12,year=2026' })).toEqual([
      {
        of: 'columns',
        role: 'glucose',
        columns: [
          { index: 2, header: '' },
          { index: -1, header: 'Wert' },
        ],
      },
      { of: 'columns', role: 'kind', columns: [{ index: 3, header: '' }] },
      { of: 'kinds', kinds: ['48'] },
      { of: 'clock', hours: '12' },
      { of: 'year', year: 2026 },
    ])
  })

  it('is nothing where nothing was answered, or columns that cannot be read', () => {
    expect(answersTold({})).toEqual([])
    expect(answersTold({ columns: 'nonsense' })).toEqual([])
  })
})

describe('digits of hashes', () => {
  const logs = (n: number) => Array.from({ length: n }, () => ({ ...logOf('a'), sha256: SHA256 }))

  it('are eight of up to three logs, and four of up to eight where there are more', () => {
    expect(shortHash(SHA256)).toBe('7f3a91c2')
    expect(fingerprint(logs(3))).toEqual({ brief: false, n: 3, named: Array(3).fill('7f3a91c2'), more: 0 })
    expect(fingerprint(logs(11))).toEqual({ brief: true, n: 11, named: Array(8).fill('7f3a'), more: 3 })
  })
})
