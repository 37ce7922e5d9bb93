import { expect, it } from 'vitest'
import { comparedMeters } from '../../../src-core/technique/comparedMeters'
import { chronologicalOrder } from '../../../src-core/technique/chronology'
import { meterPairs } from '../../../src-core/technique/meterPairs'
import { at, readingsOf, row } from '../analysis/readingsOf'

const START = at('2026-03-01 07:00')

it('of very many meters those with the most readings are held against one another', () => {
  const names = Array.from({ length: 100 }, (_, i) => `meter ${i}`)
  const readings = readingsOf([
    ...names.map((meter) => row(START, 100, { meter })),
    row(START + 86_400, 100, { meter: 'meter 99' }),
  ])
  const compared = comparedMeters(readings)
  expect(compared.filter((one) => one === 1)).toHaveLength(40)
  expect([0, 38, 39, 98, 99].map((meter) => compared[meter])).toEqual([1, 1, 0, 0, 1])
  // Forty meters make 40 x 39 / 2 pairs of meters.
  expect(meterPairs(readings, chronologicalOrder(readings))).toHaveLength(780)
})

it('a few meters are all compared', () => {
  expect([...comparedMeters(readingsOf([row(START, 100), row(START, 90, { meter: 'B' })]))]).toEqual([1, 1])
})
