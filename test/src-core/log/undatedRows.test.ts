import { describe, expect, it } from 'vitest'
import { momentText } from '../../../src-core/log/readings'
import { logbookOf } from '../../helpers/logs'

function read(text: string): { readonly moments: readonly string[]; readonly setAside: readonly string[] } {
  const { readings, sources } = logbookOf([text])
  return {
    moments: Array.from({ length: readings.n }, (_, i) => momentText(readings, i)),
    setAside: sources[0].setAside.map(({ line, reason }) => `${line} ${reason}`),
  }
}

describe('a row with neither date nor time', () => {
  it('gets no day from the row above, and is named', () => {
    expect(read('Date,mg/dL\n2026-03-14,112\n,130\n2026-03-15,132\n,54\n,119\n')).toEqual({
      moments: ['2026-03-14', '2026-03-15'],
      setAside: ['3 empty-date', '5 empty-date', '6 empty-date'],
    })
    const timed =
      'Date,Time,mg/dL\n2026-03-14,07:00,112\n,12:00,140\n,19:00,99\n,,117\n2026-03-15,07:00,101\n,13:00,130\n'
    expect(read(timed).setAside).toEqual(['5 empty-date'])
    expect(read(timed).moments).toContain('2026-03-15T13:00')
  })

  it('is told among what may have been a low', () => {
    const { sources } = logbookOf(['Date,mg/dL\n2026-03-14,112\n,130\n2026-03-15,132\n,54\n,119\n'])
    expect(sources[0].setAside.filter(({ maybeLow }) => maybeLow).map(({ line }) => line)).toEqual([5])
  })

  it('takes the day above where it names its meal, as below merged cells', () => {
    const text =
      'Date,Meal,mg/dL\n2026-03-14,Breakfast,112\n,Lunch,140\n,Dinner,99\n2026-03-15,Breakfast,101\n,Lunch,130\n,,121\n'
    expect(read(text)).toEqual({
      moments: ['2026-03-14', '2026-03-14', '2026-03-14', '2026-03-15', '2026-03-15'],
      setAside: ['7 empty-date'],
    })
  })
})

describe('a mean or a total where the date or the time should stand', () => {
  it.each(['Ø', 'ø', '∅', 'Σ', 'x̄', 'Mean', 'Summe', 'Avg.', 'MW', 'Durchschn.', 'gem.', 'moy.', 'Média', 'śr.', 'Ср.', '平均', 'SD', 'Promedio:'])(
    'is a closing line: %s',
    (name) => {
      const rows = '2026-03-14,07:10,112\n2026-03-15,07:20,132\n'
      expect(read(`Date,Time,mg/dL\n${rows}${name},,119\n`).setAside).toEqual(['4 footer'])
      expect(read(`Date,Time,mg/dL\n${rows}2026-03-15,${name},119\n`).setAside).toEqual(['4 footer'])
      expect(read(`Date,mg/dL\n2026-03-14,112\n2026-03-15,132\n${name},119\n`).setAside).toEqual(['4 footer'])
    },
  ) // prettier-ignore
})

describe('one time in every row', () => {
  const log = (time: string, days: readonly (readonly number[])[]): string =>
    `Date,Time,mg/dL\n${days.flatMap((values, i) => values.map((value) => `2026-03-${10 + i},${time},${value}\n`)).join('')}`
  const several = [[112, 180, 150], [118, 190], [121, 201], [99]]
  const one = [[112], [118], [121], [99], [104]]

  it('is none where it is midnight, or noon with several readings on most days: the days alone are kept, which is told', () => {
    for (const text of [
      log('00:00', several),
      log('00:00:00', one),
      log('12:00', several),
      log('12:00', several).replaceAll(',12:00,', ' 12:00,').replace('Date,Time', 'Date'),
    ]) {
      expect(read(text).moments.every((moment) => /^2026-03-1\d$/.test(moment))).toBe(true)
      expect(logbookOf([text]).sources[0].notes.map(({ code }) => code)).toEqual(['placeholder-time'])
    }
  })

  it('stays one where it may be a habit, where another row has its own, and where three rows are all there is', () => {
    for (const text of [
      log('12:00', one),
      log('07:00', several),
      `${log('00:00', several)}2026-03-20,07:10,101\n`,
      log('00:00', [[112, 180], [150]]),
    ])
      expect(read(text).moments.every((moment) => moment.includes('T'))).toBe(true)
  })
})
