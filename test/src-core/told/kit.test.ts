import { expect, it } from 'vitest'
import type { Kit } from '../../../src-core/kit/kit'
import { clockTold, disturbancesTold, kitFirst, yearsOfKit } from '../../../src-core/told/kit'
import { dayOfDate } from '../../../src-core/units/wallClock'

const LATEST = dayOfDate('2026-05-30')
const substances = (told: ReturnType<typeof disturbancesTold>) =>
  told.map(({ interference: { substance } }) => substance)

it('tells what is dangerous first, three at most, and what merely reads off only behind', () => {
  const medicines = ['dopamine', 'vitamin C', 'ascorbic acid', 'icodextrin', 'maltose drip'].map((name) => ({
    name,
  }))
  expect(substances(kitFirst({ kit: { medicines }, laboratory: [] }, LATEST).disturbances)).toEqual([
    'icodextrin',
    'other-sugars',
    'vitamin-c',
  ])
  expect(substances(disturbancesTold({ medicines }, LATEST))).toHaveLength(5)
})

it('tells of a dangerous medicine that ended before the latest reading the days whose lows it may have hidden', () => {
  const until = (name: string, to: string) =>
    disturbancesTold({ medicines: [{ name, to }] }, LATEST)[0].hidLowsUntil
  expect(until('icodextrin', '2026-05-29')).toBe(LATEST - 1)
  expect(until('icodextrin', '2026-05-30')).toBeNull()
  expect(until('vitamin C', '2026-05-29')).toBeNull()
})

it('tells which way a clock is off, and by how much', () => {
  const told = (shown: string) => clockTold({ shown, true: '2026-05-30T08:00' })
  expect(told('2026-05-30T08:04')).toMatchObject({ is: 'fast', minutes: 4 })
  expect(told('2026-05-30T07:50')).toMatchObject({ is: 'slow', minutes: 10 })
  expect(told('2026-05-30T08:00')).toMatchObject({ is: 'right', minutes: 0 })
})

it('writes the years of the kit where one of its dates is of another year than the latest reading', () => {
  const years = (kit: Kit) => yearsOfKit(kit, LATEST, 'without-year')
  expect(years({})).toBe('without-year')
  expect(years({ laboratoryA1c: [{ date: '2026-01-02', percent: 7 }] })).toBe('without-year')
  expect(years({ laboratoryA1c: [{ date: '2025-12-30', percent: 7 }] })).toBe('with-year')
  expect(years({ strips: [{ expires: '2027-01-31' }] })).toBe('with-year')
})
