import { describe, expect, it } from 'vitest'
import { kindMeaning } from '../../../src-core/log/words/kinds'
import { headerWords } from '../../../src-core/log/words/headerRole'
import { isSumNote, startsAsSum } from '../../../src-core/log/words/sums'

// What single words of headers, kinds and notes mean.

describe('a kind of entry', () => {
  it.each(['Blood', 'Finger stick', 'Capillary blood test', 'Sangre', 'Blood value', 'Calibration finger 2'])(
    '‘%s’ is a reading of glucose',
    (kind) => expect(kindMeaning(kind)).toBe('glucose'),
  )
  it.each(['Blood ketones', 'Cetonas en sangre', 'Ketony we krwi', 'Blood pressure', 'Chetoni nel sangue'])(
    '‘%s’ is another measure',
    (kind) => expect(kindMeaning(kind)).toBe('other'),
  )
})

describe('a header', () => {
  it.each([
    ['Parameter', 'kind'],
    ['Zuckermeter', 'meter'],
    ['Numéro', null],
    ['Measuring unit', 'unit'],
    ['Insulin units', 'insulin'],
    ['Insulin before glucose test', 'insulin'],
    ['Glucose before insulin', 'glucose'],
    ['Glucose mmol/L before insulin', 'glucose'],
    ['Glukose vor Insulin', 'glucose'],
    ['Päivällinen', 'meal'],
    ['Päivämäärä', 'date'],
  ] as const)('‘%s’ is of the role %s', (header, role) => {
    const told = headerWords(header).role
    expect(told === 'ignored' ? null : told).toBe(role)
  })
  it.each(['Meta de glicose', 'Streefwaarde', 'Richtwert', 'Cílová glykemie'])('‘%s’ is a goal', (header) =>
    expect(headerWords(header).against).toBe('goal'),
  )
  it.each(['Kaliémie', 'Draslík', 'Калий', 'カリウム', '血钾'])('‘%s’ is another measure', (header) =>
    expect(headerWords(header).against).toBe('other'),
  )
})

describe('a note', () => {
  it.each(['Mean', 'Ø', 'Śr.', 'Ср.', 'Μ.Ο.', 'Mittelwert des Tages', 'Průměr za den', 'Μέσος όρος ημέρας'])(
    '‘%s’ is a mean and begins so',
    (note) => expect([isSumNote(note), startsAsSum(note)]).toEqual([true, true]),
  )
  it.each(['the average day', 'průměrný den'])('‘%s’ does not begin as a mean', (note) =>
    expect(startsAsSum(note)).toBe(false),
  )
  it.each(['felt shaky', 'mean neighbour', 'long walk'])('‘%s’ is no mean', (note) =>
    expect(isSumNote(note)).toBe(false),
  )
})
