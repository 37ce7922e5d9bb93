import type { TypedReading } from '../../../src-core/model/decision'
import { expect, it } from 'vitest'
import { readingsCsv } from '../../../src-core/exchange/readingsCsv'
import { isTyped } from '../../../src-core/log/typedByHand'
import type { Analysis } from '../../../src-core/analysis/analysis'
import { openVisit } from '../../../src-core/analysis/openVisit'
import { EMPTY_VISIT, type Visit } from '../../../src-core/visit/visit'
import { requestOf } from '../../../src-core/visit/visitRequest'
import { BYTE_TOOLS } from '../../../src-main/files/byteTools'
import { visitLog } from '../../helpers/visits'
import { ENGLISH } from '../../../src-core/wording/english'

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
  const { readings, technique, periods } = analysed({ ...EMPTY_VISIT, logs: [LOG], typed: [...typed, low] })
  expect(readings.meters).toContain('typed by hand')
  expect(technique.meterPairs).toEqual([])
  expect(technique.clockOffsets).toEqual([])
  expect(periods[0].lows.readingsBelow70).toBe(1)
})

it('is known by what it is, not by a name: a log whose meter is called so is a meter’s', () => {
  const named = visitLog(
    'named.csv',
    ['Time,Glucose (mg/dL),Meter', ...days((day) => `2026-03-${day} 07:06,121,typed by hand`), ''].join('\n'),
  )
  const { readings, technique } = analysed({ ...EMPTY_VISIT, logs: [LOG, named] })
  expect(Array.from({ length: readings.n }, (_, i) => isTyped(readings, i))).not.toContain(true)
  expect(technique.meterPairs).toMatchObject([{ pairs: { length: 25 } }])
})

it('stays so in the table of readings that the program writes and reads again', () => {
  const typed: TypedReading = { at: '2026-03-20T12:00', value: 55, unit: 'mg/dL', note: '=wet' }
  const written = [...readingsCsv(analysed({ ...EMPTY_VISIT, logs: [LOG], typed: [typed] }))].join('')
  const { readings } = analysed({ ...EMPTY_VISIT, logs: [visitLog('readings.csv', written)] })
  const found = Array.from({ length: readings.n }, (_, i) => i).filter((i) => isTyped(readings, i))
  expect(found.map((i) => [readings.mgDl[i], readings.note(i)])).toEqual([[55, '=wet']])
})

function analysed(visit: Visit): Analysis {
  const { sources, options } = requestOf(ENGLISH, visit, BYTE_TOOLS)
  const outcome = openVisit(sources, options, { nowMs: Date.UTC(2026, 5, 30), zone: 'UTC' })
  if (outcome.kind !== 'analysed') throw new Error(outcome.kind)
  return outcome.analysis
}
