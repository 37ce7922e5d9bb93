import { expect, it } from 'vitest'
import { onlyHours, onlyPartOfDay } from '../../../src-core/told/coverage'
import { periodA1c } from '../../../src-core/told/estimatedA1c'
import { analysisOf } from '../../helpers/analysisFixture'

const hoursOf = (times: readonly string[], within = onlyHours) =>
  within(
    analysisOf(
      times.map((time, i) => ({
        at: `2026-03-${String(i + 1).padStart(2, '0')} ${time}`.trim(),
        value: 120,
      })),
    ).periods[0],
  )
const each = (n: number, ...times: readonly string[]) =>
  Array.from({ length: n }, (_, i) => times[i % times.length])

it('all tests within three hours of the day tell of these hours alone', () => {
  expect(hoursOf(each(9, '07:10'))).toEqual([7, 8])
  expect(hoursOf(each(9, '06:05', '07:10', '08:55'))).toEqual([6, 9])
  expect(hoursOf(each(9, '06:05', '09:00'))).toBeNull()
  expect(hoursOf([...each(20, '07:10'), '15:00'])).toBeNull()
})

it('hours about midnight belong together', () => {
  expect(hoursOf(each(9, '23:10', '00:40'))).toEqual([23, 1])
  expect(hoursOf(each(9, '22:10', '23:40'))).toEqual([22, 24])
})

it('few tests show no habit, and days without times no hours', () => {
  expect(hoursOf(each(7, '07:10'))).toBeNull()
  expect(hoursOf(each(8, '07:10'))).toEqual([7, 8])
  expect(hoursOf([...each(12, '07:10'), ''])).toBeNull()
})

it('tests of nights alone leave the day unknown, which holds back no figure', () => {
  const nights = each(9, '22:10', '03:00', '05:40')
  expect(hoursOf(nights)).toBeNull()
  expect(hoursOf(nights, onlyPartOfDay)).toEqual([22, 6])
  expect(hoursOf(each(9, '07:10', '12:00', '15:10'), onlyPartOfDay)).toBeNull()
})

it('no A1C is estimated from tests of a third of the day', () => {
  const night = (days: number) =>
    Array.from({ length: 3 * days }, (_, i) => ({
      at: new Date(Date.UTC(2026, 2, 2 + Math.floor(i / 3), [1, 3, 5][i % 3]))
        .toISOString()
        .slice(0, 16)
        .replace('T', ' '),
      value: 100 + (i % 40),
    }))
  const alone = analysisOf(night(30))
  expect(periodA1c(alone.periods[0])).toMatchObject({
    estimate: null,
    heldBack: { why: 'few-hours', hours: [1, 6] },
  })
  const noon = night(30).map(({ at, value }) => ({ at: `${at.slice(0, 10)} 13:00`, value: value + 1 }))
  expect(periodA1c(analysisOf([...night(30), ...noon]).periods[0]).heldBack).toBeNull()
})
