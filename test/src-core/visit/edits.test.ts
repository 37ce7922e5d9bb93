import type { Decision, TypedReading } from '../../../src-core/model/decision'
import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { type Edit, edited } from '../../../src-core/visit/edits'
import { done, historyOf, redone, undone } from '../../../src-core/visit/history'
import { EMPTY_VISIT, type Visit } from '../../../src-core/visit/visit'
import { anyEdit, visitLog } from '../../helpers/visits'

const LOGS = [visitLog('a.csv', 'first'), visitLog('b.csv', 'second')]
const TYPED: TypedReading = { at: '2026-03-02T07:10', value: 104, unit: 'mg/dL' }
const READING = {
  at: '2026-03-02T07:10',
  value: '104',
  unit: 'mg/dL',
  meter: 'm',
  log: LOGS[0].sha256,
} as const
const DECISION: Decision = { reading: READING, choice: 'keep', reason: '', decidedAt: '2026-03-03T10:00' }
const FULL: Visit = { ...EMPTY_VISIT, logs: LOGS, typed: [TYPED], decisions: [DECISION], label: 'Thursday' }

describe('an edit', () => {
  it.each<[string, Edit, Partial<Visit>]>([
    ['adds logs once', { kind: 'add-logs', logs: [LOGS[0], visitLog('c', 'c'), visitLog('d', 'c')] }, { logs: [...LOGS, visitLog('c', 'c')] }],
    ['removes a log and keeps what was decided', { kind: 'remove-log', sha256: LOGS[0].sha256 }, { logs: [LOGS[1]] }],
    ['answers for one log', { kind: 'answer', sha256: LOGS[1].sha256, answers: { dates: 'dmy' } }, { logs: [LOGS[0], { ...LOGS[1], answers: { dates: 'dmy' } }] }],
    ['decides once for a reading', { kind: 'decide', decision: { ...DECISION, choice: 'leave-out' } }, { decisions: [{ ...DECISION, choice: 'leave-out' }] }],
    ['takes a decision back', { kind: 'take-back', reading: { ...READING } }, { decisions: [] }],
    ['adds a typed reading', { kind: 'type-reading', reading: { ...TYPED, value: 61 } }, { typed: [TYPED, { ...TYPED, value: 61 }] }],
    ['removes a typed reading', { kind: 'remove-typed', index: 0 }, { typed: [] }],
    ['sets what is said and nothing else', { kind: 'set', settings: { paper: 'Letter', diary: 'all' } }, { paper: 'Letter', diary: 'all' }],
  ])('%s', (_, edit, changed) => {
    const before = structuredClone(FULL)
    expect(edited(FULL, edit)).toEqual({ ...FULL, ...changed })
    expect(FULL).toEqual(before)
  }) // prettier-ignore

  it.each<Edit>([
    { kind: 'add-logs', logs: LOGS },
    { kind: 'remove-log', sha256: 'other' },
    { kind: 'answer', sha256: 'other', answers: { unit: 'mmol/L' } },
    { kind: 'take-back', reading: { ...READING, value: '61' } },
    { kind: 'remove-typed', index: 1 },
  ])('that changes nothing leaves no step: $kind', (edit) => {
    const history = historyOf(FULL)
    expect(edited(FULL, edit)).toBe(FULL)
    expect(done(history, edit)).toBe(history)
  })
})

describe('a correction', () => {
  const correctedTo = { at: '2026-03-02T07:16', value: 140, unit: 'mg/dL' } as const
  const corrected: Visit = {
    ...FULL,
    typed: [TYPED, correctedTo],
    decisions: [{ ...DECISION, choice: 'leave-out', correctedTo }],
  }
  const removed: Edit = { kind: 'remove-typed', index: 1 }
  const decided = (choice: Decision['choice']): Edit => ({
    kind: 'decide',
    decision: { ...DECISION, choice, reason: 'misread the display' },
  })

  it('takes what it decided of the log’s own reading with it, in whatever words and of whatever minute', () => {
    expect(edited(corrected, removed)).toEqual({ ...FULL, decisions: [] })
    expect(edited(edited(corrected, decided('leave-out')), removed)).toEqual({ ...FULL, decisions: [] })
    const changed: Edit = { kind: 'type-reading', reading: { ...TYPED, value: 99 }, replaces: 1 }
    expect(edited(edited(corrected, changed), removed)).toEqual({ ...FULL, decisions: [] })
  })

  it('leaves what the person decided otherwise since, and what another one of the same decided', () => {
    const kept = edited(edited(corrected, decided('keep')), removed)
    expect(kept.decisions).toMatchObject([{ choice: 'keep', reason: 'misread the display' }])
    const twice = edited(corrected, { kind: 'type-reading', reading: correctedTo })
    expect(edited(twice, removed)).toEqual(corrected)
  })

  it('is none where the person says in the same words why a reading is left out', () => {
    const own: Decision = { ...DECISION, choice: 'leave-out', reason: 'typed by hand instead: 104 mg/dL' }
    const visit = { ...FULL, decisions: [own] }
    expect(edited(visit, { kind: 'remove-typed', index: 0 }).decisions).toEqual([own])
  })
})

describe('undo and redo', () => {
  it('of any sequence of edits gives the first visit and then the last one again', () => {
    fc.assert(
      fc.property(fc.array(anyEdit, { maxLength: 30 }), (edits) => {
        const last = edits.reduce(done, historyOf(FULL))
        let history = last
        const visits = [last.visit]
        while (history.undoable.length > 0) visits.push((history = undone(history)).visit)
        expect(history.visit).toBe(FULL)
        expect(undone(history)).toEqual(history)
        for (const visit of visits.reverse()) {
          expect(history.visit).toEqual(visit)
          history = redone(history)
        }
        expect(history).toEqual(last)
      }),
    )
  })

  it('a new edit after an undo ends what could be done again', () => {
    const label = (text: string): Edit => ({ kind: 'set', settings: { label: text } })
    const history = done(undone(done(historyOf(FULL), label('one'))), label('two'))
    expect(history.visit.label).toBe('two')
    expect(redone(history)).toEqual(history)
    expect(undone(history).visit).toBe(FULL)
  })

  it('forgets the oldest of many thousand steps', () => {
    let history = historyOf(EMPTY_VISIT)
    for (let i = 1; i <= 1_005; i++) history = done(history, { kind: 'set', settings: { label: String(i) } })
    while (history.undoable.length > 0) history = undone(history)
    expect(history.visit.label).toBe('5')
  })
})
