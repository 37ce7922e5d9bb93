import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { momentText } from '../../../src-core/log/readings'
import type { LogAnswers } from '../../../src-core/log/logSource'
import { choicesTold, CONTEXT, logbookOf, notesOf, refusalsOf, refusalTold } from '../../helpers/logs'

// Dates that name no year. The days are the test's own; the forms are those that people write.

const NOW = new Date(CONTEXT.nowMs)
const pad = (n: number): string => String(n).padStart(2, '0')

/** How a day is written without its year. */
const FORMS: Record<string, (date: Date) => string> = {
  '3/14': (date) => `${date.getUTCMonth() + 1}/${date.getUTCDate()}`,
  '14/03': (date) => `${pad(date.getUTCDate())}/${pad(date.getUTCMonth() + 1)}`,
  '14.3.': (date) => `${date.getUTCDate()}.${date.getUTCMonth() + 1}.`,
  '14. 03.': (date) => `${pad(date.getUTCDate())}. ${pad(date.getUTCMonth() + 1)}.`,
  '14.03': (date) => `${pad(date.getUTCDate())}.${pad(date.getUTCMonth() + 1)}`,
  '03-14': (date) => `${pad(date.getUTCMonth() + 1)}-${pad(date.getUTCDate())}`,
  '14 March': (date) => `${date.getUTCDate()} ${monthOf(date, 'en', 'long')}`,
  'March 14': (date) => `${monthOf(date, 'en', 'long')} ${date.getUTCDate()}`,
  '14-Mar': (date) => `${date.getUTCDate()}-${monthOf(date, 'en', 'short')}`,
  'Fri, 14 Mar': (date) => `Fri, ${date.getUTCDate()} ${monthOf(date, 'en', 'short')}`,
  '14. März': (date) => `${date.getUTCDate()}. ${monthOf(date, 'de', 'long')}`,
  '14 de marzo': (date) => `${date.getUTCDate()} de ${monthOf(date, 'es', 'long')}`,
  '14 марта': (date) =>
    new Intl.DateTimeFormat('ru', { day: 'numeric', month: 'long', timeZone: 'UTC' }).format(date),
  '3月14日': (date) => `${date.getUTCMonth() + 1}月${date.getUTCDate()}日`,
}

function monthOf(date: Date, locale: string, month: 'long' | 'short'): string {
  return new Intl.DateTimeFormat(locale, { month, timeZone: 'UTC' }).format(date)
}

const isoDay = (date: Date): string => date.toISOString().slice(0, 10)
const addDays = (date: Date, days: number): Date => new Date(date.getTime() + days * 86_400_000)

/** A diary of two readings a day from a day on. */
const DIARY = fc.record({
  form: fc.constantFrom(...Object.keys(FORMS)),
  // The last day lies before now, the first at most two years ago; a fortnight holds a day above 12.
  first: fc.integer({ min: 90, max: 700 }).map((ago) => addDays(new Date(Date.UTC(2026, 5, 30)), -ago)),
  steps: fc.array(fc.integer({ min: 1, max: 5 }), { minLength: 14, maxLength: 14 }),
  turned: fc.boolean(),
})

function days(first: Date, steps: readonly number[]): readonly Date[] {
  const list = [first]
  for (const step of steps) list.push(addDays(list[list.length - 1], step))
  return list
}

function read(text: string, answers: LogAnswers): readonly string[] {
  const { readings } = logbookOf([text], answers)
  return Array.from({ length: readings.n }, (_, i) => `${momentText(readings, i)} ${readings.logged[i]}`)
}

