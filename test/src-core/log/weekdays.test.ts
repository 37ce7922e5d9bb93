import { describe, expect, it } from 'vitest'
import { momentText } from '../../../src-core/log/readings'
import { logbookOf, refusalsOf } from '../../helpers/logs'

// A weekday beside a date tells the order of its day and month. 3 February 2026 was a Tuesday and 2 March 2026 a Monday;
// 5 June 2026 was a Friday and 6 May 2026 a Wednesday (calendar).

function days(text: string): readonly string[] {
  const { readings } = logbookOf([text])
  return Array.from({ length: readings.n }, (_, i) => momentText(readings, i).slice(0, 10))
}

const codes = (text: string): readonly string[] => refusalsOf(text).map(({ code }) => code)

describe('a weekday beside a date', () => {
  it.each([
    ['Tue 03.02.2026', '2026-02-03'],
    ['Mon 03.02.2026', '2026-03-02'],
    ['03/02/2026 (Tuesday)', '2026-02-03'],
    ['Di., 03.02.2026', '2026-02-03'],
    ['lundi 03/02/2026', '2026-03-02'],
    ['mar. 03/02/2026', '2026-02-03'],
    ['terça-feira 03/02/2026', '2026-02-03'],
    ['вт 03.02.2026', '2026-02-03'],
  ])('tells its order: %s', (text, day) => {
    expect(days(`Date;Time;Glucose mg/dL\n${text};07:10;104\n`)).toEqual([day])
  }) // prettier-ignore

  it('tells it from a column of its own, and is used then', () => {
    const text = 'Day,Date,Time,Glucose mg/dL\nWed,06/05/2026,07:10,104\nMon,03/02/2026,07:20,98\n'
    expect(codes(text)).toEqual(['date-order-unknown'])
    const fits = 'Day,Date,Time,Glucose mg/dL\nFri,06/05/2026,07:10,104\nMon,03/02/2026,07:20,98\n'
    expect([...days(fits)].sort()).toEqual(['2026-03-02', '2026-06-05'])
    expect(logbookOf([fits]).sources[0].notUsed).toEqual([])
  })

  it('tells nothing where two languages mean different days by it and each fits another order', () => {
    expect(codes('Date;Time;Glucose mg/dL\nma 03-02-2026;07:10;104\n')).toEqual(['date-order-unknown'])
  })

  it('tells nothing where it is neither day', () => {
    expect(codes('Date;Time;Glucose mg/dL\nFri 03.02.2026;07:10;104\n')).toEqual(['date-order-unknown'])
  })

  it('gives way to what a person chose', () => {
    const { readings } = logbookOf(['Date;Time;Glucose mg/dL\nTue 03.02.2026;07:10;104\n'], {
      instead: { dates: 'mdy' },
    })
    expect(momentText(readings, 0)).toBe('2026-03-02T07:10')
  })
})
