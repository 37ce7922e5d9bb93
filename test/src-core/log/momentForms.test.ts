import { describe, expect, it } from 'vitest'
import { momentText } from '../../../src-core/log/readings'
import type { LogAnswers } from '../../../src-core/log/logSource'
import { logbookOf, notesOf, refusalsOf } from '../../helpers/logs'

// Forms of dates and times that spreadsheets, databases and people of other countries write. Every moment is the test's own.

function read(text: string, answers: LogAnswers = {}): readonly string[] {
  const { readings } = logbookOf([text], answers)
  return Array.from({ length: readings.n }, (_, i) => `${momentText(readings, i)} ${readings.logged[i]}`)
}

const notesIn = (text: string): string => notesOf(logbookOf([text]).sources[0]).join(' ')

const MORNING = '2026-05-11T07:06'

describe('a time of day', () => {
  it.each([
    '7 h 06 min',
    '7 óra 06 perc',
    '7 óra 6 perc',
    '7 uur 06',
    '7 Uhr 06',
    '7 godz. 06 min',
    '7 ч 06 мин',
    '7시 06분',
    '七時六分',
    '0706h',
    '0706 hrs',
    '0 days 07:06:00',
    'PT7H6M',
    '30.12.1899 07:06',
    '1899-12-30T07:06:00',
    '12/30/1899 07:06 AM',
    '1900-01-01 07:06',
    '="07:06"',
  ])('may be written %s', (time) => {
    const rows = [1, 2, 3].map((day) => `2026-05-1${String(day)};${time};10${String(day)}`)
    const at = [11, 12, 13].map((day, i) => `2026-05-${String(day)}T07:06 10${String(i + 1)}`)
    expect(
      read(`Date;Time;Glucose (mg/dL)\n${rows.join('\n')}\n`).map((row) => row.replace(':00 ', ' ')),
    ).toEqual(at)
  })

  it('may have a dash, unless no minute tells it from a stretch of hours', () => {
    const rows = (second: string): string =>
      `Дата;Время;Сахар (мг/дл)\n11.05.2026;07-06;101\n13.05.2026;18-${second};95\n`
    expect(read(rows('36'))).toEqual([`${MORNING} 101`, '2026-05-13T18:36 95'])
    expect(refusalsOf(rows('20'))).toHaveLength(1)
  })

  it('is read where the date beside it has a midnight that is no time', () => {
    const text =
      'Datum;Zeit;Blutzucker (mg/dl)\n11.05.2026 00:00:00;30.12.1899 07:06:00;101\n13.05.2026 00:00:00;30.12.1899 18:30:00;95\n'
    expect(read(text)).toEqual(['2026-05-11T07:06:00 101', '2026-05-13T18:30:00 95'])
  })

  it('is no time where a stretch of hours stands in another unit', () => {
    expect(
      read('Date;Time;Glucose (mg/dL);Walk\n2026-05-11;07:06;101;1 h 30 min\n2026-05-12;07:10;99;\n'),
    ).toEqual([`${MORNING} 101`, '2026-05-12T07:10 99'])
  })

  it.each([
    ['noon', 'midnight'],
    ['12 noon', '12 midnight'],
    ['midi', 'minuit'],
    ['mediodía', 'medianoche'],
    ['полдень', 'полночь'],
    ['正午', '午夜'],
  ])('may be the words %s and %s among clock times', (noon, midnight) => {
    const text = `Date;Time;Glucose (mg/dL)\n2026-05-11;${midnight};104\n2026-05-11;07:06;101\n2026-05-11;${noon};95\n2026-05-12;07:10;99\n2026-05-13;07:10;98\n`
    expect(read(text).slice(0, 3)).toEqual(['2026-05-11T00:00 104', `${MORNING} 101`, '2026-05-11T12:00 95'])
    expect(notesIn(text)).not.toMatch(/part of the day/)
  })

  it('is none where a word names a part of the day, and the rows are counted', () => {
    const text =
      'Datum;Uhrzeit;BZ (mg/dl)\n2026-05-11;07:06;101\n2026-05-11;mittags;95\n2026-05-12;07:10;99\n2026-05-12;abends;61\n2026-05-13;07:10;98\n'
    expect(read(text)).toEqual([
      '2026-05-11 95',
      `${MORNING} 101`,
      '2026-05-12 61',
      '2026-05-12T07:10 99',
      '2026-05-13T07:10 98',
    ])
    expect(notesIn(text)).toMatch(/2 rows name a part of the day in words but no clock time/)
  })
})

