import { expect, it } from 'vitest'
import { newMeters } from '../../../src-core/technique/newMeters'
import { newMeterSentence } from '../../../src-core/wording/english/besideNumbers'
import { analysisOf, type FixtureReading } from '../../helpers/analysisFixture'

/** Forty days of one meter; from `firstDay` on, every third day beside another that reads so many percent higher. */
function log(firstDay: number, percent: number): readonly FixtureReading[] {
  return Array.from({ length: 40 }, (_, i) => {
    const date = new Date(Date.UTC(2026, 3, 1) + i * 864e5).toISOString().slice(0, 10)
    const value = 140 + 2 * (i % 5)
    const beside = { at: `${date} 08:02`, value: value * (1 + percent / 100) + (i % 2), meter: 'bag meter' }
    return [
      { at: `${date} 08:00`, value, meter: 'kitchen meter' },
      ...(i >= firstDay && i % 3 === 0 ? [beside] : []),
    ]
  }).flat()
}
function found(firstDay: number, percent: number) {
  const { readings, technique, periods } = analysisOf(log(firstDay, percent))
  return newMeters(readings, technique.meterPairs, periods[0]).map((meter) =>
    newMeterSentence(
      { ...meter, meter: readings.meters[meter.meter], other: readings.meters[meter.other] },
      'without-year',
    ),
  )
}

it('a meter that is new in mid-period and reads otherwise is told with its pairs', () => {
  // 100 x 0.1 / 1.05 = 9.5 % of the mean of the two, and of 150 half a unit, 0.3 %, more: the same at every pair but for that.
  expect(found(15, 10)).toEqual([
    expect.stringMatching(
      /^Bag meter has been in use since 16 April and reads 10 % higher than kitchen meter \(9 pairs; could be \+10 % to \+10 %\): a change from then on may come from the meter\.$/,
    ),
  ])
  expect(found(15, -10)[0]).toContain('reads 10 % lower than kitchen meter')
})

it('one that was there from the start, or reads alike, or has few pairs is not', () => {
  expect(found(0, 10)).toEqual([])
  expect(found(15, -0.3)).toEqual([])
  expect(found(30, 10)).toEqual([])
})
