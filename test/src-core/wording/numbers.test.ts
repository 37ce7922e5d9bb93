import { describe, expect, it } from 'vitest'
import { LIMITS } from '../../../src-core/reference/limits'
import {
  a1cMmolMolText,
  a1cText,
  count,
  differenceText,
  glucoseText,
  inWords,
  limitText,
  listed,
  percentText,
  readingText,
  thousandsText,
} from '../../../src-core/wording/english/numbers'
import { unbroken } from '../../../src-core/wording/english/lineBreaks'
import { FLAG } from '../../../src-core/log/readings'
import { readingsOf, row } from '../analysis/readingsOf'

describe('glucose in print', () => {
  it.each([
    // Halves go away from zero; 1 mmol/L is 18.0156 mg/dL (glucose, 180.156 g/mol).
    { mgDl: 143.5, unit: 'mg/dL', text: '144' },
    { mgDl: 144.5, unit: 'mg/dL', text: '145' },
    { mgDl: 144.49, unit: 'mg/dL', text: '144' },
    { mgDl: 69.6, unit: 'mg/dL', text: '70' },
    { mgDl: 180.156, unit: 'mmol/L', text: '10.0' },
    { mgDl: 144, unit: 'mmol/L', text: '8.0' },
    { mgDl: 97.3, unit: 'mmol/L', text: '5.4' },
    { mgDl: 18.0156 * 5.45, unit: 'mmol/L', text: '5.5' },
    { mgDl: 18.0156 * 4.25, unit: 'mmol/L', text: '4.3' },
  ] as const)('has no decimals in mg/dL and one in mmol/L: $mgDl is $text $unit', ({ mgDl, unit, text }) => {
    expect(glucoseText(mgDl, unit)).toBe(text)
  })

  it('shows limits as the consensus pairs have them, never one computed from the other', () => {
    // Battelino et al., Diabetes Care 2019;42:1593-1603: 70 is 3.9 and 250 is 13.9 mmol/L.
    const pairs = [LIMITS.veryLow, LIMITS.low, LIMITS.high, LIMITS.veryHigh]
    expect(pairs.map((pair) => limitText(pair, 'mg/dL'))).toEqual(['54', '70', '180', '250'])
    expect(pairs.map((pair) => limitText(pair, 'mmol/L'))).toEqual(['3.0', '3.9', '10.0', '13.9'])
  })
})

describe('a reading in print', () => {
  const readings = readingsOf([
    row('2026-03-01 07:00', 104),
    row('2026-03-01 08:00', 20, { flags: FLAG.belowRange }),
    row('2026-03-01 09:00', 600, { flags: FLAG.aboveRange }),
    row('2026-03-01 10:00', 3.85, { unit: 'mmol/L' }),
    row('2026-03-01 11:00', 500, { flags: FLAG.aboveRange }),
  ])

  it('is LO or HI where the meter showed no number, whatever limit it stands for', () => {
    expect([1, 2, 4].map((i) => readingText(readings, i, 'mg/dL'))).toEqual(['LO', 'HI', 'HI'])
    expect([1, 2, 4].map((i) => readingText(readings, i, 'mmol/L'))).toEqual(['LO', 'HI', 'HI'])
  })

  it('is the number of the log in its own unit and converted once in the other', () => {
    expect(readingText(readings, 0, 'mg/dL')).toBe('104')
    // 104 / 18.0156 = 5.773; 3.85 x 18.0156 = 69.36.
    expect(readingText(readings, 0, 'mmol/L')).toBe('5.8')
    expect(readingText(readings, 3, 'mmol/L')).toBe('3.9')
    expect(readingText(readings, 3, 'mg/dL')).toBe('69')
  })
})

describe('percentages and A1C in print', () => {
  it('have no decimals, but for the A1C in percent, which has one; halves away from zero', () => {
    expect([12.5, 13.5, 0.5, 0.49, 99.5, 100].map(percentText)).toEqual(['13', '14', '1', '0', '100', '100'])
    expect([6.25, 7.05, 10, 6.249].map(a1cText)).toEqual(['6.3', '7.1', '10.0', '6.2'])
    expect([48.5, 53.4].map(a1cMmolMolText)).toEqual(['49', '53'])
  })

  it('round a half that binary fractions miss as it is written', () => {
    // 1.005 x 100 and 0.285 x 100 lie a little below 100.5 and 28.5 in binary.
    expect([1.005 * 100 - 100 + 0.0, 0.285 * 100].map(percentText)).toEqual(['1', '29'])
  })
})

describe('a difference of two printed numbers', () => {
  it('is what a reader computes from the row, with its sign', () => {
    expect(differenceText('154', '146')).toBe('−8')
    expect(differenceText('8.5', '8.7')).toBe('+0.2')
    expect(differenceText('8.5', '8.5')).toBe('0.0')
    expect(differenceText('57', '57')).toBe('0')
    // 8.1 - 7.8 is 0.2999... in binary.
    expect(differenceText('7.8', '8.1')).toBe('+0.3')
  })
})

describe('counts', () => {
  it('have no separators and agree with their noun', () => {
    expect(count(0, 'reading')).toBe('0 readings')
    expect(count(1, 'reading')).toBe('1 reading')
    expect(count(12345, 'reading')).toBe('12345 readings')
    expect(count(1, 'match', 'matches')).toBe('1 match')
    expect(count(2, 'match', 'matches')).toBe('2 matches')
  })

  it('are words up to ten', () => {
    expect([0, 1, 8, 10, 11].map(inWords)).toEqual(['no', 'one', 'eight', 'ten', '11'])
  })

  it('are joined as in a sentence', () => {
    expect(listed([])).toBe('')
    expect(listed(['a'])).toBe('a')
    expect(listed(['a', 'b'])).toBe('a and b')
    expect(listed(['a', 'b', 'c'])).toBe('a, b and c')
  })
})

describe('a number', () => {
  it('stays on one line with the unit behind it, and nothing else is glued', () => {
    expect(unbroken('next test 92 after 6 h 26 min')).toBe('next test 92 after 6\u00a0h 26\u00a0min')
    expect(unbroken('less than 15 %, ±15 mg/dL or 0.8 mmol/L')).toBe(
      'less than 15\u00a0%, ±15\u00a0mg/dL or 0.8\u00a0mmol/L',
    )
    expect(unbroken('on 1 day of 90 days, 4 here')).toBe('on 1\u00a0day of 90\u00a0days, 4 here')
  })

  it('has a mark for thousands where it is long', () => {
    expect([0, 999, 2_345, 1_234_567].map(thousandsText)).toEqual(['0', '999', '2,345', '1,234,567'])
  })
})
