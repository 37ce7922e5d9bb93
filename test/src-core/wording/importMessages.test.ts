import { describe, expect, it } from 'vitest'
import { SET_ASIDE_REASONS } from '../../../src-core/log/logReport'
import type { Choice, ChoiceLabel, RefusalReason, RowShown } from '../../../src-core/log/refusal'
import { parseIsoDay } from '../../../src-core/units/wallClock'
import {
  choiceExample,
  choiceLabel,
  refusalLine,
  refusalText,
  SET_ASIDE_DETAIL,
} from '../../../src-core/wording/english/importMessages'

const told = (reason: RefusalReason, choices: readonly Choice[] = []) =>
  refusalText(reason, choices, 'terminal')

const OPEN = [
  'foreign-unit',
  'values-fit-both',
  'two-magnitudes',
  'some-rows-without',
  'very-low-values',
] as const

function choice(answer: string, label: ChoiceLabel): Choice {
  return { answer, label, example: { of: 'day', day: 20_000 }, effect: null }
}

describe('a refusal', () => {
  it('names file and line and ends with its code in brackets', () => {
    const refusal = {
      log: 'log.csv',
      line: 7,
      reason: { key: 'empty-file' },
      code: 'empty-file',
      question: null,
    } as const
    expect(refusalLine(refusal)).toBe(
      'log.csv, line 7: The file is empty. Export the readings again. (empty-file)',
    )
    expect(refusalLine({ ...refusal, line: null })).toBe(
      'log.csv: The file is empty. Export the readings again. (empty-file)',
    )
    expect(refusalLine({ ...refusal, log: null, line: null })).toMatch(/^the visit: /)
  })

  it('names the option that answers it', () => {
    const units = (['mg/dL', 'mmol/L'] as const).map((answer) => choice(answer, { of: 'unit', unit: answer }))
    expect(told({ key: 'unit', open: 'values-fit-both' }, units)).toContain(
      '--log-unit mg/dL or --log-unit mmol/L',
    )
    const orders = (['dmy', 'mdy'] as const).map((order) => choice(order, { of: 'dates', order }))
    expect(told({ key: 'date-order' }, orders)).toContain(
      '--dates dmy (day first) or --dates mdy (month first)',
    )
    const column = choice('glucose=4', { of: 'column', index: 3, header: 'BG' })
    for (const key of ['no-glucose-column', 'several-glucose-columns'] as const) {
      const reason = key === 'no-glucose-column' ? { key, headerless: false } : { key }
      expect(told(reason, [column])).toContain('--columns glucose=4')
    }
    expect(told({ key: 'no-glucose-column', headerless: false })).toContain('--columns glucose=NAME')
    expect(told({ key: 'no-glucose-column', headerless: true })).toContain(
      '--columns date=1,time=2,glucose=3',
    )
    expect(told({ key: 'no-such-column', name: 'Wert' })).toMatch(/'Wert'.*--columns glucose=3/)
    expect(told({ key: 'unreadable-columns', part: 'note=' })).toMatch(/'note='.*time=2,glucose=3,note=5/)
  })

  it('of a period without readings tells which days there are', () => {
    const days = (from: string, to: string) => ({ from: parseIsoDay(from) ?? 0, to: parseIsoDay(to) ?? 0 })
    const reason: RefusalReason = {
      key: 'empty-period',
      which: 'period',
      asked: days('2026-06-01', '2026-06-30'),
      covered: days('2026-03-02', '2026-05-30'),
    }
    expect(told(reason)).toBe(
      'There are no readings from 2026-06-01 to 2026-06-30. The readings cover 2026-03-02 to 2026-05-30: choose days ' +
        'within those with --period FROM..TO.',
    )
  })

  it('of a file that is no table says what to do with it', () => {
    for (const form of ['spreadsheet', 'archive', 'pdf', 'picture', 'binary'] as const) {
      expect(told({ key: 'not-text', form })).toMatch(/^The file is .*\. .*(save|Unpack|Export).*\.$/)
    }
  })
})

describe('a choice', () => {
  const row = { line: 4, second: 86_400, value: 6.4, unit: null }

  it('shows rows as they would be read: midnight at the end of a day is no morning', () => {
    const shown = (rows: readonly RowShown[]) =>
      choiceExample({ ...choice('date=1', { of: 'one-person' }), example: { of: 'rows', rows } })
    expect(
      shown([
        { ...row, date: parseIsoDay('2026-03-02') },
        { ...row, date: [3, 4, 26], second: 7 * 3600 + 630, unit: 'mmol/L' },
        { ...row, date: null, second: null },
      ]),
    ).toBe('line 4: 2026-03-02, 24:00, 6.4 · line 4: 3/4/26, 07:10, 6.4 mmol/L · line 4: 6.4')
  })

  it('of the unit says what it makes of each value', () => {
    const labels: readonly ChoiceLabel[] = [
      { of: 'unit', unit: 'mg/dL' },
      { of: 'all-in', unit: 'g/L' },
      { of: 'as-rows-say' },
      { of: 'each-by-size' },
      { of: 'odd-in-other', unit: 'mg/dL' },
      { of: 'odd-in-other', unit: 'g/L' },
    ]
    expect(labels.map((label) => choiceLabel(choice('x', label)))).toEqual([
      'mg/dL',
      'all in g/L',
      'as each row says',
      'both units are mixed: each value in the unit that its size fits',
      'both units are mixed: mg/dL, and the values that cannot be mg/dL in the other unit',
      'both units are mixed: g/L, and the values that cannot be g/L in mmol/L',
    ])
  })
})

describe('why a row is set aside', () => {
  it('is said in a sentence of its own for every reason', () => {
    const details = SET_ASIDE_REASONS.map((reason) => SET_ASIDE_DETAIL[reason])
    expect(new Set(details).size).toBe(SET_ASIDE_REASONS.length)
    for (const detail of details) expect(detail).toMatch(/^[A-Z].*\.$/)
  })

  it('names the limits of possible readings', () => {
    expect(SET_ASIDE_DETAIL['impossible-value']).toContain('between 1 and 1,000 mg/dL')
  })
})

describe('an open unit', () => {
  it('is asked for in a different sentence for each way of being open', () => {
    expect(new Set(OPEN.map((open) => told({ key: 'unit', open }))).size).toBe(OPEN.length)
  })
})