describe('a date', () => {
  it.each([
    ['2026. V. 11.', '2026. XII. 3.'],
    ['二〇二六年五月十一日', '二〇二六年十二月三日'],
    ['2026년 5월 11일', '2026년 12월 3일'],
    ['="11.05.2026"', '="03.12.2026"'],
  ])('may be written %s', (first, last) => {
    const nowMs = Date.UTC(2027, 0, 1)
    const { readings } = logbookOf(
      [`Date;Time;Glucose (mg/dL)\n${first};07:06;101\n${last};18:30;95\n`],
      { dates: 'dmy' },
      { nowMs, zone: 'UTC' },
    )
    expect([0, 1].map((i) => momentText(readings, i))).toEqual([MORNING, '2026-12-03T18:30'])
  })

  it('with a slash and a dash has its day first where nothing else tells', () => {
    expect(read('Dato;Tid;Blodsukker (mg/dL)\n11/05-2026;07:06;101\n12/05-2026;07:10;95\n')).toEqual([
      `${MORNING} 101`,
      '2026-05-12T07:10 95',
    ])
    // A month above twelve is none: then the month stands first.
    expect(read('Date;Time;Glucose (mg/dL)\n05/11-2026;07:06;101\n05/13-2026;07:10;95\n')).toEqual([
      `${MORNING} 101`,
      '2026-05-13T07:10 95',
    ])
  })

  it('with an offset and the name of a zone behind it is the clock on the wall, wherever it is read', () => {
    const row = 'Mon May 11 2026 07:06:00 GMT-0430 (Somewhere Standard Time in the Far South)'
    const { readings } = logbookOf([`when\tglucose (mg/dL)\n${row}\t101\n`])
    expect([momentText(readings, 0), readings.offsetMinutes[0]]).toEqual(['2026-05-11T07:06:00', -270])
  })

  it('in compact digits below a header that spells them', () => {
    expect(read('YYYYMMDD,HHMM,BG (mg/dL)\n20260511,706,101\n20260511,1830,95\n')).toEqual([
      `${MORNING} 101`,
      '2026-05-11T18:30 95',
    ])
  })
})

describe('a moment in parts', () => {
  it.each([
    ['Day;Month;Year'],
    ['Tag;Monat;Jahr'],
    ['jour;mois;année'],
    ['día;mes;año'],
    ['dzień;miesiąc;rok'],
    ['nap;hónap;év'],
    ['gün;ay;yıl'],
    ['ημέρα;μήνας;έτος'],
    ['день;месяц;год'],
    ['日;月;年'],
    ['dd;mm;yyyy'],
  ])('is put together below %s', (header) => {
    const text = `${header};Time;Glucose (mg/dL)\n11;5;2026;07:06;101\n1;12;25;18:30;95\n12;05;2026;07:10;99\n`
    expect(read(text)).toEqual(['2025-12-01T18:30 95', `${MORNING} 101`, '2026-05-12T07:10 99'])
  })

  it('of which no such day exists is set aside, with its low told', () => {
    const text =
      'Year;Month;Day;Time;Glucose (mg/dL)\n2026;5;11;07:06;101\n2026;2;30;07:06;51\n2026;5;12;07:10;99\n'
    const { sources } = logbookOf([text])
    expect(sources[0].setAside).toMatchObject([{ line: 3, maybeLow: true }])
  })

  it('is left alone where another column gives the day', () => {
    const text =
      'Year;Month;Day;Date;Time;Glucose (mg/dL)\n2026;1;1;2026-05-11;07:06;101\n2026;1;1;2026-05-12;07:10;99\n'
    expect(read(text)).toEqual([`${MORNING} 101`, '2026-05-12T07:10 99'])
  })

  it.each([
    'minute_of_day',
    'Minutes since midnight',
    'Minuten seit Mitternacht',
    'minutos desde medianoche',
  ])('in %s is a clock time', (header) => {
    expect(
      read(`date,${header},glucose (mg/dL)\n2026-05-11,426,101\n2026-05-11,1110,95\n2026-05-12,5,99\n`),
    ).toEqual([`${MORNING} 101`, '2026-05-11T18:30 95', '2026-05-12T00:05 99'])
  })

  it('minutes of something else stay what they are', () => {
    const text =
      'date;time;glucose (mg/dL);active minutes per day\n2026-05-11;07:06;101;426\n2026-05-12;07:10;99;300\n'
    expect(read(text)).toEqual([`${MORNING} 101`, '2026-05-12T07:10 99'])
  })

  it.each([
    ['utc_offset_minutes', '120', '-270'],
    ['UTC offset', '2', '-4.5'],
    ['utcOffset', '+02:00', '-04:30'],
    ['gmt offset (seconds)', '7200', '-16200'],
  ])('of UTC and %s is the clock on the wall with its offset', (header, east, west) => {
    const text = `utc_time,${header},glucose (mg/dL)\n2026-05-11T05:06:00Z,${east},101\n2026-05-12T02:00:00Z,${west},55\n`
    const { readings } = logbookOf([text])
    expect([0, 1].map((i) => [momentText(readings, i), readings.offsetMinutes[i]])).toEqual([
      ['2026-05-11T07:06:00', 120],
      ['2026-05-11T21:30:00', -270],
    ])
  })
})

describe('the year of dates without one', () => {
  const rows = 'Datum;Zeit;Wert\n11.05.;07:06;101\n13.05.;07:10;99\n'
  it.each(['Blutzucker Mai 2026', 'Jahr: 2026', 'Jahr;2026', 'Year: 2026', 'Messwerte 2026 (mg/dL)', '2026'])(
    'is that of the title %s, and that is told',
    (title) => {
      const text = `${title}\nWerte in mg/dl\n${rows}`
      expect(read(text)).toEqual([`${MORNING} 101`, '2026-05-13T07:10 99'])
      expect(notesIn(text)).toMatch(/in 2026, the year written above them/)
      // What a person says goes before it.
      expect(read(text, { columns: 'year=2025' })[0]).toBe('2025-05-11T07:06 101')
    },
  )

  it.each([
    'Diabetes seit 2015',
    'Blutzucker seit 2015',
    'geboren 2001',
    'Blutzucker 2025\nBlutzucker 2026',
    'Blutzucker Juni 2025',
    'Blutzucker 2027',
    'gedruckt 2026',
  ])('is asked for below %s', (above) => {
    expect(refusalsOf(`${above}\nWerte in mg/dl\n${rows}`).map(({ reason }) => reason.key)).toEqual(['year'])
  })
})
