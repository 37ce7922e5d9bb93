import { expect, it } from 'vitest'
import {
  episodeText,
  lowsHeadline,
  lowsQuestion,
  usualHoursText,
} from '../../../src-core/wording/english/firstPage'
import { plainText } from '../../../src-core/wording/phrases'

const SHORT = { lows: [1], showsAllLows: true }

it('says of a low after which no reading of 70 or more came within four hours that its end was not seen, not that no test followed', () => {
  expect(
    episodeText(
      { minutes: null, minutesToNext: null, seenToEnd: false, lowAgainAfter: null, ...SHORT },
      '20 May, 22:51',
    ),
  ).toBe('20 May, 22:51; end not seen in 4 h')
  expect(
    episodeText(
      { minutes: 45, minutesToNext: null, seenToEnd: true, lowAgainAfter: null, ...SHORT },
      '14 April, 16:21',
    ),
  ).toBe('45 min, 14 April, 16:21')
  expect(
    episodeText(
      { minutes: null, minutesToNext: null, seenToEnd: null, lowAgainAfter: null, ...SHORT },
      '14 April',
    ),
  ).toBe('14 April')
})

it('never tells the time to a late next test as how long a low went on', () => {
  const late = { minutes: 165, minutesToNext: 165, seenToEnd: true, lowAgainAfter: null, ...SHORT }
  expect(episodeText(late, '10 May, 15:10')).toBe('10 May, 15:10; next test 2 h 45 min later')
  const run = { minutes: 208, minutesToNext: 193, seenToEnd: true, lowAgainAfter: null, ...SHORT }
  expect(episodeText(run, '12 January, 03:42')).toBe('12 January, 03:42; next test 3 h 13 min later')
})

it('says how many lows a run without an end has, of which few are shown', () => {
  const lows = Array.from({ length: 200 }, (_, i) => i)
  const run = {
    minutes: 995,
    minutesToNext: null,
    seenToEnd: true,
    lowAgainAfter: null,
    lows,
    showsAllLows: false,
  }
  expect(episodeText(run, '8 March, 00:00')).toBe('17 h, 8 March, 00:00; 200 lows in a row')
})

it('gives no rate of lows that would read as none', () => {
  const counted = { below70: 4, below54: 1, marked: 0, bracketed: 0, confirmed: 0, days: 4 }
  const headline = (perWeek: number) => plainText(lowsHeadline(counted, 4, perWeek, 'mg/dL'))
  expect(headline(0.008)).toBe('4 episodes, 4 readings below 70, 1 below 54.')
  expect(headline(0.06)).toContain('; 0.1 a week')
})

it('calls most what is most only together', () => {
  const afternoon = { fromHour: 15, toHour: 18, n: 3, of: 8 }
  expect(usualHoursText([afternoon], false)).toBe('Many begin between 15:00 and 18:00 (3 of 8).')
  expect(usualHoursText([afternoon, { ...afternoon, fromHour: 21, toHour: 24 }], true)).toBe(
    'Most begin between 15:00 and 18:00 or 21:00 and 24:00 (3 and 3 of 8).',
  )
})

it('asks of one low as of one', () => {
  expect([lowsQuestion(1, true), lowsQuestion(2, true), lowsQuestion(1, false)]).toEqual([
    ...['what came before it?', 'what came before them?', 'what came before the low?'],
  ])
})
