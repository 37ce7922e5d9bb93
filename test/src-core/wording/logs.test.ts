import { describe, expect, it } from 'vitest'
import { SET_ASIDE_REASONS } from '../../../src-core/log/logReport'
import {
  answerText,
  columnsText,
  dateDecisionText,
  fingerprintText,
  rowsText,
  SET_ASIDE_WORDS,
  unitDecisionText,
} from '../../../src-core/wording/english/logs'

describe('a log on paper', () => {
  it('is a number with digits of its hash, more briefly the more there are', () => {
    const two = { n: 2, named: ['7f3a91c2', '00112233'], more: 0, brief: false }
    expect(fingerprintText(two)).toBe('log 1: 7f3a91c2 · log 2: 00112233')
    expect(fingerprintText({ n: 11, named: ['7f3a', '0011'], more: 9, brief: true })).toBe(
      '11 logs: 7f3a 0011 and 9 more',
    )
  })

  it('tells its rows with the reasons', () => {
    expect(rowsText({ total: 440, accepted: 440, setAside: 0, reasons: [] })).toBe(
      '440 rows: 440 readings, 0 set aside.',
    )
    const reasons = [
      { reason: 'empty-value' as const, n: 2 },
      { reason: 'duplicate' as const, n: 3 },
    ]
    expect(rowsText({ total: 445, accepted: 440, setAside: 5, reasons })).toBe(
      '445 rows: 440 readings, 5 set aside (2 without a value and 3 recorded twice).',
    )
  })

  it('names every reason in words of its own', () => {
    expect(new Set(SET_ASIDE_REASONS.map((reason) => SET_ASIDE_WORDS[reason])).size).toBe(
      SET_ASIDE_REASONS.length,
    )
  })

  it('tells its columns, those not used, and its other tables', () => {
    const column = (index: number, header: string) => ({ n: 1, named: [{ index, header }], more: 0 })
    expect(
      columnsText({
        isFhir: false,
        read: [
          { role: 'date', columns: column(0, '') },
          { role: 'glucose', columns: column(1, 'We\u001brt') },
        ],
        notUsed: { n: 5, named: [{ index: 4, header: 'Puls', filled: 31 }], more: 4 },
        otherTables: {
          n: 1,
          named: [{ headerLine: null, firstLine: 3, lastLine: 9, read: false, rows: 7 }],
          more: 0,
        },
      }),
    ).toBe(
      'Date from column 1, glucose from ‘We\u241brt’. Not used: ‘Puls’ (31 cells) and 4 more. 1 table without glucose: lines 3 to 9.',
    )
    expect(
      columnsText({
        isFhir: false,
        read: [],
        notUsed: { n: 0, named: [], more: 0 },
        otherTables: { n: 0, named: [], more: 0 },
      }),
    ).toBe('')
    const none = { n: 0, named: [], more: 0 }
    expect(columnsText({ isFhir: true, read: [], notUsed: none, otherTables: none })).toBe(
      'HL7 FHIR: each Observation is a row, and its line the number of its entry.',
    )
  })
})

describe('what was decided about a log', () => {
  it('is told as it was answered', () => {
    const columns = [
      { index: 2, header: '' },
      { index: -1, header: 'Wert' },
    ]
    expect(
      (
        [
          { of: 'unit', unit: 'mixed' },
          { of: 'dates', order: 'dmy' },
          { of: 'columns', role: 'glucose', columns },
          { of: 'kinds', kinds: ['48'] },
          { of: 'clock', hours: '12' },
          { of: 'year', year: 2026 },
        ] as const
      ).map(answerText),
    ).toEqual([
      'both units mixed',
      'dates day first',
      'glucose from column 3 and ‘Wert’',
      'glucose is ‘48’',
      'second part of each day after noon',
      'first date in 2026',
    ])
  })

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