describe('dates without a year', () => {
  it('are asked about, with at most three years of which the true one is one; answered, each row has its day', () => {
    fc.assert(
      fc.property(DIARY, ({ form, first, steps, turned }) => {
        const dated = days(first, steps)
        const list = turned ? [...dated].reverse() : dated
        const rows = list.map((day, i) => `${FORMS[form](day)};07:${pad(i)};${100 + i}`)
        const text = `Date;Time;Glucose (mg/dL)\n${rows.join('\n')}\n`
        const [refusal] = refusalsOf(text)
        expect([refusal.code, refusal.line]).toEqual(['date-order-unknown', 2])
        expect(refusal.question?.choices[0].answer).toMatch(/^year=/)
        expect(refusalTold(refusal)).toMatch(/no year.*--columns year=20\d\d/)
        const answers = refusal.question?.choices.map(({ answer }) => answer) ?? []
        expect(answers.length).toBeLessThanOrEqual(3)
        const year = `year=${list[0].getUTCFullYear()}`
        expect(answers).toContain(year)
        const shown = choicesTold(refusal).find(({ answer }) => answer === year)?.example ?? ''
        expect(shown.split(' · ')).toHaveLength(2)
        const dates = form === '3/14' || form === '03-14' ? 'mdy' : 'dmy'
        expect(read(text, { columns: year, dates })).toEqual(
          list
            .map((day, i) => `${isoDay(day)}T07:${pad(i)} ${100 + i}`)
            .sort(),
        )
      }),
      { numRuns: 40 },
    )
  }) // prettier-ignore

  it.each([
    ['without a header', '14-Mar,07:10,112\n14-Mar,19:10,142\n15-Mar,07:20,132\n', '2026-03-14T07:10 112'],
    ['as headings of their rows', 'mmol/L\n14.3.\n07:10;6,4\n12:00;7,0\n15.3.\n07:20;5,5\n', '2026-03-14T07:10 6.4'],
    ['side by side', 'Glucose mg/dL,14.3.,15.3.,16.3.\n07:00,112,120,130\n12:00,142,130,99\n', '2026-03-14T07:00 112'],
    ['with the time behind', 'When,mg/dL\n14 March 07:10,112\n15 March 07:20,132\n', '2026-03-14T07:10 112'],
    ['beside a day of upload', 'Date,Time,mg/dL,Uploaded\n14.03,07:10,112,2026-04-01\n15.03,07:20,132,2026-04-01\n', '2026-03-14T07:10 112'],
  ])('%s are asked about and completed alike', (_, text, first) => {
    expect(refusalsOf(text)[0].question?.choices.map(({ answer }) => answer)).toContain('year=2026')
    expect(read(text, { columns: 'year=2026' })[0]).toBe(first)
  }) // prettier-ignore

  it('of a list in no order keep one year: a step back is none into another', () => {
    const text = 'Date,mg/dL\n14 March,112\n2 January,120\n20 May,130\n8 February,99\n'
    expect(read(text, { columns: 'year=2025' }).map((row) => row.slice(0, 4))).toEqual(Array(4).fill('2025'))
  })

  it('offer the year of the title first, and none that lies in the future', () => {
    const text = 'Diary 2025\nDate,mg/dL\n14 November,112\n15 November,120\n'
    expect(refusalsOf(text)[0].question?.choices.map(({ answer }) => answer)).toEqual(['year=2025', 'year=2024', 'year=2023'])
    expect(NOW.getUTCFullYear()).toBe(2026)
  }) // prettier-ignore

  it('are told in what was read, as answered', () => {
    const { sources } = logbookOf(['Date,mg/dL\n14 March,112\n15 March,120\n'], { columns: 'year=2025' })
    expect(notesOf(sources[0]).join(' ')).toContain('the first was said to be in 2025')
  })

  it('are no fractions, numbers of days or clock times', () => {
    expect(refusalsOf('Day,Glucose mg/dL,Carbs\n1,112,1/2\n2,140,3/4\n3,99,1/4\n')[0].question?.choices.some(({ answer }) => answer.startsWith('year'))).not.toBe(true)
    expect(read('Date,Time,mmol/L\n2026-03-14,7.05,6.4\n2026-03-15,7.10,5.4\n', {})).toEqual(['2026-03-14T07:05 6.4', '2026-03-15T07:10 5.4'])
  }) // prettier-ignore
})

describe('a year of two digits behind an apostrophe', () => {
  it.each(["14 March '26", '14 March ’26', "14/3/'26", "14.3.'26", '"Mar 14, \'26"', "14-Mar-'26"])('is read: %s', (date) => {
    expect(read(`Date,Time,mg/dL\n${date},07:10,112\n`, { dates: 'dmy' })).toEqual(['2026-03-14T07:10 112'])
  }) // prettier-ignore
})
