import { describe, expect, it } from 'vitest'
import { formEdit } from '../../../src-core/bridge/forms/formEdit'
import type { FormName, FormRequest } from '../../../src-core/bridge/forms/formRequest'
import { formsView } from '../../../src-core/bridge/forms/formsView'
import { edited } from '../../../src-core/visit/edits'
import { EMPTY_VISIT, type Visit } from '../../../src-core/visit/visit'
import { ENGLISH } from '../../../src-core/wording/english'

// Forms of the window: each gives one edit, or what is wrong with its fields.

const NOW = '2026-06-30T14:00'

function read(visit: Visit, form: FormName, fields: FormRequest['fields'], place: number | null = null) {
  return formEdit(ENGLISH, visit, { form, place, fields }, { unit: 'mg/dL', unitOfLogs: 'mg/dL', now: NOW })
}
function after(visit: Visit, form: FormName, fields: FormRequest['fields'], place: number | null = null) {
  const given = read(visit, form, fields, place)
  if ('faults' in given) throw new Error(JSON.stringify(given.faults))
  return edited(visit, given.edit)
}
function faults(form: FormName, fields: FormRequest['fields']) {
  const given = read(EMPTY_VISIT, form, fields)
  if (!('faults' in given)) throw new Error('taken')
  return Object.fromEntries(given.faults.map(({ field, message }) => [field, message]))
}

const CONTROL = { date: '2026-05-02', result: '118', low: '96', high: '144', unit: 'mg/dL', meter: '' }
const TYPED = { date: '2026-05-20', time: '22:51', value: '58', unit: 'mg/dL', meal: '', note: ' shaky ' }

describe('an entry of the kit', () => {
  it.each([
    [
      'strips',
      { vial: 'second', lot: '7741', opened: '2026-03-02', daysOnceOpen: '90', coldest: '5', hottest: '40' },
    ],
    ['controls', CONTROL],
    ['medicines', { name: 'vitamin C', milligramsADay: '1000', from: '2026-03-02', to: '' }],
    ['clocks', { meter: 'meter A', shown: '2026-03-02T08:27', true: '2026-03-02T08:15' }],
    ['laboratoryA1c', { date: '2026-03-02', value: '6.9', unit: '%' }],
    ['laboratoryA1c', { date: '2026-03-02', value: '52', unit: 'mmol/mol' }],
    ['changes', { text: 'a new meter' }],
    ['questions', { text: 'why the mornings?' }],
    ['typed', TYPED],
  ] as const)('is added, shown as it was filled in, changed and removed: %s', (form, fields) => {
    const added = after(EMPTY_VISIT, form, fields)
    const [entry] = formsView(ENGLISH, added)[form]
    const trimmed = Object.entries(fields).map(([name, value]) => [name, value.trim()])
    expect(entry.fields).toMatchObject(Object.fromEntries(trimmed))
    expect(entry.text).not.toBe('')
    expect(after(added, form, entry.fields, 0)).toEqual(added)
    expect(formsView(ENGLISH, after(added, form, fields))[form]).toHaveLength(2)
    expect(after(added, form, null, 0)).toEqual(EMPTY_VISIT)
  })

  it('keeps what no form shows', () => {
    const visit = { ...EMPTY_VISIT, kit: { teachings: [{ date: '2026-03-02' }], questions: ['a', 'b'] } }
    expect(after(visit, 'questions', { text: 'c' }, 1).kit).toEqual({
      teachings: [{ date: '2026-03-02' }],
      questions: ['a', 'c'],
    })
  })

  it('changes nothing where it is not there any more', () => {
    expect(after(EMPTY_VISIT, 'strips', null, 3)).toEqual(EMPTY_VISIT)
  })

  it('reads a comma as a point', () => {
    const visit = after(EMPTY_VISIT, 'controls', {
      ...CONTROL,
      result: '6,7',
      low: '5,3',
      high: '8,0',
      unit: 'mmol/L',
    })
    expect(visit.kit.controls).toMatchObject([{ result: 6.7, range: [5.3, 8], unit: 'mmol/L' }])
  })
})

