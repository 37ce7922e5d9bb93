import { expect, it } from 'vitest'
import { openVisit } from '../../../src-core/analysis/openVisit'
import { EMPTY_VISIT, type TypedReading } from '../../../src-core/visit/visit'
import { requestOf } from '../../../src-core/visit/visitRequest'
import { BYTE_TOOLS } from '../../../src-main/byteTools'
import { visitLog } from '../../helpers/visits'

const LOG = visitLog(
  'meter.csv',
  ['Date,Time,Glucose (mg/dL)', ...days((day) => `2026-03-${day},07:00,120`), ''].join('\n'),
)

function days<T>(of: (day: string) => T): readonly T[] {
  return Array.from({ length: 25 }, (_, i) => of(String(i + 1).padStart(2, '0')))
}

it('is of no meter: neither its agreement nor its clock is told, but its lows count', () => {
  const typed = days((day): TypedReading => ({ at: `2026-03-${day}T07:06`, value: 121, unit: 'mg/dL' }))
  const low: TypedReading = { at: '2026-03-20T12:00', value: 55, unit: 'mg/dL' }
  const { sources, options } = requestOf({ ...EMPTY_VISIT, logs: [LOG], typed: [...typed, low] }, BYTE_TOOLS)
  const outcome = openVisit(sources, options, { nowMs: Date.UTC(2026, 5, 30), zone: 'UTC' })
  if (outcome.kind !== 'analysed') throw new Error(outcome.kind)
  const { readings, technique, periods } = outcome.analysis
  expect(readings.meters).toContain('typed by hand')
  expect(technique.meterPairs).toEqual([])
  expect(technique.clockOffsets).toEqual([])
  expect(periods[0].lows.readingsBelow70).toBe(1)
})
