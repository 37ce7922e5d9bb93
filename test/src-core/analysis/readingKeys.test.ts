import type { Decision, ReadingKey } from '../../../src-core/model/decision'
import { describe, expect, it } from 'vitest'
import { openVisit } from '../../../src-core/analysis/openVisit'
import { keyOf, placeDecisions } from '../../../src-core/analysis/readingKeys'
import { EMPTY_VISIT } from '../../../src-core/visit/visit'
import { requestOf, sinceLastVisit } from '../../../src-core/visit/visitRequest'
import { BYTE_TOOLS } from '../../../src-main/files/byteTools'
import { isoDay } from '../../../src-core/units/wallClock'
import { CONTEXT, logbookOf } from '../../helpers/logs'
import { visitLog } from '../../helpers/visits'
import { ENGLISH } from '../../../src-core/wording/english'

const decisionOn = (reading: ReadingKey): Decision => ({
  reading,
  choice: 'keep',
  reason: '',
  decidedAt: '2026-03-20T10:00',
})

const LOG = 'Time,Glucose,Unit,Meter\n2026-03-02 07:10,104,mg/dL,left\n2026-03-02 07:10,104,mg/dL,right\n2026-03-02 12:00:07,5.8,mmol/L,left\n2026-03-03 09:00,>500,mg/dL,left\n2026-03-04,99,mg/dL,left\n' // prettier-ignore

describe('the key of a reading', () => {
  it('is the log’s own time, value and unit', () => {
    const { readings } = logbookOf([LOG])
    const keys = Array.from({ length: readings.n }, (_, i) => keyOf(readings, i, ['hash']))
    expect(keys.map(({ at, value, unit, meter }) => [at, value, unit, meter].join(' '))).toEqual([
      '2026-03-02T07:10 104 mg/dL left',
      '2026-03-02T07:10 104 mg/dL right',
      '2026-03-02T12:00:07 5.8 mmol/L left',
      '2026-03-03T09:00 >500 mg/dL left',
      '2026-03-04 99 mg/dL left',
    ])
    const placed = placeDecisions(keys.map(decisionOn), readings, ['hash'])
    expect([...placed.byIndex].map(([index, { reading }]) => [index, reading])).toEqual([...keys.entries()])
  })

  it('finds its reading though another decision could take it too, and in a log of another hash', () => {
    const { readings } = logbookOf([LOG])
    const renamed = decisionOn({ ...keyOf(readings, 0, ['x']), meter: 'an older name' })
    const [left, right] = [0, 1].map((index) => decisionOn(keyOf(readings, index, ['x'])))
    const { byIndex, gone } = placeDecisions([renamed, right, left], readings, ['longer'])
    expect([byIndex.get(0), byIndex.get(1), gone]).toEqual([left, right, [renamed]])
    expect(placeDecisions([renamed, right], readings, ['longer']).byIndex.get(0)).toBe(renamed)
  })

  it('is the same after a clock was shifted', () => {
    const of = (shifts: Parameters<typeof openVisit>[1]['shifts']) => {
      const { sources } = requestOf(ENGLISH, { ...EMPTY_VISIT, logs: [visitLog('a.csv', LOG)] }, BYTE_TOOLS)
      const outcome = openVisit(sources, { shifts: shifts ?? [] }, CONTEXT)
      if (outcome.kind !== 'analysed') throw new Error(outcome.kind)
      return keyOf(outcome.analysis.readings, 0, ['x'])
    }
    expect(of([{ from: 20_514, to: 20_516, minutes: 90 }])).toEqual(of([]))
  })
})

describe('the days since the last visit', () => {
  const old = 'Time,Glucose (mg/dL)\n2026-03-02 07:10,104\n2026-03-09 07:10,120\n'
  const since = (fresh: string) => {
    const { readings } = logbookOf([old, fresh])
    const periods = sinceLastVisit(readings, (source) => source === 0)
    return (
      periods && [periods.period.from, periods.period.to, periods.versus.from, periods.versus.to].map(isoDay)
    )
  }

  it('begin the day after the old logs ended; the days before are all of the old logs', () => {
    expect(since(`${old}2026-03-09 22:00,99\n2026-04-02 07:00,130\n`)).toEqual([
      '2026-03-10',
      '2026-04-02',
      '2026-03-02',
      '2026-03-09',
    ])
  })

  it('are none where the new logs hold nothing later', () => {
    expect(since(old.replace('104', '110'))).toBeNull()
  })
})