describe('what is wrong with a field', () => {
  it('is told at each field that is missing', () => {
    expect(faults('controls', { ...CONTROL, date: '', result: ' ', low: '' })).toEqual({
      date: 'This is needed.',
      result: 'This is needed.',
      low: 'This is needed.',
    })
  })

  it.each([
    ['controls', { ...CONTROL, result: '1e3' }, 'result', 'Write a number, such as 120 or 6.7.'],
    [
      'controls',
      { ...CONTROL, low: '150' },
      'high',
      'This has to be later, or higher, than the field before it.',
    ],
    ['controls', { ...CONTROL, unit: 'mmol/L' }, 'unit', 'Result and range look like the other unit.'],
    ['controls', { ...CONTROL, date: '2026-02-30' }, 'date', 'Write a date that exists'],
    ['strips', { vial: '', lot: '' }, 'vial', 'Fill in at least one of the fields.'],
    ['strips', { opened: '2026-03-02', finished: '2026-03-01' }, 'finished', 'has to be later, or higher'],
    ['strips', { coldest: '5' }, 'hottest', 'Write both temperatures, or neither.'],
    ['strips', { daysOnceOpen: '0' }, 'daysOnceOpen', 'Write a number of at least 1.'],
    ['medicines', { name: 'vitamin C', milligramsADay: '1,000' }, 'milligramsADay', '(1000, not 1,000)'],
    ['medicines', { name: 'vitamin C', milligramsADay: '1.000' }, 'milligramsADay', '(1000, not 1,000)'],
    ['strips', { daysOnceOpen: '1.5' }, 'daysOnceOpen', 'Write a whole number.'],
    [
      'laboratoryA1c',
      { date: '2026-03-02', value: '52', unit: '%' },
      'value',
      'Write a number of at most 20.',
    ],
    ['clocks', { shown: 'noon', true: '2026-03-02T08:15' }, 'shown', 'Write a day and a time'],
    ['questions', { text: '  ' }, 'text', 'This is needed.'],
    ['typed', { ...TYPED, time: '25:00' }, 'time', 'Write a time of day'],
    ['typed', { ...TYPED, value: '6.7' }, 'value', 'This cannot be in mg/dL'],
    ['typed', { ...TYPED, value: '0' }, 'value', 'Meters show 20 to 600 mg/dL'],
    ['typed', { ...TYPED, value: '601' }, 'value', 'Meters show 20 to 600 mg/dL'],
    // A low in mg/dL where the unit was left at mmol/L.
    ['typed', { ...TYPED, value: '54', unit: 'mmol/L' }, 'value', 'Check the unit'],
    ['typed', { ...TYPED, value: 'lo w' }, 'value', 'or LO or HI as the meter showed it'],
    ['typed', { ...TYPED, date: '0026-05-20' }, 'date', 'Check the year'],
    ['strips', { expires: '0027-05-01' }, 'expires', 'Check the year'],
    ['controls', { ...CONTROL, date: '2026-07-01' }, 'date', 'in the future'],
    ['laboratoryA1c', { date: '?', value: '6.5', unit: '%' }, 'date', 'Write a date that exists'],
    ['laboratoryA1c', { date: '2031-01-01', value: '6.5', unit: '%' }, 'date', 'in the future'],
    ['typed', { ...TYPED, date: '2026-07-01' }, 'date', 'in the future'],
    ['targets', { group: 'own', low: '180', high: '70', unit: '' }, 'high', 'has to be later, or higher'],
    ['targets', { group: 'own', low: '3.9', high: '10', unit: '' }, 'low', 'This cannot be in mg/dL'],
    ['targets', { group: 'own', low: '', high: '180', unit: '' }, 'low', 'This is needed.'],
    ['targets', { group: 'frail', goalLow: '100', goalHigh: '', unit: '' }, 'goalHigh', 'This is needed.'],
    [
      'targets',
      { group: 'usual', goalLow: '150', goalHigh: '90', unit: '' },
      'goalHigh',
      'has to be later, or higher',
    ],
    ['targets', { group: 'usual', goalLow: '5', goalHigh: '8', unit: '' }, 'goalLow', 'This cannot be in'],
  ] as const)('is told at its place: %s %j', (form, fields, field, message) => {
    const found = faults(form, fields)
    expect(Object.keys(found)).toEqual([field])
    expect(found[field]).toContain(message)
  })
})

