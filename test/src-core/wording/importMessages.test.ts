import { describe, expect, it } from 'vitest'
import { SET_ASIDE_REASONS } from '../../../src-core/log/logReport'
import {
  dateOrderAnswer,
  emptyPeriodMessage,
  messageText,
  noGlucoseColumnMessage,
  noSuchColumnMessage,
  notTextMessage,
  refusalLine,
  SET_ASIDE_DETAIL,
  UNIT_QUESTION,
  unitAnswerText,
  unreadableColumnsMessage,
} from '../../../src-core/wording/importMessages'

describe('a refusal', () => {
  it('names file and line and ends with its code in brackets', () => {
    const refusal = {
      log: 'log.csv',
      line: 7,
      message: { what: 'The log does not say its unit.', inTerminal: '', inWindow: '' },
      code: 'unit-unknown',
    } as const
    expect(refusalLine(refusal)).toBe('log.csv, line 7: The log does not say its unit. (unit-unknown)')
    expect(refusalLine({ ...refusal, line: null })).toBe(
      'log.csv: The log does not say its unit. (unit-unknown)',
    )
  })

  it('names the option that answers it', () => {
    const units = (['mg/dL', 'mmol/L'] as const).map((answer) => ({ answer, label: answer }))
    expect(unitAnswerText(units)).toContain('--log-unit mg/dL or --log-unit mmol/L')
    const orders = [
      { answer: 'dmy', label: 'day first' },
      { answer: 'mdy', label: 'month first' },
    ]
    expect(dateOrderAnswer(orders)).toContain('--dates dmy (day first) or --dates mdy (month first)')
    expect(noGlucoseColumnMessage(false).inTerminal).toContain('--columns glucose=3')
    expect(noGlucoseColumnMessage(true).inTerminal).toContain('--columns date=1,time=2,glucose=3')
    expect(messageText(noSuchColumnMessage('Wert'), 'terminal')).toMatch(/'Wert'.*--columns glucose=3/)
    expect(messageText(unreadableColumnsMessage('note='), 'terminal')).toMatch(
      /'note='.*time=2,glucose=3,note=5/,
    )
  })

  it('of a period without readings tells which days there are', () => {
    const days = ['2026-06-01', '2026-06-30', '2026-03-02', '2026-05-30']
    expect(messageText(emptyPeriodMessage(days, '--period'), 'terminal')).toBe(
      'No reading lies from 2026-06-01 to 2026-06-30. The readings cover 2026-03-02 to 2026-05-30: choose days ' +
        'among these with --period FROM..TO.',
    )
  })

  it('of a file that is no table says what to do with it', () => {
    for (const kind of ['spreadsheet', 'archive', 'pdf', 'picture', 'binary'] as const) {
      expect(notTextMessage(kind).what).toMatch(/^The file is .*\. .*(save|Unpack|Export).*\.$/)
    }
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
    expect(new Set(Object.values(UNIT_QUESTION)).size).toBe(Object.keys(UNIT_QUESTION).length)
  })
})
