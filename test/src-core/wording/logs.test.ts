import { describe, expect, it } from 'vitest'
import { type LogReport, SET_ASIDE_REASONS, type SetAsideReason } from '../../../src-core/log/logReport'
import {
  dateDecisionText,
  fingerprintText,
  logName,
  rowsText,
  SET_ASIDE_WORDS,
  shortHash,
  unitDecisionText,
} from '../../../src-core/wording/english/logs'

function report(parts: Partial<LogReport> = {}): LogReport {
  return {
    name: 'export of A Person.csv',
    sha256: '7f3a91c2d4e5b6071122334455667788'.repeat(2),
    bytes: 100,
    encoding: 'utf-8',
    delimiter: ',',
    headerLine: 1,
    columns: [],
    tables: [],
    notUsed: [],
    unit: { value: 'mg/dL', basis: 'header' },
    dateOrder: { value: 'ymd', basis: 'form' },
    rows: { total: 440, accepted: 440, setAside: 0 },
    setAside: [],
    notes: [],
    ...parts,
  }
}

function setAside(reasons: readonly SetAsideReason[]): Partial<LogReport> {
  return {
    rows: { total: 440 + reasons.length, accepted: 440, setAside: reasons.length },
    setAside: reasons.map((reason, i) => ({ line: i + 2, reason, text: '' })),
  }
}

describe('a log on paper', () => {
  it('is a number with a short hash; its file’s name stays off the page', () => {
    expect(logName(0)).toBe('log 1')
    expect(shortHash(report().sha256)).toBe('7f3a91c2')
    expect(fingerprintText([report()])).toBe('log 1: 7f3a91c2')
    expect(fingerprintText([report(), report(), report()])).toBe(
      'log 1: 7f3a91c2 · log 2: 7f3a91c2 · log 3: 7f3a91c2',
    )
  })

  it('is named more briefly the more there are', () => {
    expect(fingerprintText(Array.from({ length: 4 }, () => report()))).toBe('4 logs: 7f3a 7f3a 7f3a 7f3a')
    expect(fingerprintText(Array.from({ length: 11 }, () => report()))).toMatch(
      /^11 logs: (7f3a ){8}and 3 more$/,
    )
  })
})

describe('the rows of a log', () => {
  it('add up: total is accepted plus set aside, with the reasons', () => {
    expect(rowsText(report())).toBe('440 rows: 440 readings, 0 set aside.')
    expect(
      rowsText(report(setAside(['duplicate', 'empty-value', 'duplicate', 'empty-value', 'duplicate']))),
    ).toBe('445 rows: 440 readings, 5 set aside (2 without a value and 3 held twice).')
    expect(rowsText(report(setAside(['footer'])))).toContain('1 set aside (1 at the foot of the file)')
  })

  it('name every reason in words of its own', () => {
    const words = SET_ASIDE_REASONS.map((reason) => SET_ASIDE_WORDS[reason])
    expect(new Set(words).size).toBe(SET_ASIDE_REASONS.length)
    for (const reason of SET_ASIDE_REASONS) {
      expect(rowsText(report(setAside([reason])))).toContain(`(1 ${SET_ASIDE_WORDS[reason]})`)
    }
  })
})

describe('what was decided about a log', () => {
  it('is told with its basis', () => {
    expect(unitDecisionText({ value: 'mmol/L', basis: 'values' })).toBe('Unit mmol/L, judged by the values.')
    expect(unitDecisionText({ value: 'mg/dL', basis: 'answer' })).toBe('Unit mg/dL, as answered.')
    expect(dateDecisionText({ value: 'dmy', basis: 'rows' })).toBe(
      'Dates: day, month, year, from rows that allow no other order.',
    )
    expect(dateDecisionText({ value: 'epoch', basis: 'form' })).toBe(
      'Dates: seconds or milliseconds since 1970, from their form.',
    )
  })
})
