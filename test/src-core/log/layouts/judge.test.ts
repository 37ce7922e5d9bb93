import { expect, it } from 'vitest'
import { judge, type Verdict } from './judge'
import type { LayoutCase } from './cases'

// The judge itself, on logs that leave no doubt.

const HEAD = 'Date,Time,Glucose (mg/dL)\n'
const FIRST = { at: '2026-03-02T07:10', value: 104, limit: '', unit: 'mg/dL', line: 2 } as const
const SECOND = { at: '2026-03-02T12:00', value: 61, limit: '', unit: 'mg/dL', line: 3 } as const

function verdict(text: string, truths: LayoutCase['truths']): Verdict {
  return judge({ seed: 0, kind: '', language: 'en', mayAsk: [], features: [], text, truths }).verdict
}

it.each<readonly [Verdict, string, string, LayoutCase['truths']]>([
  ['right', 'exactly the readings', `${HEAD}2026-03-02,07:10,104\n2026-03-02,12:00,61\n`, [FIRST, SECOND]],
  ['wrong', 'a reading too many', `${HEAD}2026-03-02,07:10,104\n2026-03-02,12:00,61\n`, [FIRST]],
  ['wrong', 'another value', `${HEAD}2026-03-02,07:10,104\n2026-03-02,12:00,62\n`, [FIRST, SECOND]],
  ['wrong', 'another minute', `${HEAD}2026-03-02,07:10,104\n2026-03-02,12:01,61\n`, [FIRST, SECOND]],
  ['wrong', 'another unit', `${HEAD}2026-03-02,07:10,104\n`, [{ ...FIRST, unit: 'mmol/L' }]],
  ['wrong', 'a day without its time', 'Date,Glucose (mg/dL)\n2026-03-02,104\n', [FIRST]],
  ['lost', 'a row that is not there', `${HEAD}2026-03-02,07:10,104\n`, [FIRST, SECOND]],
  ['told', 'a row set aside', `${HEAD}2026-03-02,07:10,104\n2026-03-02,12:00,smudged\n`, [FIRST, SECOND]],
  ['asked', 'a question', `${HEAD.replace(' (mg/dL)', '')}2026-03-02,07:10,25\n`, [{ ...FIRST, value: 25 }]],
  ['refused', 'no row at all', HEAD, [FIRST]],
])('says %s of %s', (expected, _, text, truths) => {
  expect(verdict(text, truths)).toBe(expected)
}) // prettier-ignore
