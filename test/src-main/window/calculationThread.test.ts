import { join } from 'node:path'
import { describe, expect, it } from 'vitest'
import { EMPTY_VISIT, type Visit } from '../../../src-core/visit/visit'
import { reportKeeper } from '../../../src-core/visit/visitReport'
import { BYTE_TOOLS } from '../../../src-main/files/byteTools'
import { threadCalculator } from '../../../src-main/window/calculationThread'
import { createCalculator } from '../../../src-main/window/calculator'
import type { Moments } from '../../../src-core/window/effects'
import { partsReceiver, partsSender } from '../../../src-main/window/visitParts'
import { inventedLog } from '../../helpers/analysisFixture'
import { visitLog } from '../../helpers/visits'
import { metHalfWay } from '../../helpers/waiting'
import { ENGLISH } from '../../../src-core/wording/english'

// The built thread that computes, and a double that ends by a fault.

const BUILT = join(import.meta.dirname, '../../../out/main/calculationWorker.js')
const ENDING = join(import.meta.dirname, '../../helpers/endingThread.mjs')

const NOON = { nowMs: Date.UTC(2026, 5, 30, 12), zone: 'Europe/Berlin' }
const NOW: Moments = { readAt: NOON, now: NOON, broughtAlong: null }
const FAULT: Moments = { ...NOW, now: { ...NOON, nowMs: 0 } }
const ALL = { show: 'all', text: '', meal: null, meter: null, fromHour: null } as const

const ROWS = inventedLog({ days: 40, firstDay: '2026-05-01', repeats: 0.1 })
const TEXT = `Time,Glucose (mg/dL)\n${ROWS.map(({ at, value }) => `${at},${value}\n`).join('')}`
const VISIT: Visit = { ...EMPTY_VISIT, logs: [visitLog('meter.csv', TEXT)] }

describe('the thread that computes', () => {
  it('gives what is computed without it, also after an edit and its undoing', async () => {
    const inThread = threadCalculator(BUILT)
    const here = createCalculator(ENGLISH, {
      visitReport: reportKeeper(ENGLISH, BYTE_TOOLS),
      reportPdf: () => Promise.reject(new Error('not asked for')),
    })
    const shorter: Visit = { ...VISIT, period: { from: 20_580, to: 20_600 }, unit: 'mmol/L' }
    for (const visit of [VISIT, shorter, VISIT]) {
      expect(await inThread.report(visit, NOW)).toEqual(await here.report(visit, NOW))
      expect(await inThread.picture()).toEqual(await here.picture())
      expect(await inThread.rows(ALL, 3, 7)).toEqual(await here.rows(ALL, 3, 7))
      expect(await inThread.reading(5)).toEqual(await here.reading(5))
    }
    expect(inThread.progress()).toBeNull()
  })

  it('tells how far it has come, and stops where it is told to', async () => {
    const calculator = threadCalculator(BUILT)
    expect((await calculator.report(VISIT, NOW)).kind).toBe('opened')
    const before = await calculator.rows(ALL, 0, 5)
    await metHalfWay(async (times) => {
      const long = `${TEXT}${TEXT.slice(TEXT.indexOf('\n') + 1).repeat(500 * times)}`
      const report = calculator.report({ ...VISIT, logs: [visitLog('long.csv', long)] }, NOW)
      let isOver = false
      void report.then(() => (isOver = true))
      const shares: number[] = []
      while (!isOver && (shares.at(-1) ?? 0) < long.length / 2) {
        const { bytesRead, bytesToRead } = calculator.progress() ?? { bytesRead: 0, bytesToRead: 0 }
        if (bytesToRead > 0) {
          expect(bytesToRead).toBe(2 * Buffer.byteLength(long))
          shares.push(bytesRead)
        }
        await new Promise((resolve) => setTimeout(resolve, 1))
      }
      calculator.cancel()
      const wasMet = (await report).kind === 'cancelled'
      if (wasMet) expect(shares.toSorted((a, b) => a - b)).toEqual(shares)
      // Over before anyone looked: the figures from before stand again.
      else expect((await calculator.report(VISIT, NOW)).kind).toBe('opened')
      return wasMet
    })
    expect(calculator.progress()).toBeNull()
    expect(await calculator.rows(ALL, 0, 5)).toEqual(before)
  })

  it('that ends by a fault says so, and the next question finds the figures that stood before', async () => {
    const calculator = threadCalculator(ENDING)
    await calculator.report(VISIT, NOW)
    const label: Visit = { ...VISIT, label: 'another' }
    await expect(Promise.all([calculator.report(label, FAULT), calculator.picture()])).rejects.toThrow(
      'a fault',
    )
    expect(calculator.progress()).toBeNull()
    expect(await calculator.reading(4)).toMatchObject({ question: { does: 'reading', index: 4 } })
    // The new thread was told all of the visit again.
    expect(await calculator.report(VISIT, NOW)).toMatchObject({ question: { visit: {} } })
  })
})

describe('a visit on its way to the thread', () => {
  it('arrives as it is, what did not change as the same object, the bytes of a log once', () => {
    const sent = partsSender()
    const received = partsReceiver(EMPTY_VISIT)
    const [log] = VISIT.logs
    const decided: Visit = {
      ...VISIT,
      decisions: [
        {
          reading: { at: '2026-05-02T07:00', value: '120', unit: 'mg/dL', meter: '', log: log.sha256 },
          choice: 'keep',
          reason: '',
          decidedAt: '2026-06-30T12:00',
        },
      ],
    }
    const answered: Visit = { ...decided, logs: [{ ...log, answers: { unit: 'mmol/L' } }] }
    const none: Visit = { ...answered, logs: [] }
    const messages = [VISIT, decided, answered, none, answered].map((visit) => structuredClone(sent(visit)))
    const visits = messages.map((message) => received(message))
    expect(visits).toEqual([VISIT, decided, answered, none, answered])
    expect(Object.keys(messages[1])).toEqual(['decisions'])
    expect(messages.map(({ logs }) => logs?.[0]?.bytes?.length)).toEqual([
      TEXT.length,
      undefined,
      undefined,
      undefined,
      undefined,
    ])
    expect(visits[1].logs).toBe(visits[0].logs)
    expect(visits[4].logs[0].bytes).toBe(visits[0].logs[0].bytes)
    expect(visits[4].kit).toBe(visits[0].kit)
  })
})
