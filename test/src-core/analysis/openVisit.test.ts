import { describe, expect, it } from 'vitest'
import { openVisit } from '../../../src-core/analysis/openVisit'
import type { ReadingProgress } from '../../../src-core/log/logSource'
import { CONTEXT, logOf } from '../../helpers/logs'

const LOG = [
  'Date,Time,Glucose (mg/dL)',
  ...Array.from({ length: 400 }, (_, i) => `2026-03-02,0${i % 10}:${10 + (i % 50)},${70 + (i % 200)}`),
].join('\n')

describe('opening logs', () => {
  it('tells how far the reading has come, in bytes, up to the last', () => {
    const told: ReadingProgress[] = []
    openVisit([logOf(LOG, 'a.csv', 1000), logOf(LOG, 'b.csv', 1000)], {}, CONTEXT, (progress) =>
      told.push(progress),
    )
    const all = 4 * LOG.length
    expect(told.at(-1)).toEqual({ bytesRead: all, bytesToRead: all })
    expect(told.length).toBeGreaterThan(20)
    for (let i = 1; i < told.length; i++) expect(told[i].bytesRead).toBeGreaterThan(told[i - 1].bytesRead)
  })

  it('reads no further once the watcher throws', () => {
    const enough = new Error('enough')
    let bytes = 0
    const open = () =>
      openVisit([logOf(LOG, 'a.csv', 1000)], {}, CONTEXT, ({ bytesRead }) => {
        bytes = bytesRead
        if (bytesRead > 2000) throw enough
      })
    expect(open).toThrow(enough)
    expect(bytes).toBe(3000)
  })

  it('refuses a period that holds a sensor’s readings alone where the logbook has finger-sticks', () => {
    const sensor = Array.from({ length: 96 }, (_, i) => {
      const at = new Date(Date.UTC(2026, 2, 2) + i * 900_000).toISOString()
      return `${at.slice(0, 10)},${at.slice(11, 16)},${100 + i}`
    })
    const logs = [
      logOf(['Date,Time,Glucose (mg/dL)', ...sensor].join('\n'), 'sensor.csv'),
      logOf('Date,Time,Glucose (mg/dL)\n2026-03-20,07:10,104\n', 'meter.csv'),
    ]
    const day = Date.UTC(2026, 2, 2) / 86_400_000
    const outcome = openVisit(logs, { period: { from: day, to: day } }, CONTEXT)
    expect(outcome.kind === 'stopped' && outcome.refusals[0].code).toBe('no-readings')
    expect(openVisit(logs, {}, CONTEXT).kind).toBe('analysed')
  })
})