describe('targets and unit', () => {
  it('are set together, in one edit', () => {
    const visit = after(EMPTY_VISIT, 'targets', { group: 'own', low: '3,9', high: '7.8', unit: 'mmol/L' })
    expect(visit).toMatchObject({ targets: { low: 3.9, high: 7.8 }, unit: 'mmol/L' })
    expect(formsView(ENGLISH, visit).targets).toEqual({
      group: 'own',
      low: '3.9',
      high: '7.8',
      goalLow: '',
      goalHigh: '',
      unit: 'mmol/L',
    })
    expect(after(visit, 'targets', { group: 'usual', unit: '' })).toEqual(EMPTY_VISIT)
  })

  it('hold the person’s own goal before meals, which can be taken back', () => {
    const fields = { group: 'frail', goalLow: '100', goalHigh: '160', unit: 'mg/dL' }
    const visit = after(EMPTY_VISIT, 'targets', fields)
    expect(visit).toMatchObject({ targets: 'frail', goal: { low: 100, high: 160 } })
    expect(formsView(ENGLISH, visit).targets).toMatchObject(fields)
    expect(after(visit, 'targets', { group: 'usual', goalLow: '', goalHigh: '', unit: '' })).toEqual(
      EMPTY_VISIT,
    )
  })

  it('hold type, treatment and agreed targets as they are told, each of which can be taken back', () => {
    const fields = { diabetes: 'type 1, since 1994', treatment: 'two insulins', agreedTargets: '90 to 160' }
    const told = after(EMPTY_VISIT, 'treatment', { answer: '', ...fields })
    expect(told.kit).toEqual(fields)
    expect(formsView(ENGLISH, told).treatment).toEqual({ answer: '', ...fields })
    expect(after(told, 'treatment', { ...fields, treatment: ' ' }).kit).toEqual({
      diabetes: fields.diabetes,
      agreedTargets: fields.agreedTargets,
    })
  })

  it('go with what can cause lows, which can be told and taken back', () => {
    const told = after(EMPTY_VISIT, 'treatment', { answer: 'yes' })
    expect(told.kit).toEqual({ canCauseLows: true })
    expect(after(told, 'treatment', { answer: '' })).toEqual(EMPTY_VISIT)
  })
})

describe('a marker of a paper diary', () => {
  it.each([
    ['LO', 'LO'],
    ['< 20', 'LO'],
    ['low', 'LO'],
    ['hi', 'HI'],
    ['>33.3', 'HI'],
  ])('%s is taken as the meter showed it', (value, marker) => {
    expect(after(EMPTY_VISIT, 'typed', { ...TYPED, value }).typed).toMatchObject([{ value: marker }])
  })
})

describe('a reading typed in place of a log’s own', () => {
  it('is added, and the log’s own is left out of averages by a decision that names it, in one edit', () => {
    const corrects = {
      at: '2026-05-20T22:51',
      value: '580',
      unit: 'mg/dL',
      meter: 'm',
      log: 'a'.repeat(64),
    } as const
    const given = formEdit(
      ENGLISH,
      EMPTY_VISIT,
      { form: 'typed', place: null, fields: TYPED, corrects },
      { unit: 'mg/dL', unitOfLogs: 'mg/dL', now: NOW },
    )
    if ('faults' in given) throw new Error('not taken')
    expect(edited(EMPTY_VISIT, given.edit)).toMatchObject({
      typed: [{ at: '2026-05-20T22:51', value: 58, unit: 'mg/dL', note: 'shaky' }],
      decisions: [
        {
          reading: corrects,
          choice: 'leave-out',
          correctedTo: { at: '2026-05-20T22:51', value: 58, unit: 'mg/dL' },
          decidedAt: NOW,
        },
      ],
    })
    const corrected = edited(EMPTY_VISIT, given.edit)
    const reading = { ...corrected.typed[0], value: 60 }
    const again = edited(corrected, { kind: 'type-reading', reading, replaces: 0 })
    expect(again.decisions).toMatchObject([{ correctedTo: { value: 60 } }])
    // Taken away again, the log's own counts as before.
    expect(edited(again, { kind: 'remove-typed', index: 0 })).toEqual(EMPTY_VISIT)
  })
})
